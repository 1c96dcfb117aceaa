# The fix of the former word leaves the rest as it is.
$ printf 'treatment mill a { keeps others 90%%; mass 100%%; grade measured; source "made up" }\n' | "$QUERN" check --as json -
status 1
same findings/0/fixes/0/edits/0/text "evidence"
