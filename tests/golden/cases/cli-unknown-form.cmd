$ "$QUERN" check --as clay "$CASES/form-comments.quern"
status 2
err clay
