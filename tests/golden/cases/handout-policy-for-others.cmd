# A policy for somebody else is not used, and the sheet says so in a line.
$ printf 'policy "House" { limit sodium at most 1 mg per serving }\nrecipe "Mash", for infant 7 months { serves 2; 100 g potatoes, boiled; 1/4 tsp table salt; follow "House" }\n' > k.quern; "$QUERN" report --for patients k.quern
status 0
out so it is not used here
out Babies under one year
lacks 1 mg.
