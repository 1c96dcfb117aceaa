$ printf 'food mill groats { group oats; per 100 g { sodium 100 mg }; source "made up" }\n# \355\240\200\n' | "$QUERN" check -
status 1
out bad-utf8
