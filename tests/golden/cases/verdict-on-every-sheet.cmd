# 1 tsp of table salt in 4 servings, 581 mg and more of each, breaks the limit of 100 mg; an eighth of it keeps it. Each sheet
# that prints what a serving holds says so; JSON of a comparison holds it for both.
$ printf 'recipe "Soup" { serves 4; 1 tsp table salt; 1 l water; limit sodium at most 100 mg per serving }\nrecipe "Broth" { serves 4; 1/8 tsp table salt; 1 l water; limit sodium at most 100 mg per serving }\n' > v.quern
$ "$QUERN" report --panel --recipe Soup v.quern | grep -o 'at most 100 mg  *BROKEN' | sed 's/  */ /g; s/^/panel /'
$ "$QUERN" report --servings 24 --recipe Soup v.quern | grep -o 'at most 100 mg  *BROKEN' | sed 's/  */ /g; s/^/scaled /'
$ "$QUERN" report --servings 24 --recipe Broth v.quern | grep -o 'at most 100 mg  *kept' | sed 's/  */ /g; s/^/scaled /'
$ "$QUERN" report --as jsonld --recipe Soup v.quern | grep -o 'BROKEN: limit: sodium per serving at most 100 mg' | sed 's/^/linked /'
$ "$QUERN" report --as jsonld --recipe Broth v.quern | grep -o 'kept: limit: sodium per serving at most 100 mg' | sed 's/^/linked /'
$ "$QUERN" report --for patients --recipe Soup v.quern | grep -o 'Over the limit of 100 mg' | sed 's/^/handout /'
$ "$QUERN" report --as csv --recipe Soup v.quern | grep -o 'over the limit of 100 mg' | sed 's/^/cells /'
$ "$QUERN" report --as markdown --recipe Soup v.quern | grep -o 'at most 100 mg | [*]*BROKEN' | sed 's/^/markdown /'
$ "$QUERN" report --as html --servings 8 --recipe Soup v.quern | grep -c 'BROKEN' | sed 's/^/page /'
$ "$QUERN" compare Soup Broth --kitchen v.quern | grep -o 'at most 100 mg  *[a-zA-Z]*' | sed 's/  */ /g; s/^/compare /'
$ "$QUERN" compare Soup Broth --kitchen v.quern --as json
status 0
out panel at most 100 mg BROKEN
out scaled at most 100 mg BROKEN
out scaled at most 100 mg kept
out linked BROKEN: limit: sodium per serving at most 100 mg
out linked kept: limit: sodium per serving at most 100 mg
out handout Over the limit of 100 mg
out cells over the limit of 100 mg
out markdown at most 100 mg | **BROKEN
out page 1
out compare at most 100 mg BROKEN
out compare at most 100 mg kept
out "first_limits":[{
