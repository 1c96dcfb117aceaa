# 1.9 g of salt a serving is red in a portion of more than 100 g; nobody weighed this one, so it may be red.
$ printf 'kitchen "A"\nfollow rules uk\n' > kitchen.quern
$ printf 'food mill a { group oats; per 100 g { sodium 500 mg }; source "made up" }\nrecipe "A" {\nserves 1\n152 g mill a\n}\nrecipe "B" {\nserves 1\nmakes 152 g\n152 g mill a\n}\nrecipe "C" {\n152 g mill a\nclaim "low salt"\n}\n' > a.quern
$ "$QUERN" check --claims --as json .
status 1
schema check
same claims/0/could_claim/1/name "red for salt"
same claims/0/could_claim/1/outcome "in doubt"
same claims/1/could_claim/1/outcome "refused"
same claims/2/could_claim/1/outcome "in doubt"
