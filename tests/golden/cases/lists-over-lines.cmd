$ "$QUERN" check "$CASES/lists-over-lines.quern"
status 1
out mill flat flakes
out mill hollow flakes
out a ladle or a scoop
