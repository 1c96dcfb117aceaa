$ "$QUERN" lookup --group "$(head -c 5000 /dev/zero | tr '\0' a)"
status 2
err quern: no group is called `aaaa
