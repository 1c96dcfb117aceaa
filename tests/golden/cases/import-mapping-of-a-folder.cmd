# Tables of another make: codes are words, units of portions stand in the portions, nothing is quoted, there is no header.
$ mkdir f; printf '1\tMill cr\350me 5" round\n2\tMill water\n' > f/food.tsv; printf 'NA\tg\nKCAL\tkcal\nKJ\tkJ\n' > f/nutrient.tsv; printf '2\tKJ\t418.4\n1\tNA\t0.5\n1\tKJ\t999\n1\tKCAL\t300\n' > f/amount.tsv; printf '1\t2\tslices\tcut thin\t46\n' > f/portion.tsv
$ printf 'import folder {\n separator tab\n quote none\n no header\n encoding latin-1\n source "Millrace survey, food"\n foods "food.tsv" { number column 1; name column 2 }\n nutrients "nutrient.tsv" { number column 1; unit column 2 }\n amounts "amount.tsv" { food column 1; nutrient column 2; amount column 3 }\n portions "portion.tsv" { food column 1; count column 2; unit column 3; words column 4; grams column 5 }\n per 100 g {\n sodium code "NA"\n energy code "KCAL", "KJ"\n }\n}\n' > f.map
$ "$QUERN" import f --map f.map --out p && cat p/f-0001.quern && "$QUERN" check p
status 0
out food mill crème 5 round {
out         energy 300 kcal; sodium 500 mg
out     2 slices cut thin = 46 g
out     source "Millrace survey, food 1"
out food mill water {
out         energy 100 kcal
