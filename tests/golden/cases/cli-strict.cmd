$ printf 'food mill groats { group oats; per 100 g { sodium 100 mg }; source "made up" }\nfood mill salt crystals { group salts; per 100 g { sodium 40000 mg }; source "made up" }\nrecipe "R" {\n serves 1\n some mill salt crystals\n}\n' | "$QUERN" check --strict -
status 1
out unmeasured
