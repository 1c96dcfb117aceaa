$ printf 'recipe "Soup" {\nserves 1\n1 cup water\n}\n' > a.quern; "$QUERN" report --out a.quern a.quern; echo 1 $?; "$QUERN" report --out none/made a.quern; echo 2 $?; mkdir -p made/soup.txt; "$QUERN" report --out made a.quern; echo 3 $?; ls -A made
status 0
out 1 2
out 2 2
out 3 2
out soup.txt
err quern: a.quern
err quern: none/made: No such file or directory
err quern: made/soup.txt: Is a directory
