$ "$QUERN" report --for patients --as markdown --recipe "Slow tomato sauce" "$CASES/../../../examples/millrace"
status 1
out # Slow tomato sauce
out ## Three things that matter first
out | olive oil | 2 tbsp | 30 ml, about 27 g |
