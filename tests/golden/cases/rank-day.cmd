# Two servings of soup hold 2450 mg, 2400 mg of them crystals; the groats of the day 100 mg beside 50 mg in the stock.
$ "$QUERN" rank --day "class day" "$CASES/rank.quern" --as json > day.json && "$QUERN" rank --day "Class day" "$CASES/rank.quern" && cat day.json | python3 -c "import json, sys; d = json.load(sys.stdin); print('read', [(f['food'], f['total']['best']) for f in d['foods']], d['total'])"
status 0
out sodium in the day: 2550 mg
out   mill crystals     2400 mg    94% ###################      94%      2
out   1 serving "Soup"      1225 mg    48% ##########               48%  Lunch
out   1 serving "Soup"      1225 mg    48% ##########               96%  Supper
out read [('mill crystals', 2400), ('mill groats', 150)] {'low': 2550, 'best': 2550, 'high': 2550}
lacks one serving of each
