$ "$QUERN" check "$CASES/day-ages.quern"
status 1
out 12 months is no age of infant
out infant is 0 to 11 months
out 6 months is no age of child
out 19 years is no age of child
out child is 1 to 18 years
out 121 years is no age of adult
out 13 years is no age of pregnant
lacks error: 1 years
