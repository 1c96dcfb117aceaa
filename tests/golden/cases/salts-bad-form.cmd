$ "$QUERN" salts --as csv
status 2
err quern salts: `csv` is no form; these are: text json markdown html
