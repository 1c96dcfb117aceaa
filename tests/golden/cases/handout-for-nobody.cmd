$ "$QUERN" report --for doctors .
status 2
err quern report: --for knows `patients`, not `doctors`
