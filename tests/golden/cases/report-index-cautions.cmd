# Beside the figures of an index stand the cautions of each of its reports: also those that only one of them needs.
$ printf 'recipe "Broth" {\n    serves 1\n    1 cup water\n}\nrecipe "Stew" {\n    serves 1\n    1 cup water\n    goal potassium at least 300 mg per serving\n}\n' > a.quern; "$QUERN" report --as html --out site a.quern; grep -c 'No potassium goal here' site/broth.html site/stew.html site/index.html
status 0
out site/broth.html:0
out site/stew.html:1
out site/index.html:1
