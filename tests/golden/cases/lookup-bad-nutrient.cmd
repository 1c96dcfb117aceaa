$ "$QUERN" lookup beans --lowest sodum
status 2
err no nutrient is called `sodum`; near names are sodium
