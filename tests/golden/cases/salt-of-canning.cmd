# What is put up in jars follows a tested recipe, and its sheet says nothing of its salt.
$ printf 'recipe "Green beans in jars" { serves 20; 2 kg green beans; 4 tsp table salt; method { "Process the jars in a pressure canner." } }\n' > k.quern; "$QUERN" report --for patients k.quern
status 0
out put up in jars
lacks leave salt out
lacks helps keep the food safe
