$ printf 'food,na,na,g\na mill,1,2,3\n' > t.csv
$ printf 'import table {\n    name column "food"\n    frobs column "x"\n    per 100 g {\n        sodium column "na" ml\n        kryptonite column "na" mg\n    }\n}\n' > a.map; "$QUERN" import t.csv --map a.map --out p; echo 1 $?
$ printf 'import table {\n    name column "foods"\n    per 100 g { sodium column "na" mg }\n}\n' > b.map; "$QUERN" import t.csv --map b.map --out p --skip-bad; echo 2 $?; printf 'import table {\n    source "x"\n}\n' > c.map; "$QUERN" import t.csv --map c.map --out p; echo 3 $?; ls -A | tr '\n' ' '
status 0
out a.map:3:5: error: `frobs column "x"` is no statement that a mapping has here [import-map]
out a.map:5:9: error: `ml` is no unit of sodium [import-map]
out a.map:6:9: error: no nutrient is called `kryptonite` [unknown-nutrient]
out 1 1
out b.map:2:5: error: no column of t.csv is called `foods` [import-map]
out try: its columns are food, na, na, g
out b.map:3:17: error: several columns of t.csv are called `na` [import-map]
out try: count it instead: `column 2` is the first of them
out 2 1
out c.map:1:1: error: the mapping does not say which column holds the names [import-map]
out c.map:1:1: error: the mapping does not say which columns hold figures [import-map]
out 3 1
out a.map b.map c.map t.csv
