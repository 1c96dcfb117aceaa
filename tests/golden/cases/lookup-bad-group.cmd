$ "$QUERN" lookup beans --group 'caned legumes'
status 2
err no group is called `caned legumes`; near names are canned legumes
