# Says what commands there are; the language does not fix the status.
$ "$QUERN" 2>&1; true
status 0
out check
out report
out lookup
