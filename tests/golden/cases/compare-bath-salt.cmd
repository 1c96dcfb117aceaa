# The salt of a pot whose water is poured away is another thing than the salt of a soup: two lines, not one that grew.
$ printf 'recipe "Soup" {\nserves 4\n1 l water\n1 tsp table salt\n}\nrecipe "Pasta" {\nserves 4\nbath "pot" {\n4 l water\n2 tbsp table salt\n}\n400 g spaghetti, boiled in "pot"\n}\n' > k.quern
$ "$QUERN" compare Soup Pasta --kitchen k.quern --as json | python3 -c "import json,sys; d=json.load(sys.stdin); print([(l['first'] is not None, l['second'] is not None) for l in d['lines'] if 'salt' in json.dumps(l)])"
status 0
out (True, False)
out (False, True)
lacks (True, True)
