$ "$QUERN" lookup beans --as xml
status 2
err `xml` is no form; these are: text json csv
