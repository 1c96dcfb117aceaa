$ "$QUERN" lookup of
status 2
err these are no words of a name
