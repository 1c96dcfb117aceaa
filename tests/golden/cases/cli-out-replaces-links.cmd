$ printf 'recipe "Soup" {\nserves 1\n1 cup water\n}\n' > a.quern; echo precious > outside; mkdir made; ln -s ../outside made/soup.txt; "$QUERN" report --out made a.quern > /dev/null; cat outside; test -L made/soup.txt || grep -c Soup made/soup.txt
status 0
out precious
out 1
