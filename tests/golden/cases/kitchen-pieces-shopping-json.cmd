$ "$QUERN" shopping Plate --kitchen "$CASES/kitchen-pieces.quern" --as json
status 0
schema shopping
