# Printed 5 mg: rounding alone allows 7.5 mg, 120% only 6 mg. Printed 0 mg of potassium: nothing below.
$ mkdir k; printf 'kitchen "K"\nfollow "Law"\npolicy "Law" { tolerance legal }\n' > k/kitchen.quern; printf 'label "Broth" { serving 1 cup = 240 ml; sodium 580 mg; potassium 230 mg }\nlabel "Mild" { serving 1 cup = 240 ml; sodium 5 mg; potassium 0 mg }\nrecipe "A" {\nserves 1\nlimit sodium at most 600 mg\ngoal potassium at least 180 mg\n1 serving "Broth"\n}\nrecipe "B" {\nserves 1\n1 serving "Mild"\n}\n' > k/a.quern
$ "$QUERN" report --as json --recipe B k
status 0
schema report
same recipes/0/packets/0/per_serving/sodium/by_law/high 7.5
same recipes/0/packets/0/per_serving/potassium/by_law/low 0
