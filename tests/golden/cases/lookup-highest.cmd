$ "$QUERN" lookup beans millrace --highest potassium --as csv --kitchen "$CASES/kitchen-lookup" | cut -d, -f1,7 | tr '\n' ' '
status 0
out millrace old beans,300 millrace beans,100 millrace mild beans,0.0004 
