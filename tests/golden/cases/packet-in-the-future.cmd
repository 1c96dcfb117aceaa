# Tomorrow has begun elsewhere: one day ahead is well, two are not.
$ mkdir k; printf 'kitchen "K"\nfollow "House"\npolicy "House" { packets at most 365 days old }\npolicy "Strict" { packets at most 30 days old }\n' > k/kitchen.quern; printf 'label "Tin" { serving 100 g; sodium 200 mg; seen 2025-03-01 }\nlabel "Jar" { serving 100 g; sodium 200 mg }\nrecipe "A" {\nserves 1\n100 g "Tin"\n50 g "Tin"\n100 g "Jar"\n}\n' > k/a.quern
$ "$QUERN" check --today 2025-02-28 k | grep -c "today is"; "$QUERN" check --today 2025-02-27 k
status 1
out 0
out the packet was seen on 2025-03-01, and today is 2025-02-27
