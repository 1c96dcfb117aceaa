# What is known of the open line is most of it: 400 of 500 mg. It is neither passed over nor unknown.
$ "$QUERN" report --for patients --recipe Open "$CASES/more-to-taste.quern" | tr -s " "
$ "$QUERN" report --recipe Open "$CASES/more-to-taste.quern" | tr -s " "
$ "$QUERN" trace Closed --kitchen "$CASES/more-to-taste.quern" | tr -s " "
$ "$QUERN" trace Open --record --kitchen "$CASES/more-to-taste.quern" | tr -s " "
status 0
out mill crystals, plus more to taste (80%)
lacks mill groats (100%)
out 1 g mill crystals, plus more to taste at least 400 mg cook
out + g of more, up to some of it 0 0 1
out 1 g mill crystals, plus more to taste 1 unknown at least 400
