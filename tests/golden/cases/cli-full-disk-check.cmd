$ "$QUERN" check "$CASES/bad-five-mistakes.quern" > /dev/full
status 2
