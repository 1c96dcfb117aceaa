$ "$QUERN" report --recipe "class DAYS" "$CASES/day-report.quern"
status 1
out A day for adult woman 35
out eats 1 serving "Soup"
out In no meal
lacks A day for child
