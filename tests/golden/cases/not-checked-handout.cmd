# No sheet says that a figure is from memory: a daily value that nobody checked says so beside it, once; one that was read says nothing.
$ printf 'kitchen "K"\nfollow rules canada\nrecipe "R" { serves 2; 1 tsp table salt }\n' > kitchen.quern; "$QUERN" report --for patients kitchen.quern > out; grep -c "Not checked against the regulation" out; grep -c -i "from memory" out >&2; printf 'kitchen "K"\nfollow rules us\nrecipe "R" { serves 2; 1 tsp table salt }\n' > kitchen.quern; "$QUERN" report --for patients kitchen.quern | grep -c -i "not checked against\|from memory" >&2
status 1
out 1
err 0
lacks memory
