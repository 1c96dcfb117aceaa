$ "$QUERN" report --recipe "Exact" "$CASES/day-ratios.quern"
status 0
out sodium to potassium, by mass: 0.50
out sodium to potassium, by moles: 0.85
out sodium in mg per 1000 kcal: 1000
lacks (0.50 to
lacks (0.85
lacks (1000 to
lacks % of the daily value
