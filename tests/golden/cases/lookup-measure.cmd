$ "$QUERN" lookup pinch
status 0
out pinch: a measure that nobody has fixed, 0.148 to 0.616 ml, 0.296 at best
out no standard: about 1/16 tsp by spoon sets
lacks no food holds
$ "$QUERN" lookup teaspoons | head -1
status 0
out teaspoon: a measure of 4.928921594 ml
$ "$QUERN" lookup heaped
status 0
out heaped: a measure that nobody has fixed, 1.3 to 1.7 times the plain one, 1.5 at best
$ "$QUERN" lookup --as csv pinch
status 1
