$ "$QUERN" lookup millr bea --kitchen "$CASES/kitchen-lookup"
status 1
out the names of 3 foods lie near
