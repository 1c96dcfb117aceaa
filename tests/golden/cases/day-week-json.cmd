$ "$QUERN" report --as json "$CASES/day-week-limits.quern"
status 1
schema report
same weeks/6/limits/0/outcome "in doubt"
same weeks/6/limits/0/furthest_day/day "Low"
same weeks/0/cautions/0/because "potassium is a goal here"
