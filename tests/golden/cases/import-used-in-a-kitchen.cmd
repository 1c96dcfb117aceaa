# 50 g of a food with 400 mg sodium per 100 g, and one serving of 30 g with 90 mg: 290 mg in all.
$ printf 'id\tfood\tNa\tg\n1\tMill paste\t400\t\n' > t.tsv; printf 'id;food;Na;g\n2;Mill wafer;90;30\n3;Mill rusk;12,5;25\n' > s.csv
$ printf 'import table {\n number column "id"\n name column "food"\n per 100 g { sodium column "Na" mg }\n}\n' > t.map
$ printf 'import table {\n separator ";"\n decimal comma\n number column 1\n name column 2\n serving column 4 g\n per 1 serving { sodium column 3 mg }\n}\n' > s.map
$ "$QUERN" import t.tsv --map t.map --out lib > /dev/null && "$QUERN" import s.csv --map s.map --out lib --prefix wafers > /dev/null || exit 9
$ mkdir k; printf 'kitchen "Millrace"\nuse "../lib/t-0001.quern"\nuse "../lib/wafers-0001.quern"\n' > k/kitchen.quern; printf 'recipe "Bite" {\nserves 1\n50 g mill paste\n1 serving mill wafer\n}\n' > k/bite.quern
$ cat lib/wafers-0001.quern; "$QUERN" check lib && "$QUERN" check --allow . k && "$QUERN" report --allow . --as json k | tr -d ' \n' > r; grep -o '"serving_mass":[^}]*' r; grep -o '"sodium":{"unit":"mg"[^}]*,"complete":true' r
status 0
out per 30 g {
out sodium 12.5 mg
out 1 serving = 30 g
out "serving_mass":{"unit":"g","low":80,"best":80,"high":80
out "sodium":{"unit":"mg","low":290,"best":290,"high":290,"complete":true
lacks error
lacks warning
