$ "$QUERN" report "$CASES/bad-unknown-food.quern"
status 1
out Unknown
