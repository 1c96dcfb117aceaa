# A table tells what the salt holds, and common memory what a spoon of it weighs: both are told.
$ "$QUERN" salts | grep '^  - pink curing salt:'
status 0
out a spoon of it: not checked
