# A kitchen's own food stands for the library's of the same name, in lists as on cards.
$ mkdir k; echo 'kitchen "Mine"' >k/kitchen.quern
$ printf 'food kale {\n group vegetables; instead of the library\047s\n per 100 g { sodium 7 mg }\n source "made up"\n}\nrecipe "A" { serves 1; 100 g kale }\n' >k/a.quern
$ "$QUERN" lookup kale --as json --kitchen k
status 0
schema lookup
same foods/0/name "kale"
same foods/0/source "made up"
same foods/0/per_100_g/sodium/best 7
same foods/0/per_100_g/potassium/best null
same card/source "made up"
same card/uses/lines/0/line 6
