$ "$QUERN" lookup old beans millrace --as csv --kitchen "$CASES/kitchen-lookup" | tail -n 1
status 0
out millrace old beans,millrace old beans,name,canned legumes,not stated,unknown,unknown,unknown,300,300,300,none,unknown,unknown,unknown,unknown,unknown,unknown,unknown,unknown,unknown,made up
