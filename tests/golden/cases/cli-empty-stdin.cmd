$ "$QUERN" check - < /dev/null
status 0
