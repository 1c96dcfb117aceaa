# A day under care, with no words of who it is.
$ printf 'day "D" for adult under care {\nmeal "Lunch" { 400 g carrots; 1/4 tsp table salt; 1 medium banana }\n}\n' > r.quern; for form in text html markdown csv json; do "$QUERN" report --as $form r.quern; done; "$QUERN" report --for patients r.quern; "$QUERN" trace D sodium
status 0
out sodium
lacks % of the daily value
lacks 4700
