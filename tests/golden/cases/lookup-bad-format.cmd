$ "$QUERN" lookup beans --format xml
status 2
err `xml` is no format; it is `people`, `json` or `csv`
