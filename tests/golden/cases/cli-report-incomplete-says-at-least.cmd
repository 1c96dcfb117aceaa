$ "$QUERN" report "$CASES/form-some-without-bound.quern"
status 0
out at least 150 mg
