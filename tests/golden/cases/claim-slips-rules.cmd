$ printf 'kitchen "A"\nfollow rules euu\n' > kitchen.quern
$ "$QUERN" check .
$ "$QUERN" check "$CASES/claim-slips.quern"
status 1
out 2:14: error: no rule pack is called `euu` [unknown-rules]
out because: there are the rules canada, chile, codex, eu, mexico, uk, us, usda, who
out because: until it is mended the rules `us` hold
out error: a comma stands before `compared to table salt` [claim-form]
out try: write claim "low sodium"
