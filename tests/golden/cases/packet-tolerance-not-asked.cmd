# Nobody asks; a policy that one recipe follows does not ask for the whole kitchen.
$ mkdir k; printf 'kitchen "K"\nfollow "Law"\npolicy "Law" { tolerance legal }\n' > k/kitchen.quern; printf 'label "Broth" { serving 1 cup = 240 ml; sodium 580 mg; potassium 230 mg }\nlabel "Mild" { serving 1 cup = 240 ml; sodium 5 mg; potassium 0 mg }\nrecipe "A" {\nserves 1\nlimit sodium at most 600 mg\ngoal potassium at least 180 mg\n1 serving "Broth"\n}\nrecipe "B" {\nserves 1\n1 serving "Mild"\n}\n' > k/a.quern
$ sed -i 's/follow "Law"//' k/kitchen.quern; sed -i 's/serves 1/serves 1\nfollow "Law"/' k/a.quern; "$QUERN" check k >&2; "$QUERN" report --as json --recipe A k
status 0
err tolerance-in-recipe
schema report
same recipes/0/tolerance false
same recipes/0/per_serving/sodium/high 585
same recipes/0/per_serving/potassium/high 235
