$ "$QUERN" lookup chickpeas
status 0
out chickpeas
