$ "$QUERN" report --as json --out made "$CASES/form-comments.quern" && grep -rq Porridge made && echo found
status 0
out found
