# 100 mg in 20 g are 500 mg in 100 g; the large packet holds 300 mg in 100 g: less, though a serving of it holds more.
$ "$QUERN" compare "Small packet" "large packet" --kitchen "$CASES/compare.quern"
status 0
out sodium per serving: the second holds 200 mg more
out sodium per 100 g: the second holds 200 mg less
out THE SERVINGS DIFFER: one of the first is 20 g (19.5 to 20.5)
out Per serving the second holds more sodium, but per 100 g the first does
