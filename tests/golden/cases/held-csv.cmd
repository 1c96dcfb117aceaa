# Each limit and goal is a row, the kept ones, too, of recipes, days and weeks.
$ cd "$CASES" && "$QUERN" report --as csv held
status 1
out limit,Over,held/dishes.quern,2,,,,,,,,,,,,,,BROKEN: limit: sodium per serving at most 400 mg (Mill); it is 500 mg
out goal,Over,held/dishes.quern,2,,,,,,,,,,,,,,kept: goal: potassium per serving at least 150 mg (Mill); it is 250 mg
out limit,Within,held/dishes.quern,6,,,,,,,,,,,,,,kept: limit: sodium per serving at most 400 mg (Mill); it is 200 mg
out goal,Within,held/dishes.quern,6,,,,,,,,,,,,,,missed: goal: potassium per serving at least 150 mg (Mill); it is 100 mg
out limit,Doubt,held/dishes.quern,10,,,,,,,,,,,,,,in doubt: limit: sodium per serving at most 400 mg (Mill); it is 400 mg (300 to 500 mg)
out limit,Long,held/days.quern,1,,,,,,,,,,,,,,BROKEN: limit: sodium per day at most 600 mg; it is 700 mg
out limit,Short,held/days.quern,6,,,,,,,,,,,,,,kept: limit: sodium per day at most 600 mg; it is 200 mg
out limit,All,held/days.quern,14,,,,,,,,,,,,,,kept: limit: sodium per day on average at most 500 mg; it is 367 mg
lacks limit,Free
lacks limit,Loose
