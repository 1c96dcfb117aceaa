$ "$QUERN" explain limit-broken
status 0
out limit-broken (error):
out The recipe surely breaks a limit
$ "$QUERN" explain nothing
status 2
err no finding has the code `nothing`
$ "$QUERN" explain bad-utf8
status 0
out     try: save the file as UTF-8
