# Names that hold all of the words come first, those that lie near (mild, milk) behind, under a heading of their own.
$ "$QUERN" lookup mild --limit 200 --kitchen "$CASES/kitchen-lookup" >out; s=$?; grep -n 'hold\|millrace\|near\|^whole milk' out; exit $s
status 0
out 1:20 foods hold `mild`:
out :millrace mild beans
out :names near the words:
out :whole milk
