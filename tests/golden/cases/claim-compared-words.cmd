$ "$QUERN" check "$CASES/claim-compared"
$ "$QUERN" report "$CASES/claim-compared"
status 1
out write `Bought broth`
out a food stands without quotes: compared to mill broth
out no food is called `mil broth`
out write `mill broth`
out proved: reduced sodium, compared to mill broth (21 CFR 101.61(b)(6), read)
out proved: reduced sodium, compared to Bought broth (21 CFR 101.61(b)(6), read)
out sodium is 40% less than in `mill broth`; at least 41% less is asked for
out nothing here is called `Bougt broth`, to which it is compared
out   - sodium is 40% less than in `mill broth`
out   - sodium per 240 g is 360 mg here and 600 mg in `mill broth`
out   - sodium per 240 g is 360 mg here and 580 mg (574 to 586 mg) in `Bought broth`
