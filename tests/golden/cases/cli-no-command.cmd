$ "$QUERN"
status 2
err quern
