# A broken limit is no error of the recipe: that is what the sheet is for. A word that is wrong is.
$ printf 'recipe "Broth" { serves 1; 1 tsp table salt; limit sodium at most 10 mg }\n' > k.quern; "$QUERN" report --for patients k.quern
status 1
out Over the limit of 10 mg.
lacks Not ready
