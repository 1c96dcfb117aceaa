# A recipe, a week and nothing where a day is wanted; a nutrient that is none; a number that is none; no recipe.
$ "$QUERN" rank --day "Soup" "$CASES/rank.quern"
$ "$QUERN" rank --day "Class dey" "$CASES/rank.quern"
$ "$QUERN" rank --day "Class week" "$CASES/day-report.quern"
$ "$QUERN" rank --nutrient salt "$CASES/rank.quern"
$ "$QUERN" rank --limit 0 "$CASES/rank.quern"
$ echo 'food grit { group grains; per 100 g { energy 1 kcal }; source "made up" }' > only.quern && "$QUERN" rank only.quern
$ mkdir two && cp "$CASES/rank.quern" two/a.quern && cp "$CASES/rank.quern" two/b.quern && "$QUERN" rank two --day "class day"
status 2
err "Soup" is a recipe; --day takes a day, and `quern rank FILE` ranks the recipes of a file
err no day is called "Class dey"; these are: "Class day"
err "Class week" is a week; name one of its days
err no nutrient is called "salt"
err --limit takes a number from 1 to 1000000, not `0`
err there is no recipe to rank
err two days are called "class day"
