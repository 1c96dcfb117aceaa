$ "$QUERN" check "$CASES/doubt-advice.quern"
status 0
out because: `50 to 150 g mill even` alone is anything from 50 mg to 150 mg: give one amount instead of a range
out because: `1 cup mill even` alone is anything from 50 mg to 150 mg: weigh it
out because: `1 to 1.25 cups mill even` alone is anything from 50 mg to 188 mg: weigh it
out because: `100 g mill wide` alone is anything from 50 mg to 150 mg: the food itself differs so much; the label of yours may say more exactly
out because: `100 g mill even, mill washed` alone is anything from 20 mg to 80 mg: no source says more exactly what is done to it; weigh what is left of it
out because: `1 cup "Mill broth"` alone is anything from 97.5 mg to 102 mg: ask the maker for the figure before rounding
out because: `100 g mill crisp` alone is anything from 0 mg to 100 mg: no source says whose it is; its maker may
out because: `100 g mill even, optional` alone is anything from 0 mg to 100 mg: say whether it goes in
out because: `1 serving "Food"` alone is anything from 50 mg to 150 mg: see there which line is the widest
