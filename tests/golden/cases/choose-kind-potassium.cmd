# Kinds to choose from show potassium beside sodium: who watches the one must see the other. Figures: SR28 and by formula.
$ printf 'recipe "R" { serves 1; 1 tsp salt substitute }\n' > k.quern; "$QUERN" check k.quern
status 1
out half sodium salt blend (19670 mg sodium, 26220 mg potassium per 100 g)
