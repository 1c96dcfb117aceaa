# People read `not checked` for what is from memory, and what was measured is not in the list of estimates.
$ "$QUERN" report "$CASES/evidence.quern" | tr -s " "
status 0
out 100 g mill kale, mill one about 10 mg measured
out 100 g mill kale, mill two about 10 mg measured on a like food
out 100 g mill kale, mill three about 10 mg one kitchen test
out 100 g mill kale, mill four about 10 mg estimated
out 100 g mill kale, mill five about 10 mg not checked
out - 100 g mill kale, mill four: estimated
out - 100 g mill kale, mill five: not checked
lacks mill five: from memory
lacks mill two: measured
