$ printf 'kitchen "K"\nfollow rules eu\nrecipe "Soup" {\nserves 1\nmakes 500 g\n500 g cooked rice\n0.1 g potassium citrate\nclaim "no added sodium"\n}\n' | "$QUERN" check -
status 0
lacks among the ingredients
