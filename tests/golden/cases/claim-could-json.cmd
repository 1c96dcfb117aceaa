$ printf 'recipe "Broth" {\nserves 4 of 245 g\n1 tsp table salt\n960 g water\n}\n' | "$QUERN" check --claims --as json -
status 0
schema check
same claims/0/recipe "Broth"
same claims/0/could_claim/0/name "sodium free"
