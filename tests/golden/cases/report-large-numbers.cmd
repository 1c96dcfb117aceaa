# Numbers of four figures and more are written out, never with an exponent.
$ printf 'recipe "Stock" {\nserves 8 of 360 ml\n3 l water\n1 tsp table salt\n}\nday "Long" {\n4 servings "Stock"\n}\n' > k.quern
$ "$QUERN" report k.quern
status 0
out 1440 ml
lacks e+0
