# Of one day what is kept is told, too.
$ "$QUERN" rank --day Short "$CASES/held" | sed 's/  */ /g'
status 0
out Short limit: sodium per day at most 600 mg kept 200 mg
lacks BROKEN
