# The fix of a letter writes the whole statement.
$ printf 'treatment mill a { keeps others 90%%; mass 100%%; grade B; source "made up" }\n' | "$QUERN" check --as json -
status 1
schema check
same findings/0/code "former-word"
same findings/0/fixes/0/edits/0/text "evidence one kitchen test"
