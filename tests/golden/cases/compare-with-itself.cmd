# Nobody knows what is in the mystery, but it is the same mystery.
$ "$QUERN" compare "Gruel with something" "gruel with something" --kitchen "$CASES/compare.quern"
status 1
out sodium per serving: no difference
out Both are the same through and through.
out Of a line of the first nobody knows the sodium: it holds more than is told.
