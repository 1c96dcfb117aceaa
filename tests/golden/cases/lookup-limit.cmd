$ "$QUERN" lookup beans --limit 2 --as csv | wc -l
status 0
out 3
