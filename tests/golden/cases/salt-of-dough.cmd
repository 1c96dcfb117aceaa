# A dough that ferments is bread: its salt is for taste, and its handout may say so. A soup with pickled onions keeps nothing.
$ printf 'recipe "Bread" { serves 8; 500 g bread flour; 2 tsp table salt; 1 tsp dry yeast; method { "Let the dough ferment for two hours." } }\nrecipe "Pickled onion soup" { serves 4; 1 cup onions; 1 tsp table salt }\n' > k.quern; "$QUERN" report --for patients k.quern
status 0
out without the 2 tsp table salt
out without the 1 tsp table salt
lacks safe to eat
