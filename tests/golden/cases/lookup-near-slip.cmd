$ "$QUERN" lookup millrace baens --kitchen "$CASES/kitchen-lookup"
status 1
out no food holds `millrace baens`; the names of 3 foods lie near:
out millrace old beans
