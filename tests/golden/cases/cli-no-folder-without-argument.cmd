# Without a path the folder one stands in is meant, and this one holds nothing.
$ "$QUERN" check
status 2
