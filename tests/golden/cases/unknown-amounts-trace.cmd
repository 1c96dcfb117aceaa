# Of some crystals the amount is unknown and the food is known; of the mystery the other way round.
$ "$QUERN" trace Gruel sodium --kitchen "$CASES/unknown-amounts.quern" --as json
status 0
schema trace
same recipes/0/lines/1/went_in/best null
same recipes/0/lines/1/went_in/low 0
same recipes/0/lines/1/counts/high null
same recipes/0/lines/1/holds/best 40000
same recipes/0/lines/1/holds_then/high 40000
same recipes/0/lines/2/went_in/best 1
same recipes/0/lines/2/holds/best null
same recipes/0/lines/2/holds_then/best null
