# The rules' own figure and name.
$ printf 'kitchen "K"\nfollow rules canada\nrecipe "R" {\nserves 2\n400 g carrots\n1/4 tsp table salt\n1 medium banana\n}\n' > r.quern; for form in text html markdown; do "$QUERN" report --as $form r.quern; "$QUERN" report --for patients --as $form r.quern; done; "$QUERN" trace R sodium; "$QUERN" trace --as json R sodium
status 0
out % of the daily value of 2300 mg
out daily value 2300 mg
out "daily_value_name":"daily value"
out % of the daily value of 3400 mg
lacks 4700
