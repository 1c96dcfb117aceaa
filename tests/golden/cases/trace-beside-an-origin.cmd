# What cannot be told apart may be of the traced origin, as the limits beside it count it: 600 mg of the crisp.
$ "$QUERN" trace "Of any origin" "sodium from maker-added" --kitchen "$CASES/limit-unseparated.quern" | tr -s " "
status 0
out = mg in all of it 0
out by nature or added: mg that may be of it, too 600
