# Table salt holds 387.58 mg a gram and a quarter teaspoon is 1.5 g: 581 mg, of 747 mg in all; six servings.
$ "$QUERN" report --for patients --recipe "Slow tomato sauce" "$CASES/../../../examples/millrace"
status 1
out   1. One serving holds about 125 mg of sodium, somewhere from 115 mg to 135 mg. That is 5% of the daily value of 2300 mg. Within the limit of 200 mg.
out   2. Most of the sodium comes from: 1/4 tsp table salt (78%); 3 1/4 cups Corner shop no-salt chopped tomatoes (13%).
out   3. You can leave salt out: without the 1/4 tsp table salt, about 30 mg would be left.
out   olive oil                             2 tbsp       30 ml, about 27 g
out   4. Weigh the pot: cook on until about 900 g of sauce are left. Season with pepper.
out   potassium: about 400 mg
out Too much potassium can be dangerous
lacks [
lacks error
