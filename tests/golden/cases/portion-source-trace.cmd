# The diced cup is the class's, the plain one the food's; of a tuber without a size all three sizes speak.
$ K="$CASES/portion-source.quern"
$ "$QUERN" trace Tubers sodium --kitchen "$K" --as json
status 0
schema trace
same recipes/0/lines/0/measure/1/step "portion"
same recipes/0/lines/0/measure/1/source "kitchen scale of the class"
same recipes/0/lines/0/source "mill table, row 7"
same recipes/0/lines/1/measure/1/source "mill table, row 7"
same recipes/0/lines/2/measure/0/step "piece"
same recipes/0/lines/2/measure/0/source "weighed by the class; mill table, row 7; from memory"
