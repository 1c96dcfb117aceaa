$ : > empty.quern
$ "$QUERN" check empty.quern
status 0
