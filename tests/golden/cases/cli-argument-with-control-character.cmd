$ E=$(printf '\033'); for words in "check /nowhere/${E}[31m" "chec${E}[31m" "check --no${E}[31m" "explain ${E}[31m" "report --as ${E}[31m" "check --jobs ${E}[31m" "check --library /nowhere/${E}[31m"; do "$QUERN" $words; done 2>&1 | grep -c "$E"
status 1
out 0
$ mkdir "$(printf 'a\033[31m')"; printf 'recipe "Soup" {\nserves 1\n1 cup water\n}\n' > "$(printf 'a\033[31m')/a.quern"; "$QUERN" report . | grep -c "$(printf '\033')"
status 1
out 0
