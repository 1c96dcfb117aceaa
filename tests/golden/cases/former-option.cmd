$ "$QUERN" check --format json "$CASES/form-comments.quern"
status 2
err quern check: `--format` is called `--as` now
