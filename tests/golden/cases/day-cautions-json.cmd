$ "$QUERN" report --as json "$CASES/day-cautions.quern"
status 1
schema report
same days/8/name "Said twice"
same days/8/cautions/1/text "A child's own clinician or dietitian comes first: their figures hold before any published one."
same days/8/cautions/2/text "Less sodium than is adequate is no advice to eat more salt. With diuretics, heart, kidney or liver disease, great age or heavy sweat, ask a clinician."
out Who eats this is under medical care
