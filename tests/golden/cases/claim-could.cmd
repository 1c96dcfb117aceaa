$ printf 'recipe "Broth" {\nserves 4 of 245 g\nreference amount "soups"\n1 tsp table salt\n960 g water\n}\n' | "$QUERN" check --claims -
status 0
out Broth: what it could claim by the rules us
out refused: low sodium (21 CFR 101.61(b)(4), read)
out at most 140 mg is asked for
out table salt is among the ingredients
out reference amount of soups: 245 g (21 CFR 101.12(b), 2015 edition, read)
out not legal advice
