$ printf 'recipe "Plate" {\nserves 1\nmakes 280 g\ncounts as meal\n160 g cooked rice\n120 g green beans\nclaim "low sodium"\n}\n' | "$QUERN" check -
status 0
lacks what counts as
