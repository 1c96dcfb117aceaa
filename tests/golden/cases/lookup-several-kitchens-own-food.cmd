# A food that only one of several kitchens has is found there.
$ mkdir a b; echo 'kitchen "A"' >a/kitchen.quern; echo 'kitchen "B"' >b/kitchen.quern
$ echo 'recipe "In A" { serves 1; 100 g kale }' >a/a.quern
$ printf 'food kale {\n instead of the library\047s\n per 100 g { sodium 7 mg }\n}\nfood millrace wort {\n per 100 g { sodium 9 mg }\n}\nrecipe "In B" { serves 1; 100 g kale; 5 g millrace wort }\n' >b/b.quern
$ "$QUERN" lookup millrace wort --kitchen .
status 0
out millrace wort
out used by 1 line in .
out "In B"
