# The finding lists the five words, strongest first.
$ printf 'treatment mill a { keeps others 90%%; mass 100%%; evidence good; source "made up" }\n' | "$QUERN" check -
status 1
out write `evidence` and one of `measured`, `measured on a like food`, `one kitchen test`, `estimated`, `from memory`
