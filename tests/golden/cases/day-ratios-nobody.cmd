$ "$QUERN" report --recipe "Nobody" "$CASES/day-ratios.quern"
status 0
out 4% of the daily value of 2300 mg
