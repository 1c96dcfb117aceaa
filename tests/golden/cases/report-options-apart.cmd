# Options that do not go together are refused, and never ignored.
$ printf 'recipe "Soup" {\n    serves 1\n    1 cup water\n}\n' > a.quern; "$QUERN" report --for patients --panel a.quern; echo 1 $?; "$QUERN" report --servings 2 --panel a.quern; echo 2 $?; "$QUERN" report --as json --lines a.quern; echo 3 $?; "$QUERN" report --lines a.quern; echo 4 $?; SOURCE_DATE_EPOCH=soon "$QUERN" report --dated a.quern; echo 5 $?
status 0
out 1 2
out 2 2
out 3 2
out 4 2
out 5 2
err a panel is of a report; leave out --for and --servings, or --panel
err --lines is for CSV: write --as csv --lines
err --dated knows no day: SOURCE_DATE_EPOCH holds no seconds since 1970
# A handout is dated as a page is, where that is asked for.
$ printf 'recipe "Soup" {\n    serves 1\n    1 cup water\n}\n' > a.quern; "$QUERN" report --for patients --dated --today 2026-02-01 a.quern | tail -n 2; "$QUERN" report --for patients --today 2026-02-01 a.quern | tail -n 2
status 0
out on 2026-02-01.
out Figures are estimates, made with Quern 0.2.0.
