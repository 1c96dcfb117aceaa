$ "$QUERN" lookup beans millrace --limit 2 --kitchen "$CASES/kitchen-lookup"
status 0
out 2 of 3 are shown
lacks millrace mild beans
