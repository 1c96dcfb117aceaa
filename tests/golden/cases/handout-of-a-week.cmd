$ "$QUERN" report --for patients --recipe "The class at home" "$CASES/../../../examples/millrace"
status 2
err a week has no handout; hand out its days, by their names
