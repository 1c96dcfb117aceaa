# All words first, the shorter name first; near names behind them.
$ "$QUERN" lookup beans millrace --limit 9 --kitchen "$CASES/kitchen-lookup" >out; s=$?; grep -n millrace out; exit $s
status 0
out 1:3 foods hold `beans millrace`:
out 4:millrace beans 
out 6:millrace old beans 
out 8:millrace mild beans 
