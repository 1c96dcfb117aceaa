# 24 for 8 is three times: 3/4 tsp salt is 2 1/4 tsp, 1/3 cup is a cup, 5 tbsp are 15: 3/4 cup + 3 tbsp; 1 1/2 eggs are 4 1/2.
$ printf 'recipe "Trial" {\n serves 8\n 3/4 tsp table salt\n 1/3 cup milk\n 5 tbsp sugar\n 1 1/2 large eggs\n 1 can (15 oz) chickpeas, drained\n 1 lb 6 oz potatoes\n 250 g flour\n 2 to 3 cups water\n some black pepper\n method {\n "Stir 1 tsp in."\n }\n}\n' | sed 's/1 lb 6 oz/22 oz/' | "$QUERN" report --servings 24 -
status 0
out Cooked for 24: 3 times the recipe as it was written, which serves 8.
out   table salt                      2 1/4 tsp            11 ml, about 14 g
out   milk                            1 cup                235 ml, about 245 g
out   sugar                           3/4 cup + 3 tbsp     220 ml, about 190 g
out   large eggs                      4 1/2                about 225 g
out   can (15 oz) chickpeas, drained  3                    about 765 g (about 1.28 kg before)
out   potatoes                        4 lb + 2 oz          1.87 kg
out   flour                           1 1/2 lb + 2 1/2 oz  750 g
out   water                           6 cups to 9 cups
out   black pepper                    a little
out   - large eggs: buy 5, use 4 1/2
out   The steps stand as they were written, for 8. Take 3 times any amount that
out   1. Stir 1 tsp in.
