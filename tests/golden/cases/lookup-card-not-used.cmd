$ cd "$CASES"; "$QUERN" lookup canned chickpeas --kitchen kitchen-lookup
status 0
out used by no line in kitchen-lookup
