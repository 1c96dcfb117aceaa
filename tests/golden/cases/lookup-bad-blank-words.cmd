$ "$QUERN" lookup '' ' '
status 2
err there are no words to look for
