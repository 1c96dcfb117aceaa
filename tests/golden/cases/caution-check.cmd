$ "$QUERN" check "$CASES/caution-check.quern"
status 0
out note: take care: pink curing salt is in it [take-care]
out because: Curing salt is a poison
out note: take care: half sodium salt blend is in it [take-care]
