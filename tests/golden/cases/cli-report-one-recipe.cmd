$ "$QUERN" report --recipe "No servings" "$CASES/form-serves-range.quern"
status 0
out No servings
lacks Four to six
