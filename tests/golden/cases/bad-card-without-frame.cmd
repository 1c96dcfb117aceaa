$ printf 'Bean salad\nserves 4\n1 cup mill beans\n1/2 tsp salt\n' | "$QUERN" check -
status 1
out -:1:1: error: `Bean salad` stands in no recipe
out 1 error
$ printf "recipe 'Bean salad' {\nserves 4\n1 cup water\n}\n" | "$QUERN" check -
status 1
out write recipe "Bean salad"
