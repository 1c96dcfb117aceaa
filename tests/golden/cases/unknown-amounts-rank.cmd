# Nobody knows how much broth the day has: its crystals are unknown, and the groats at least those of the day.
$ "$QUERN" rank --day "Open day" "$CASES/unknown-amounts.quern" | tr -s ' '
status 0
out mill groats at least 100 mg
out mill crystals unknown unknown
lacks crystals 0 mg
