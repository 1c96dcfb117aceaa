$ "$QUERN" report --as json --out out "$CASES/day-report.quern" > /dev/null; cat out/class-week.json
status 0
schema report
same weeks/0/name "Class week"
same weeks/0/days/2/known false
