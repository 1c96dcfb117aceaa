# What both have cancels, so no more than nothing is known of the difference below: the second holds no less.
$ "$QUERN" compare Gruel "Gruel with something" --kitchen "$CASES/compare.quern"
status 1
out sodium per serving: no certain difference (no less; how much more nobody knows)
out at least 850 mg
out Of a line of the second nobody knows the sodium
