# What a recipe without `serves` holds is told as all of it, not as a serving.
$ printf 'recipe "P" {\n    10 g table salt\n}\nrecipe "S" {\n    serves 4\n    10 g table salt\n}\n' > p.quern
$ "$QUERN" compare P S --kitchen p.quern | sed 's/  */ /g'
status 0
out no serving of it compares.
out sodium per serving 3876 mg, all of it 969 mg does not compare
out a serving is not said 2.5 g
