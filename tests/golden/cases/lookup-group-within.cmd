# Canned legumes lie within legumes.
$ "$QUERN" lookup canned chickpeas --group legumes --limit 1
status 0
out canned chickpeas
