# A serving of the first: (100 + 2000 (1200 to 2800) + 400) / 2 = 1250 (850 to 1650) mg; of the second 200 mg of 400 less:
# 1150 (750 to 1550). The ranges overlap, but the dust is the same in both: 100 mg less for sure, from the crystals alone.
# A teaspoon of table salt holds 6 g x 38758 mg / 100 g = 2325.48 mg: 0.043 of one.
$ "$QUERN" compare Gruel "Milder gruel" --kitchen "$CASES/compare.quern" && "$QUERN" compare Gruel "milder gruel" --as json --kitchen "$CASES/compare.quern" > a.json && python3 -c "import json; d = json.load(open('a.json')); n = {one['nutrient']: one for one in d['nutrients']}['sodium']; print('read', n['per_serving'], d['spoons'], d['lines'][0])"
status 0
out sodium per serving: the second holds 100 mg less
out as much as 0.043 tsp of table salt holds (less than 1/8 tsp)
out   1 g mill crystals      200 mg
out     0.5 g mill crystals          100 mg  100 mg less
out Of 2 lines each is the same in both.
out Are you under medical care?
out read {'first': {'low': 850, 'best': 1250, 'high': 1650}, 'second': {'low': 750, 'best': 1150, 'high': 1550}, 'difference': {'low': -100, 'best': -100, 'high': -100, 'outcome': 'less'}}
lacks THE SERVINGS DIFFER
