$ "$QUERN" check "$CASES/expect-figures.quern"
status 1
out potassium per serving was expected to be 5 mmol (within 1%) and is 5.12 mmol
