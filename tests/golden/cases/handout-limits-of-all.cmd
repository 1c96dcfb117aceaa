# Limits and goals of every nutrient are on the sheet, kept ones too, in words.
$ printf 'food mill groats { group oats; per 100 g { sodium 10 mg; potassium 100 mg; energy 100 kcal; fibre 2 g }; source "made up for this test" }\nrecipe "Gruel" { serves 1; 100 g mill groats; limit energy at most 200 kcal; limit fibre at least 3 g; goal potassium at least 50 mg; goal fibre at least 5 g; limit sodium to potassium at most 1 }\n' > k.quern; "$QUERN" report --for patients k.quern
status 1
out energy per serving: 100 kcal. Within the limit of 200 kcal.
out fibre per serving: 2 g. Less than the required 3 g.
out potassium per serving: 100 mg. The goal of 50 mg is reached.
out fibre per serving: 2 g. The goal of 5 g is not reached.
out Within the limit of 1
