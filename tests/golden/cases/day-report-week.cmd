$ "$QUERN" report --recipe "Class weeks" "$CASES/day-report.quern"
status 1
out Average of 3 days:
out Third day   unknown: no such day
lacks for adult woman
