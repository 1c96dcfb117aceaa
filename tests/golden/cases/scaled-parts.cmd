# What stands in a line grows, too: what is thrown away, a total in parentheses, what a part is reduced to. Sizes and shares do not.
$ printf 'recipe "Pot" {\n serves 2\n part "Sauce" {\n 2 cups water\n 2 onions (300 g), sliced\n 1 can (15 oz) chickpeas, drained\n 100 g potatoes, cut into 2 cm cubes\n }, reduced to 300 g\n 1 cup milk, kept 50%%\n}\n' | "$QUERN" report --servings 6 -
status 0
out Sauce, reduced to 900 g
out onions (900 g), sliced
out can (15 oz) chickpeas, drained
out cut into 2 cm cubes
out milk, kept 50%
