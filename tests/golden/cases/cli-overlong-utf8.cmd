$ printf 'food mill groats { group oats; per 100 g { sodium 100 mg }; source "made up" }\n# \300\257\n' | "$QUERN" check -
status 1
out bad-utf8
