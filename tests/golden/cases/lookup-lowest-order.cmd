$ "$QUERN" lookup beans millrace --lowest sodium --as csv --kitchen "$CASES/kitchen-lookup" | cut -d, -f1,7 | tr '\n' ' '
status 0
out name,sodium_mg_per_100_g_best millrace mild beans,0 millrace beans,200 millrace old beans,unknown 
