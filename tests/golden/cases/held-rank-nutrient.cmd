$ "$QUERN" rank --nutrient potassium "$CASES/held" | sed 's/  */ /g'
status 0
out Within goal: potassium per serving at least 150 mg (Mill) missed 100 mg
out 2 limits and goals of potassium are kept.
lacks Over goal
