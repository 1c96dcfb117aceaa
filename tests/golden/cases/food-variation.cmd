$ "$QUERN" report --as json "$CASES/food-variation.quern" | python3 -c "import json,sys; r=json.load(sys.stdin)['recipes'][0]; s=r['per_serving']['sodium']; print(r['variation'], s['low'], s['best'], s['high'])"
status 0
out False 610 610 610
$ "$QUERN" report --variation --as json "$CASES/food-variation.quern" | python3 -c "import json,sys; r=json.load(sys.stdin)['recipes'][0]; s=r['per_serving']['sodium']; print(r['variation'], s['low'], s['best'], s['high'], s['origin']['maker'], [l['sodium'] for l in r['lines']], r['lines'][0])"
status 0
out True 470 610 860
out {'low': 380, 'best': 480, 'high': 680}
out {'low': 60, 'best': 100, 'high': 150}
$ "$QUERN" report --variation "$CASES/food-variation.quern"
status 1
out Ranges hold how samples of the foods vary, where that was published: of 2 of
out 3 foods here.
$ mkdir k; cp "$CASES/food-variation.quern" k/a.quern; printf 'policy "P" {\nvariation\n}\nrecipe "Alone" {\nserves 1\n100 g mill roots\nfollow "P"\n}\n' > k/b.quern; "$QUERN" check k | grep -c variation-in-recipe; printf 'kitchen "K"\nfollow "P"\n' > k/kitchen.quern; "$QUERN" check k | grep -c variation-in-recipe; "$QUERN" report --as json --recipe Alone k | python3 -c "import json,sys; print(json.load(sys.stdin)['recipes'][0]['per_serving']['potassium'])"
status 0
out 1
out 0
out 'low': 280, 'best': 300, 'high': 310
