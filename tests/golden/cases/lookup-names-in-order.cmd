# Two names of the same words, told apart by their order.
$ mkdir k; echo 'kitchen "Mine"' >k/kitchen.quern
$ printf 'food mill cocoa { in this order; per 100 g { sodium 79 mg } }\nfood cocoa mill { in this order; per 100 g { sodium 60 mg } }\nrecipe "A" { serves 1; 100 g cocoa mill }\n' >k/a.quern
$ "$QUERN" lookup cocoa mill --kitchen k | grep -v unknown; "$QUERN" lookup mill cocoa --limit 9 --as csv --kitchen k | cut -d, -f1,3,7
status 0
out sodium               60 mg
out used by 1 line in k
out mill cocoa,name,79
out cocoa mill,words,60
