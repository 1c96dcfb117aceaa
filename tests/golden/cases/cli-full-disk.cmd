$ "$QUERN" report "$CASES/form-comments.quern" > /dev/full
status 2
