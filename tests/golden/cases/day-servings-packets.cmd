$ "$QUERN" report --recipe "From packets" "$CASES/day-servings.quern"
status 0
out eats 1 cup "Half cup broth"        2 of the label's servings       240 ml, where one is 120 ml
out eats 1 to 2 cups "Half cup broth"  2 to 4 of the label's servings  240 to 480 ml, where one is 120 ml
