$ "$QUERN" lookup "$(head -c 5000 /dev/zero | tr '\0' a)" >out 2>err; s=$?; cat err; wc -c <out; exit $s
status 2
out quern: no name of a food is so long
