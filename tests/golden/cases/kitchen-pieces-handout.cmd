$ "$QUERN" report --for patients "$CASES/kitchen-pieces.quern"
status 0
out 1/8 tsp
lacks 0.125
