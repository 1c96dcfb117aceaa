$ printf 'recipe "Plate" {\nserves 1\nmakes 279 g\ncounts as meal\n160 g cooked rice\n119 g green beans\nclaim "low sodium"\n}\n' | "$QUERN" check -
status 1
out what counts as meal weighs at least 280 g a serving; here a serving weighs 279 g
