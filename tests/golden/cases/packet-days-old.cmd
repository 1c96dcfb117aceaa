$ mkdir k; printf 'kitchen "K"\nfollow "House"\npolicy "House" { packets at most 365 days old }\npolicy "Strict" { packets at most 30 days old }\n' > k/kitchen.quern; printf 'label "Tin" { serving 100 g; sodium 200 mg; seen 2025-03-01 }\nlabel "Jar" { serving 100 g; sodium 200 mg }\nrecipe "A" {\nserves 1\n100 g "Tin"\n50 g "Tin"\n100 g "Jar"\n}\n' > k/a.quern
$ "$QUERN" report --today 2025-03-11 k | grep "Tin, seen 2025-03-01 (10 days ago)" >&2; "$QUERN" report --as json --today 2025-03-11 k
status 0
err Tin, seen 2025-03-01 (10 days ago)
schema report
same recipes/0/packets/0/seen "2025-03-01"
same recipes/0/packets/0/days_old 10
