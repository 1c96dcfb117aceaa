# Eggs of two kinds are bought as eggs, not by the ounce; of two large cloves no word is lost.
$ "$QUERN" shopping Plate --kitchen "$CASES/kitchen-pieces.quern" | tr -s ' '
status 0
out egg 2, 1 × large about
out garlic 2 × large clove about
