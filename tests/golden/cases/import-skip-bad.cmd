# 25 wrong rows: 20 are shown, all are counted, the good one between them is written.
$ { echo id,food,na; for i in $(seq 12); do echo "$i,mill a$i,x"; done; echo 13,mill good,5; for i in $(seq 13); do echo "$i,mill b$i,y"; done; } > t.csv
$ printf 'import table {\n number column "id"\n name column "food"\n per 100 g { sodium column "na" mg }\n}\n' > t.map
$ "$QUERN" import t.csv --map t.map --out pantry --skip-bad > said || exit 9; grep -c 'import-row' said; tail -n 2 said; cat pantry/*; "$QUERN" check pantry
status 0
out 20
out 1 food in pantry/t-0001.quern
out 25 wrong rows, of which the first 20 are shown: they were left out
out food mill good {
lacks mill a1
lacks mill b
