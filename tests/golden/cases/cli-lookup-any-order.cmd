$ "$QUERN" lookup Garbanzo Bean canned
status 0
out canned chickpeas
