$ "$QUERN" report --as pdf "$CASES"
status 2
err quern report: `pdf` is no form; these are: text json
