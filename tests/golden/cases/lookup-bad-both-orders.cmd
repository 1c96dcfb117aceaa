$ "$QUERN" lookup beans --lowest sodium --highest potassium
status 2
err not by both
