$ "$QUERN" lookup canned chickpeas
status 0
out canned chickpeas
out 278 mg
out 16058
