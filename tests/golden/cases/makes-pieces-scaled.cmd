$ printf 'recipe "Muffins" {\nmakes 12 muffins\n2 cups all-purpose flour\n1 tsp table salt\n}\n' | "$QUERN" report - --servings 24
status 0
out Cooked for 24: 2 times the recipe as it was written
out   A serving is one of its muffins.
out sodium per serving: 190 mg
out   table salt         2 tsp
$ printf 'recipe "Muffins" {\nmakes 12 muffins\n2 cups all-purpose flour\n1 tsp table salt\n}\n' | "$QUERN" report -
status 0
out   A serving is one of its muffins.
lacks all of it
