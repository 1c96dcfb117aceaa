$ for n in 0 -1 x 1.5 '' 99999999999999999999; do "$QUERN" lookup beans --limit "$n" && exit 9; done
status 2
err --limit takes a number from 1 to 1000000, not `99999999999999999999`
err not `-1`
