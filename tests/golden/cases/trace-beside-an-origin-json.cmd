$ "$QUERN" trace "Of any origin" "sodium from maker-added" --as json --kitchen "$CASES/limit-unseparated.quern"
status 0
schema trace
same recipes/0/unseparated/low 600
same recipes/0/unseparated/high 600
same recipes/0/total/high 0
