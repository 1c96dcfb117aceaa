$ "$QUERN" check --no-such-option
status 2
err --no-such-option
