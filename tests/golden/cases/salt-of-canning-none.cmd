# Also where there is no salt in it; while a pickle without salt is not said to be kept by it.
$ printf 'recipe "Peaches in jars" { serves 20; 2 kg peaches; method { "Process the jars in a water bath canner." } }\nrecipe "Pickled peaches" { serves 20; 2 kg peaches; 1 cup white vinegar }\n' > k.quern; "$QUERN" report --for patients k.quern
status 0
out put up in jars
lacks helps keep the food safe
