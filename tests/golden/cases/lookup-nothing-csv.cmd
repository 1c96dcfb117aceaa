$ "$QUERN" lookup zzzzqqqq --format csv | wc -l
status 0
out 1
