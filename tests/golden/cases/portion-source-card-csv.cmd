# In the list the portion that cooks use most stands, with its source: the first that the food has.
$ printf 'food mill peel {\n per 100 g { sodium 5 mg }\n 1 strip = 2 g "from memory"\n source "mill table, row 8"\n}\n' > peel.quern && "$QUERN" lookup mill peel --kitchen peel.quern --as csv
status 0
out ,"mill table, row 8",from memory
