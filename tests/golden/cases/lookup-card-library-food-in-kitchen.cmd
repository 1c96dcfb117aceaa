$ cd "$CASES"; "$QUERN" lookup kale --kitchen kitchen-lookup
status 0
out used by 1 line in kitchen-lookup
out   kitchen-lookup/soup.quern:5: 100 g kale  ("Bean soup")
