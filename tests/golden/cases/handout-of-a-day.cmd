$ "$QUERN" report --for patients --recipe "Class menu, Tuesday" "$CASES/../../../examples/millrace"
status 1
out   1. The day holds about 1330 mg of sodium
out     serving White bean and kale soup              1            about 390 g
