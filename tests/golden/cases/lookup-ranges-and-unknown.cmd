# 200 mg and 90 to 120 mg in 100 g; a cup of 240 to 260 g. Unknown is a word, tiny is not zero.
$ "$QUERN" lookup beans millrace --limit 9 --kitchen "$CASES/kitchen-lookup" >out; tr -s ' ' <out
status 0
out millrace beans 100 g 200 90 to 120
out 1 cup = 240 to 260 g 480 to 520 216 to 312
out millrace old beans 100 g unknown 300
out no usual portion is known
out millrace mild beans 100 g 0 0.0004
out 1 cup drained = 150 g 0 0.0006
out All numbers are estimates
out Too much potassium can be dangerous
