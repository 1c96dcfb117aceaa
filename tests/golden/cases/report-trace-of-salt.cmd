# A label prints 0 for less than 5 mg (21 CFR 101.9(c)(4)); with salt among the ingredients that is no 0, wherever it is told.
$ printf 'label "Broth" { serving 1 cup = 240 ml; sodium 0 mg; ingredients "water, carrots, salt" }\nrecipe "Lab" {\nserves 1\n1 serving "Broth"\n}\nrecipe "Two" {\nserves 1\n2 servings "Broth"\n}\n' > a.quern
$ "$QUERN" report a.quern; "$QUERN" report --as jsonld a.quern
status 0
out sodium per serving: less than 5 mg
out "sodiumContent":"less than 5 mg"
out sodium per serving: 0 mg (0 to 10)
lacks 0.00 tsp
