$ "$QUERN" report --as json "$CASES/kitchen-folder" > one; "$QUERN" report --as json "$CASES/kitchen-folder" > two; cmp one two && test -s one && echo same
status 0
out same
