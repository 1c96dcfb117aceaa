$ "$QUERN" report --for patients --as json .
status 2
err quern report --for patients: `json` is no form
