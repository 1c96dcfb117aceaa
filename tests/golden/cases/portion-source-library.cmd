# The library's own: a knob of ginger is nobody's table.
$ printf 'recipe "Tea" {\nserves 2\n1 thumb fresh ginger\n}\n' | "$QUERN" trace Tea --kitchen -
status 0
out common practice, no source
