$ "$QUERN" lookup
status 2
err write the name of a food behind it
