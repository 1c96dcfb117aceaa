# 2025-03-01 to 2026-03-01 are 365 days, to the next day 366; 1772323200 s are 2026-03-01, 1772409600 s the day after.
$ mkdir k; printf 'kitchen "K"\nfollow "House"\npolicy "House" { packets at most 365 days old }\npolicy "Strict" { packets at most 30 days old }\n' > k/kitchen.quern; printf 'label "Tin" { serving 100 g; sodium 200 mg; seen 2025-03-01 }\nlabel "Jar" { serving 100 g; sodium 200 mg }\nrecipe "A" {\nserves 1\n100 g "Tin"\n50 g "Tin"\n100 g "Jar"\n}\n' > k/a.quern
$ (for day in 2026-03-01 2026-03-02; do "$QUERN" check --today $day k | grep -c packet-old; done; SOURCE_DATE_EPOCH=1772323200 "$QUERN" check k | grep -c packet-old; SOURCE_DATE_EPOCH=1772409600 "$QUERN" check k | grep -c packet-old; SOURCE_DATE_EPOCH=1772409600 "$QUERN" check --today 2026-03-01 k | grep -c packet-old) | tr '\n' ' '; echo; "$QUERN" check --today 2026-03-02 k; "$QUERN" check --strict --today 2026-03-02 k > out; echo "strict $?"
$ sed -i 's/serves 1/serves 1\nfollow "Strict"/' k/a.quern; "$QUERN" check --today 2025-04-01 k
status 0
out 0 1 0 1 0
out 366 days ago; "House" asks for 365 at most
out strict 1
out nobody says when the packet of "Jar" was seen; "House" asks for 365 days at most
out was seen on 2025-03-01, 31 days ago; "Strict" asks for 30 at most
