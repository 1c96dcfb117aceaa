# USDA SR28 NDB 16058 and 16360: 278 and 132 mg sodium, 144 mg potassium each, per 100 g; a cup is 240 g. No kitchen lies here.
$ "$QUERN" compare "canned chickpeas" "low sodium canned chickpeas"
status 0
out sodium per 100 g: the second holds 146 mg less
out sodium per serving: the second holds 350 mg less
out potassium per 100 g           144 mg         144 mg  no difference
out 1 cup = 240 g
out food, USDA SR28 NDB 16360
out Too much potassium can be dangerous
