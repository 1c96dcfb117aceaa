$ "$QUERN" check --format clay "$CASES/form-comments.quern"
status 2
err clay
