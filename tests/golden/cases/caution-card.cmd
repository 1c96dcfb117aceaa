# The card of a food says what is dangerous in it, first of all.
$ "$QUERN" lookup "sodium hydroxide"; "$QUERN" lookup "pink curing salt"; "$QUERN" lookup "table salt" | grep -c '^danger' >&2
status 1
out danger: This is a pure chemical and no seasoning: it burns
out danger: Curing salt is a poison
err 0
