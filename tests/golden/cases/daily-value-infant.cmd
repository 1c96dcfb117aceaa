# No adult's daily value in any form of a recipe for somebody else.
$ printf 'recipe "R", for infant 7 months {\nserves 2\n400 g carrots\n1/4 tsp table salt\n1 medium banana\n}\n' > r.quern; for form in text html markdown csv json jsonld; do "$QUERN" report --as $form r.quern; done; for form in text html markdown; do "$QUERN" report --for patients --as $form r.quern; "$QUERN" report --panel --as $form r.quern; "$QUERN" report --servings 4 --as $form r.quern; done; for form in text html markdown; do "$QUERN" trace --as $form R sodium; done; "$QUERN" rank r.quern; "$QUERN" compare R carrot --kitchen r.quern
status 0
out sodium
lacks 2300
lacks 4700
lacks % of the daily value
lacks 4,700
