$ "$QUERN" lookup mill tuber --kitchen "$CASES/portion-source.quern"
status 0
out 1 cup = 150 g
out 1 cup diced = 140 g (120 to 160)  kitchen scale of the class
out 1 large = 200 g (180 to 220)  from memory
