# Crafts are the library's: a kitchen's own is refused. A caution that asks for one that nobody declares is printed everywhere.
$ printf 'kitchen "K"\nfollow rules odd\ncraft drying { words dried }\nrules odd {\ntitle "odd"\ncaution "Alpha" { when its craft is knitting }\n}\nrecipe "R" { serves 1; 1 cup water }\n' > kitchen.quern; "$QUERN" check kitchen.quern; "$QUERN" report kitchen.quern
status 1
out `craft drying { words dried }` has no place in a kitchen
out unknown-craft
out Alpha
