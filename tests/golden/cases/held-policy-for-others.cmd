# A sheet that tells no findings says in a line that a policy is for somebody else, so that no verdict stands there.
$ printf 'policy "House" { limit sodium at most 1 mg per serving }\nrecipe "Mash", for infant 7 months { serves 2; 100 g potatoes, boiled; 1/4 tsp table salt; follow "House" }\n' > k.quern
$ "$QUERN" report --servings 4 k.quern | sed 's/^/scaled /'
$ "$QUERN" report --panel k.quern | sed 's/^/panel /'
status 0
out scaled policy `House` is for adult; this recipe is for infant 7 months, so it is not used here
out panel policy `House` is for adult; this recipe is for infant 7 months, so it is not used here
lacks BROKEN
