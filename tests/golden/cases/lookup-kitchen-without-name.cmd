$ cd "$CASES"; "$QUERN" lookup millrace --kitchen kitchen-lookup
status 0
out which recipes use a food stands on its card
