$ printf 'food mill groats { group oats; per 100 g { sodium 100 mg }; source "made up" }\nrecipe "R" {\n serves 1\n 100 g mill groats\n}\n# \000\n' | "$QUERN" check --as json - > out; got=$?; tr -d " \n" < out; exit $got
status 1
out "code":"bad-character"
out "line":6
