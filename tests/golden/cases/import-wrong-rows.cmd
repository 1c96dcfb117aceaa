# Every wrong row is told with its number, and none of them is written: the folder is not even there.
$ printf 'id,food,na,unit\n1,mill a,abc,mg\n2,mill b,-1,mg\n3,mill c,nan,mg\n4,mill d,1e999,mg\n5,mill e,100001,mg\n6,mill f,1,furlong\n7,mill g,1\n8,"mill h"x,1,mg\n9,mi"ll,1,mg\n10,...,1,mg\n11,mill \377,1,mg\n12,fine,1,mg\n13,"open,1,mg\n' > t.csv
$ printf 'import table {\n number column "id"\n name column "food"\n per 100 g { sodium column "na" unit column "unit" }\n}\n' > t.map
$ "$QUERN" import t.csv --map t.map --out pantry; got=$?; test -e pantry && echo there; exit $got
status 1
out t.csv: row 2: error: `abc` in na is no number [import-row]
out t.csv: row 3: error: `-1` in na is below zero [import-row]
out t.csv: row 4: error: `nan` in na is no number [import-row]
out t.csv: row 5: error: `1e999` in na is more than a food of anything can hold [import-row]
out t.csv: row 6: error: `100001` in na is more than 100 g of anything can hold [import-row]
out t.csv: row 7: error: `furlong` is no unit of sodium [import-row]
out t.csv: row 8: error: this row has 3 columns and not 4 [import-row]
out t.csv: row 9: error: something stands behind the quote that closes a field [import-row]
out t.csv: row 10: error: a quote stands inside a field that does not begin with one [import-row]
out t.csv: row 11: error: no word is left of the name `...` [import-row]
out t.csv: row 12: error: the text in food is not UTF-8 [import-row]
out t.csv: row 14: error: a quote opens in this row
out 12 wrong rows; nothing was written.
out try: write plain digits
lacks there
lacks row 13
