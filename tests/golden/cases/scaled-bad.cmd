$ printf 'recipe "Trial" {\n 1 cup milk\n}\n' | "$QUERN" report --servings 24 -
status 2
err it cannot be scaled to servings, since it does not say how many it serves (`serves 4` says so): Trial
