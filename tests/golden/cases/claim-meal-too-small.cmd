$ printf 'recipe "Plate" {\nserves 1\nmakes 279 g\ncounts as meal\n160 g cooked rice\n119 g green beans\nclaim "low sodium"\n}\n' | "$QUERN" check -
status 1
out what counts as meal weighs at least 280 g a serving; here a serving weighs 279 g
$ printf 'recipe "Plate" {\nserves 1\nmakes 280 g\ncounts as meal\n160 g cooked rice\n120 g green beans\nclaim "low sodium"\n}\n' | "$QUERN" check -
status 0
lacks what counts as
$ printf 'recipe "Plate" {\nserves 1\nmakes 280 g\ncounts as meal\n241 g cooked rice\n39 g green beans\nclaim "low sodium"\n}\n' | "$QUERN" check -
status 1
out what counts as meal has at least 3 portions of 40 g from 2 classes of food a serving; here it has 241 g of bread, cereal, rice and pasta; 39 g of fruits and vegetables
$ printf 'recipe "Plate" {\nserves 1\ncounts as meal\n200 g cooked rice\n200 g green beans\nclaim "low sodium"\n}\n' | "$QUERN" check -
status 0
out what counts as meal weighs at least 280 g a serving: weigh the dish and write `makes … g` and `serves …`
$ printf 'kitchen "K"\nfollow rules canada\nrecipe "Plate" {\nserves 1\nmakes 300 g\ncounts as main dish\nreference amount 199 g\n300 g cooked rice\nclaim "low sodium"\n}\n' | "$QUERN" check -
status 1
out what counts as main dish has a reference amount of at least 200 g
