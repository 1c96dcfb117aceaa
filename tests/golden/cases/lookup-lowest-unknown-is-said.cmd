$ "$QUERN" lookup beans millrace --lowest sodium --kitchen "$CASES/kitchen-lookup"
status 0
out 3 foods hold `beans millrace`; lowest sodium first:
out 1 of 3 foods stand last because nobody knows their sodium
