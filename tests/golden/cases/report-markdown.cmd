# Marks that would make markup of a name are escaped; figures are those of the text report.
$ printf 'recipe "Soup | *of* #1" {\nserves 2\n1 g table salt\npart "Roots", peeled {\n2 carrots\n}\nmethod {\n"Stir."\n"Eat."\n}\n}\n' | "$QUERN" report --as markdown -
status 0
out # Soup \| \*of\* #1
out ## Ingredients
out - 1 g table salt
out ### Roots, peeled
out - 2 carrots
out ## Method
out 1. Stir.
out 2. Eat.
out | 1 g table salt | 190 mg |
out > Are you under medical care?
