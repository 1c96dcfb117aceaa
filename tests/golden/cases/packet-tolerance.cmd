# Sodium: at most 120% of 580 mg, 696 mg; potassium: at least 80% of 230 mg, 184 mg. The limit is kept by rounding alone.
$ mkdir k; printf 'kitchen "K"\nfollow "Law"\npolicy "Law" { tolerance legal }\n' > k/kitchen.quern; printf 'label "Broth" { serving 1 cup = 240 ml; sodium 580 mg; potassium 230 mg }\nlabel "Mild" { serving 1 cup = 240 ml; sodium 5 mg; potassium 0 mg }\nrecipe "A" {\nserves 1\nlimit sodium at most 600 mg\ngoal potassium at least 180 mg\n1 serving "Broth"\n}\nrecipe "B" {\nserves 1\n1 serving "Mild"\n}\n' > k/a.quern
$ "$QUERN" report --recipe A k >&2; "$QUERN" report --as json --recipe A k
status 0
err sodium a serving: 580 mg (570 to 590) by rounding; by law 580 mg (0 to 700)
err potassium a serving: 230 mg (220 to 240) by rounding; by law at least 180 mg
err limit: sodium per serving at most 600 mg     in doubt  580 mg (0 to 696 mg)
err goal: potassium per serving at least 180 mg  kept      at least 184 mg
schema report
same recipes/0/tolerance true
same recipes/0/packets/0/per_serving/sodium/by_rounding/low 575
same recipes/0/packets/0/per_serving/sodium/by_rounding/high 585
same recipes/0/packets/0/per_serving/sodium/by_law/low 0
same recipes/0/packets/0/per_serving/sodium/by_law/best 580
same recipes/0/packets/0/per_serving/sodium/by_law/high 696
same recipes/0/packets/0/per_serving/potassium/by_law/low 184
same recipes/0/packets/0/per_serving/potassium/by_law/high null
same recipes/0/per_serving/sodium/high 696
same recipes/0/per_serving/potassium/low 184
same recipes/0/per_serving/potassium/best null
