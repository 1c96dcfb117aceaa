$ printf 'id,food,na\n1,mill,1\n1,mill,2\n1,mill,3\n' > t.csv
$ printf 'import table {\n number column "id"\n name column "food"\n per 100 g { sodium column "na" mg }\n}\n' > t.map
$ "$QUERN" import t.csv --map t.map --out pantry; got=$?; ls -A; exit $got
status 1
out t.csv: row 4: error: `mill number 1` is the name of another food, even with its number behind it [import-row]
out 1 wrong row; nothing was written.
lacks pantry
