# Salt that only seasons is offered to be left out: here beside baking soda that holds more.
$ printf 'recipe "Soda bread" { serves 4; 2 cups all-purpose flour; 2 tsp baking soda; 1 tsp table salt; 1 cup milk }\n' > k.quern; "$QUERN" report --for patients k.quern
status 0
out without the 1 tsp table salt
