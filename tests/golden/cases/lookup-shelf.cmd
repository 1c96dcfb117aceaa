# A plain word that stands for kinds: salted 643 mg (USDA SR28 NDB 01001), unsalted 11 mg (01145).
$ "$QUERN" lookup butter >out; s=$?; tr -s ' ' <out; exit $s
status 0
out butter comes in kinds
out salted butter 100 g 643 24
out unsalted butter 100 g 11 24
