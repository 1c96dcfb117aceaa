$ "$QUERN" report --as jsonld "$CASES/held"
status 1
out BROKEN: limit: sodium per serving at most 400 mg (Mill); it is 500 mg. kept: goal: potassium per serving at least 150 mg (Mill); it is 250 mg.
out in doubt: limit: sodium per serving at most 400 mg (Mill); it is 400 mg (300 to 500 mg).
