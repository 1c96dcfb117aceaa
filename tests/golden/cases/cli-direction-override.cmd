$ printf 'food mill groats { group oats; per 100 g { sodium 100 mg }; source "made up" }\nrecipe "R" {\n serves 1\n 100 g mill groats\n}\n# \342\200\256\n' | "$QUERN" check -
status 1
out bad-character
