$ "$QUERN" report --recipe "Nothing" "$CASES/form-serves-range.quern"
status 2
err Nothing
