$ "$QUERN" report --servings 2x .
status 2
err quern report: --servings takes a number of servings above 0 and up to 100000, such as 24, not `2x`
