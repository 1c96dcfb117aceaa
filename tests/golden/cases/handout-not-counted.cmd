$ printf 'recipe "Beans" {\n serves 2\n 100 g moon dust\n 1 g table salt\n}\n' | "$QUERN" report --for patients -
status 1
out   1. One serving holds at least 190 mg of sodium. Nobody knows how much more: something in it is not counted. Do not rely on this figure.
out   3. Find out about what is not counted: about 3 1/2 oz moon dust. Until then nobody can say what is in it.
out   moon dust (not counted)  about 3 1/2 oz  100 g
lacks You can leave salt out
out most comes from: table salt (100%).
