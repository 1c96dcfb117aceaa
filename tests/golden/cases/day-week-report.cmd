$ "$QUERN" report --recipe "Two days" "$CASES/day-week-limits.quern"
status 1
out kept     limit: sodium per day on average at most 2500 mg; it is 2000 mg
out furthest: Inside, 3000 mg
out Cautions
out People under medical care follow the figures
out (Told because potassium is an aim here.)
out between 1000 mg and 3000 mg; it is 2000 mg
