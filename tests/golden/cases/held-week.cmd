# Beside the figure of each day of a week stands whether the day keeps what it is held to itself.
$ "$QUERN" report --recipe All "$CASES/held" | sed 's/  */ /g'
status 0
out day sodium potassium limits and goals
out Long 700 mg 350 mg 1 limit broken
out Short 200 mg 100 mg kept
out Loose 200 mg 100 mg none stands
out limit: sodium per day on average at most 500 mg kept 367 mg Long, 700 mg
