# The rules' own figure and name.
$ printf 'kitchen "K"\nfollow rules who\nrecipe "R" {\nserves 2\n400 g carrots\n1/4 tsp table salt\n1 medium banana\n}\n' > r.quern; for form in text html markdown; do "$QUERN" report --as $form r.quern; "$QUERN" report --for patients --as $form r.quern; done; "$QUERN" trace R sodium; "$QUERN" trace --as json R sodium
status 0
out % of the guideline of the WHO of 2000 mg
out guideline of the WHO 2000 mg
out "daily_value_name":"guideline of the WHO"
out % of the guideline of the WHO of 3510 mg
lacks 4700
lacks 4,700
lacks daily value of
