$ "$QUERN" report --for patients --recipe "Skillet cornbread" "$CASES/../../../examples/millrace"
status 1
out Over the limit of 500 mg (Millrace heart class).
lacks unknown
