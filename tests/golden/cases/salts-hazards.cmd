# What is poison by the spoon stands apart on the sheet of salts, with the reason; a teaspoon of strong curing salt
# (6 g at 6.25% nitrite) has 0.9375 × 38758 + 0.0625 × 33320 mg a 100 g, some 2,305 mg.
$ "$QUERN" salts
status 0
out Not for seasoning
out Curing salt is a poison
out small spoon of it can poison
out pickling salt
