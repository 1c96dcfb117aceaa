$ printf 'recipe "Yogurt soup" {\nserves 4 of 245 g\nreference amount "yogurt"\n960 g water\nclaim "low sodium"\n}\n' | "$QUERN" report -
status 0
out proved: low sodium (21 CFR 101.61(b)(4), read)
out 2016; not checked
out against the regulation)
out not legal advice
