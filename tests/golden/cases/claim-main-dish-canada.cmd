$ printf 'kitchen "K"\nfollow rules canada\nrecipe "Plate" {\nserves 1\nmakes 300 g\ncounts as main dish\nreference amount 199 g\n300 g cooked rice\nclaim "low sodium"\n}\n' | "$QUERN" check -
status 1
out what counts as main dish has a reference amount of at least 200 g
