# A line that nobody knows is no zero: the sum is told as at least, and the exit status is that of an error.
$ printf 'recipe "Pot" {\nserves 1\n100 g mill grots\n1 tsp table salt\n}\n' | "$QUERN" trace Pot --kitchen -
status 1
out Nobody knows the sodium of this line
out unknown  unknown
out   = mg per serving
