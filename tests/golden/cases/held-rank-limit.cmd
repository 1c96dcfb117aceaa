# As many as lines are asked for; the others are counted.
$ "$QUERN" rank --limit 1 "$CASES/held" | sed 's/  */ /g'
status 0
out Over limit: sodium per serving at most 400 mg (Mill) BROKEN 500 mg
out And one more.
lacks Doubt limit
