# Of a kitchen the limits that are not kept, broken ones first, and how many are kept. The goals of potassium are none of sodium; a
# policy per serving says nothing of what has no servings.
$ "$QUERN" rank "$CASES/held" | sed 's/  */ /g'
status 0
out Over limit: sodium per serving at most 400 mg (Mill) BROKEN 500 mg
out Doubt limit: sodium per serving at most 400 mg (Mill) in doubt 400 mg (300 to 500 mg)
out One limit or goal of sodium is kept.
lacks Within limit
lacks goal: potassium
lacks Free limit
