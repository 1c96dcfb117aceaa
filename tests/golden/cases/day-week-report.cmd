$ "$QUERN" report --recipe "Two days" "$CASES/day-week-limits.quern"
status 1
out limit: sodium per day on average at most 2500 mg        kept     2000 mg      Inside, 3000 mg
out on average   furthest
out Cautions
out Are you under medical care?
out (Shown because potassium is a goal here.)
out limit: sodium per day on average between 1000 mg and 3000 mg
