$ "$QUERN" salts --as json
status 0
schema salts
same foods/2/name "table salt"
same foods/2/measures/2/grams/best 6.0
same foods/2/measures/2/amounts/sodium/best 2325.48
same foods/2/measures/3/amounts/sodium/high 7325.262
same foods/2/measures/4/amounts/sodium/best 3875.8
