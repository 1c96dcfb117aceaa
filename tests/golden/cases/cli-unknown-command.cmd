$ "$QUERN" grind
status 2
err grind
