# 12 of 5 is 2.4 times: 4.8 eggs lie nearest to 4 5/6 (0.7% off), 2.4 to 2 1/3 (2.8% too little).
$ "$QUERN" report --servings 12 "$CASES/kitchen-pieces.quern"
status 0
out about 4 5/6
out eggs: buy 5, use about 4 5/6
out large egg: buy 3, use about 2 1/3
out large egg: about 2 1/3 is 3% too little
