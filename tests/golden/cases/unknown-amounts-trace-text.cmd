$ "$QUERN" trace Gruel sodium --kitchen "$CASES/unknown-amounts.quern" | tr -s ' '
status 0
out = g that go in 0 unknown unknown
out mill crystals: mg in 100 g 40000 40000 40000
out mill mystery: mg in 100 g 0 unknown unknown
