$ "$QUERN" lookup zzzzqqqq --as csv | wc -l
status 0
out 1
