# Tables for machines keep the words of the language.
$ "$QUERN" report --as csv --lines "$CASES/evidence.quern"
status 0
out ,mill five,from memory,
lacks not checked
