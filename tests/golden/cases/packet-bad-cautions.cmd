# A condition that cannot be read is a finding, and its caution stands everywhere.
$ printf 'kitchen "K"\nfollow rules odd\nrules odd {\ntitle "odd"\ncaution "Alpha" { when garlic is a goal }\ncaution "Beta" { when a food of nowhere is in it }\ncaution "Gamma" { when it rains }\ncaution "Delta" { when for child }\n}\nrecipe "R" { serves 1; 1 cup water }\n' > k.quern; "$QUERN" report k.quern
status 1
out unknown-nutrient
out unknown-group
out `when it rains` has no place in a caution
out   Alpha
out   Beta
out   Gamma
lacks Delta
