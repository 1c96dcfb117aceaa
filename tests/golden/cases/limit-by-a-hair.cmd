$ "$QUERN" check "$CASES/limit-by-a-hair.quern"
status 1
out sodium per serving is 400.001 mg, over the limit of 400 mg
