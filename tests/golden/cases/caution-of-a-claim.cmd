# What makes a claim of potassium true may be what is dangerous: the claim carries the caution, proved or in doubt.
$ printf 'kitchen "K"\nfollow rules odd\nrules odd {\ntitle "odd"\nclaim "much potassium" { potassium per serving at least 100 mg; source "made up for this test" }\n}\nrecipe "R" { serves 1; 1 g half sodium salt blend; claim "much potassium" }\nrecipe "S" { serves 1; 300 g potatoes, boiled; claim "much potassium" }\n' > kitchen.quern; "$QUERN" report --recipe R kitchen.quern | sed -n "/^Claims/,/^Cautions/p"; "$QUERN" report --recipe S kitchen.quern | sed -n "/^Claims/,/^Cautions/p" | grep -c "potassium salt in it" >&2
status 1
out much potassium
out This dish has a potassium salt in it
err 0
