$ "$QUERN" lookup kale --kitchen none
status 2
err none: No such file or directory
