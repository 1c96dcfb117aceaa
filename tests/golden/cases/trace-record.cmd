# 21 CFR 101.11(c)(3)(i), (A) to (G).
$ "$QUERN" trace Gruel --record --kitchen "$CASES/trace.quern" | tr -s " "
status 0
out Record of nutrient values: Gruel
out no statement of compliance
out (A) The database and the program
out checksum
out (B) The recipe
out - 200 g mill beans, mill washed
out 1. Stir.
out (C) What each ingredient brings to a serving, and the calculation
out = mg per serving 87 105 126
out (D) The values that were determined
out sodium, mg
out (E) What shifts the values
out - 200 g mill beans, mill washed: mill washed (estimated)
out (F), (G) Statements to be signed
out signature ____________________ date ____________________
out Strongest first: measured,
out Are you under medical care?
