# Where nothing could be counted the handout does not say that there is next to nothing in it.
$ printf 'recipe "N" {\n    serves 2\n    1 cup grool\n}\n' > n.quern
$ "$QUERN" report --for patients n.quern
status 1
out One serving holds at least 0 mg of sodium. Nobody knows how much more
out Nobody knows where its sodium comes from: none of it could be counted.
lacks next to no
