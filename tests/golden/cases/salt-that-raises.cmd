# Baking soda and baking powder raise: nobody is told to leave them out, however much of the sodium is theirs.
$ printf 'recipe "Soda bread" { serves 4; 2 cups all-purpose flour; 2 tsp baking soda; 1 cup buttermilk }\n' > k.quern; "$QUERN" report --for patients k.quern
status 0
out baking soda (
lacks leave
lacks Leave
