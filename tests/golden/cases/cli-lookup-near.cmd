$ "$QUERN" lookup chickpeas; true
status 0
out canned chickpeas
