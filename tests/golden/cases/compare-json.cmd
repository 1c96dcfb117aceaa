# Twice the servings: what both have counts by a quarter instead of a half. Groats 50 to 25, dust 1000 (600 to 1400) to half
# of it, crystals 200 to 100: a serving holds 625 mg (425 to 825) less, and weighs half.
$ "$QUERN" compare Gruel "Gruel for four" --as json --kitchen "$CASES/compare.quern"
status 0
schema compare
same first/name "Gruel"
same first/kind "recipe"
same first/servings {"low": 2, "best": 2, "high": 2}
same second/servings {"low": 4, "best": 4, "high": 4}
same first/serving_grams {"low": 52, "best": 53, "high": 54}
same identical false
same serving_sizes "differ"
same orders_differ false
same lines/0/first "1 tsp mill dust"
same lines/0/same true
same lines/0/difference {"low": -700, "best": -500, "high": -300, "outcome": "less"}
same lines/1/difference {"low": -100, "best": -100, "high": -100, "outcome": "less"}
same lines/2/difference {"low": -25, "best": -25, "high": -25, "outcome": "less"}
same spoons/0/food "table salt"
same spoons/0/amount -0.2687617
