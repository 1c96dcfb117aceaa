$ "$QUERN" rank "$CASES/rank.quern" --limit 1
status 1
out sodium in all 3 recipes, each cooked once: at least 4540 mg; in one serving of each: at least 1785 mg
out One recipe stands in others and counts there.
out One recipe does not say how many it serves: all of it counts as a serving.
out Of one line nobody knows the sodium: it stands below
out 2 recipes that stand in one another are left out
out   mill crystals  4000 mg    88% ##################       88%      2              1600 mg
out And 2 more foods, which bring less.
out And 5 more lines.
out   10 g mill mystery  Porridge
out Are you under medical care?
lacks Egg
