$ "$QUERN" compare Gruel "A pot" --kitchen "$CASES/compare.quern"
status 0
out The second does not say how many it serves
out sodium per 100 g: the second holds
out does not compare
lacks sodium per serving: the second
lacks Where the difference
