$ "$QUERN" lookup beans --limit 2 --format csv | wc -l
status 0
out 3
