$ printf 'kitchen "K"\nfollow rules eu\nrecipe "Soup" {\nserves 1\nmakes 500 g\n500 g cooked rice\n0.1 g sodium citrate\nclaim "no added sodium"\n}\n' | "$QUERN" check -
status 1
out sodium citrate is among the ingredients
