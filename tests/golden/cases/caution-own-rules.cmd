# A kitchen's own caution stands beside the usual ones and takes none of them away; said in the same words it stands once.
$ printf 'kitchen "K"\nfollow rules house\nrules house {\ntitle "House"\ncaution "Ask the cook." { for sodium }\ncaution "People under medical care follow the figures that their own clinician or dietitian set, and their local rules, before any limit printed here."\n}\nrecipe "R" { serves 1; 1 cup water; 1 g half sodium salt blend }\n' > k.quern; "$QUERN" report k.quern; "$QUERN" report k.quern | grep -c "People under medical care" >&2
status 0
out   Ask the cook.
out   Salt substitutes made with potassium
out   Potassium can be dangerous with kidney disease
err 1
