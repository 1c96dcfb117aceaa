# Each mark that JSON keeps is on the page, as `not checked`, and none says `from memory`: sources of seven foods, two of them marked, one
# mark of the rules of Canada, and one treatment.
$ printf 'kitchen "K"\nfollow rules canada\nfood mill a { group oats; per 100 g { sodium 1 mg; potassium 1 mg }; source "a guess, from memory" }\nfood mill b { group oats; per 100 g { sodium 1 mg; potassium 1 mg }; source "from memory" }\nfood mill c { group oats; per 100 g { sodium 1 mg; potassium 1 mg }; source "made up for this test" }\nrecipe "R" { serves 2; 10 g mill a; 10 g mill b; 10 g mill c; 1 tsp pickling salt }\n' > kitchen.quern
$ "$QUERN" report kitchen.quern > page; "$QUERN" report --as json kitchen.quern > json; "$QUERN" trace R > trace
$ echo "page: $(grep -c -i 'from memory' page), $(sed -n '/^Sources/,/^Cautions/p' page | grep -c 'not checked')"; python3 -c "import json; print('json:', sum('from memory' in (l.get('source') or '') for l in json.load(open('json'))['recipes'][0]['lines']))"; [ $(grep -c "from memory" trace) -ge 3 ] && echo the trace keeps them
status 0
out page: 0, 4
out json: 3
out the trace keeps them
