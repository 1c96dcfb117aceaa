$ printf 'recipe "Plate" {\nserves 1\ncounts as meal\n200 g cooked rice\n200 g green beans\nclaim "low sodium"\n}\n' | "$QUERN" check -
status 0
out what counts as meal weighs at least 280 g a serving: weigh the dish and write `makes … g` and `serves …`
