$ "$QUERN" report --servings 8 --recipe "Class menu, Tuesday" "$CASES/../../../examples/millrace"
status 2
err a day has no servings to scale
