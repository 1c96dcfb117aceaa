# A trace keeps the words of the language.
$ "$QUERN" trace Told --kitchen "$CASES/evidence.quern"
status 0
out mill two (measured on a like food)
out mill five (from memory)
