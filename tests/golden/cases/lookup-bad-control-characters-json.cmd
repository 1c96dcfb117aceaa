$ "$QUERN" lookup "$(printf 'ka\033le\377')" --as json
status 2
err these are no words of a name
