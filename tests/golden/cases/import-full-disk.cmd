# No room: 64 KiB a file at most, then a full device behind standard output. Nothing is left of either.
$ { echo id,food,na; for i in $(seq 4000); do echo "$i,mill food of the number $i,5"; done; } > t.csv
$ printf 'import table {\n number column "id"\n name column "food"\n per 100 g { sodium column "na" mg }\n}\n' > t.map
$ (ulimit -f 128; "$QUERN" import t.csv --map t.map --out pantry); echo "first $?"
$ "$QUERN" import t.csv --map t.map --out pantry > /dev/full; echo "second $?"; ls -A | tr '\n' ' '; "$QUERN" import t.csv --map t.map --out pantry && ls -A pantry
status 0
out first 2
out second 2
out t.csv t.map 4000 foods in pantry/t-0001.quern
out t-0001.quern
err File too large
err the output cannot be written
