$ "$QUERN" lookup canned chickpeas --group vegetables --limit 1
status 1
out no food of the group `vegetables` holds `canned chickpeas`
