# Salt that ferments, cures or pickles is never advised away: by the name of the recipe, …
$ printf 'recipe "Sauerkraut" { serves 20; 1 kg green cabbage; 20 g table salt }\n' > k.quern; "$QUERN" report --for patients k.quern
status 0
out helps keep the food safe to eat
lacks leave salt out
lacks without the
