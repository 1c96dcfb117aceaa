$ cd "$CASES" && "$QUERN" report --as csv --lines --recipe Over held
status 1
out limit,Over,held/dishes.quern,2,,,,,,,,,,,,,,,,,,,BROKEN: limit: sodium per serving at most 400 mg (Mill); it is 500 mg
