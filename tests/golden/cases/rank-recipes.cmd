# A batch of stock holds 4000 mg from crystals and 100 mg from groats. In the soup stand half of it and 400 mg: 2450 mg, 1225
# a serving; in the porridge 400 mg, 1640 mg and nobody knows what: 2040 mg, 510 a serving; in the pot 50 mg, which is one
# serving. In all 4540 mg, in a serving of each 1785 mg. Crystals: 2000 + 400 + 1600 = 4000 mg of these, groats 50 + 40 + 400 +
# 50 = 540 mg; per serving 1000 + 200 + 400 = 1600 and 25 + 10 + 100 + 50 = 185 mg.
$ "$QUERN" rank "$CASES/rank.quern" --as json
status 1
schema rank
same recipes 3
same inside_others 1
same without_servings 1
same left_out 2
same total {"low": 4540, "best": null, "high": null}
same per_serving {"low": 1785, "best": null, "high": null}
same foods/0 {"food": "mill crystals", "lines": 2, "total": {"best": 4000}, "per_serving": {"best": 1600}}
same foods/1 {"food": "mill groats", "lines": 3, "total": {"best": 540}, "per_serving": {"best": 185}, "together": 1}
same foods/0/share 0.881057269
same foods/2 {"food": "mill mystery", "total": {"low": 0, "best": null, "high": null}}
same lines/0 {"text": "5 servings \"Stock\"", "recipe": "Soup", "per_serving": {"best": 1025}, "total": {"best": 2050}, "share": 0.574229692}
same lines/1 {"text": "4 servings \"Stock\"", "recipe": "Porridge", "per_serving": {"best": 410}, "line": 21}
same unknown/0 {"text": "10 g mill mystery", "recipe": "Porridge"}
same unknown_lines 1
