# A kitchen's own caution stands beside the usual ones and takes none of them away; said in the same words it stands once.
$ printf 'kitchen "K"\nfollow rules house\nrules house {\ntitle "House"\ncaution "Ask the cook." { for sodium }\ncaution "Nothing here is checked for allergens. Read each label."\n}\nrecipe "R" { serves 1; 1 cup water; 1 g half sodium salt blend }\n' > k.quern; "$QUERN" report k.quern; "$QUERN" report k.quern | grep -c "Nothing here is checked for allergens" >&2
status 0
out   Ask the cook.
out   This dish has a potassium salt
out   Too much potassium can be dangerous
err 1
