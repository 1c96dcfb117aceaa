# Kitchen B declares a kale of its own: that is another food than the library's, which A uses.
$ mkdir a b; echo 'kitchen "A"' >a/kitchen.quern; echo 'kitchen "B"' >b/kitchen.quern
$ echo 'recipe "In A" { serves 1; 100 g kale }' >a/a.quern
$ printf 'food kale {\n instead of the library\047s\n per 100 g { sodium 7 mg }\n}\nfood millrace wort {\n per 100 g { sodium 9 mg }\n}\nrecipe "In B" { serves 1; 100 g kale; 5 g millrace wort }\n' >b/b.quern
$ "$QUERN" lookup kale --kitchen . >out; s=$?; cat out; exit $s
status 0
out used by 1 line in .
out "In A"
lacks "In B"
