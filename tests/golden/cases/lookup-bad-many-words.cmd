$ "$QUERN" lookup $(yes bean | head -n 1000)
status 2
err quern: no name of a food is so long
