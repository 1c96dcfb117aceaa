# The library's food of that name is hidden, and told by another name that it still has.
$ mkdir k; echo 'kitchen "Mine"' >k/kitchen.quern
$ printf 'food kale {\n group vegetables; instead of the library\047s\n per 100 g { sodium 7 mg }\n source "made up"\n}\nrecipe "A" { serves 1; 100 g kale }\n' >k/a.quern
$ "$QUERN" lookup kale --as csv --limit 100 --kitchen k >out; s=$?; echo "$(grep -c '^kale,' out) of its name"; cut -d, -f1,2,7 out; exit $s
status 0
out 1 of its name
out kale,kale,7
out red kale,red kale,38
