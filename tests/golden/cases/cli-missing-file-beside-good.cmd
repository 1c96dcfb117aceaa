$ printf 'food mill groats { group oats; per 100 g { sodium 100 mg }; source "made up" }\nrecipe "R" {\n serves 1\n 100 g mill groats\n}\n' > good.quern
$ "$QUERN" check good.quern no-such-file.quern
status 2
err no-such-file.quern
