$ "$QUERN" lookup beans --group ''
status 2
err no group is called ``
