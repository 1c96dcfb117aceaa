# A limit set by a clinician: somebody is under care, and no adult's daily value is for them.
$ printf 'recipe "R" {\nserves 2\n400 g carrots\n1/4 tsp table salt\n1 medium banana\nlimit sodium at most 1500 mg set by clinician\n}\n' > r.quern; for form in text html markdown csv json jsonld; do "$QUERN" report --as $form r.quern; done; for form in text html markdown; do "$QUERN" report --for patients --as $form r.quern; "$QUERN" report --panel --as $form r.quern; done
status 0
out sodium
lacks 2300
lacks 4700
lacks % of the daily value
lacks 4,700
