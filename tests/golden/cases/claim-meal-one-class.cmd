$ printf 'recipe "Plate" {\nserves 1\nmakes 280 g\ncounts as meal\n241 g cooked rice\n39 g boiled green beans\nclaim "low sodium"\n}\n' | "$QUERN" check -
status 1
out what counts as meal has at least 3 portions of 40 g from 2 classes of food a serving; here it has 241 g of bread, cereal, rice and pasta; 39 g of fruits and vegetables
