$ "$QUERN" check no-such-file.quern
status 2
err no-such-file.quern
