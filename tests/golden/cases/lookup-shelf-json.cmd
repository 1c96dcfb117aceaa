$ "$QUERN" lookup butter --as json
status 0
schema lookup
same card null
same kinds/0/name "salted butter"
same kinds/0/match "kind"
same kinds/0/per_100_g/sodium/best 643
same kinds/1/per_100_g/sodium/best 11
