# Files that lie in no kitchen are looked through one by one.
$ mkdir loose; printf 'recipe "A" { serves 1; 2 cups kale }\n' >loose/a.quern; printf 'recipe "B" { serves 1; 100 g kale, chopped }\n' >loose/b.quern
$ "$QUERN" lookup kale --kitchen loose
status 0
out used by 2 lines in loose
out   loose/a.quern:1: 2 cups kale  ("A")
out   loose/b.quern:1: 100 g kale, chopped  ("B")
