# The rules' own figure and name.
$ printf 'kitchen "K"\nfollow rules eu\nrecipe "R" {\nserves 2\n400 g carrots\n1/4 tsp table salt\n1 medium banana\n}\n' > r.quern; for form in text html markdown; do "$QUERN" report --as $form r.quern; "$QUERN" report --for patients --as $form r.quern; done; "$QUERN" trace R sodium; "$QUERN" trace --as json R sodium
status 0
out % of the reference intake of 2400 mg
out reference intake 2400 mg
out "daily_value_name":"reference intake"
out % of the reference intake of 2000 mg
lacks 4700
lacks 4,700
lacks daily value of
