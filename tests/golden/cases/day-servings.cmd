$ "$QUERN" report --recipe "Eaten" "$CASES/day-servings.quern"
status 0
out eats 2 slices "Loaf"         2 of the recipe's servings       100 g, where one is 50 g
out eats 1 to 2 servings "Soup"  1 to 2 of the recipe's servings  250 to 500 ml, where one is 250 ml
out eats 3 servings "Broth"      3 of the recipe's servings       750 ml, where one is 250 ml
out eats 1 batch "Not weighed"   2 of the recipe's servings
