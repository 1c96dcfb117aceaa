$ "$QUERN" report --as json --out out "$CASES/day-report.quern" > /dev/null; cat out/class-day.json
status 0
out {"name":"Class day"
out "recipes":[],"days":[
out "weeks":[],"findings":[
lacks Second day
