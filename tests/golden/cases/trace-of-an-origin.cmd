# Nobody salts oats: their 120 mg are inherent, and the beans' 300 mg cannot be told apart unless their group says so.
$ "$QUERN" trace Gruel "sodium from inherent" --kitchen "$CASES/trace.quern" | tr -s " "
$ "$QUERN" trace Gruel weight --kitchen "$CASES/trace.quern" | tr -s " "
status 0
out How the sodium from inherent of “Gruel” is computed
out = mg of the line 108 120 144
out How the weight of “Gruel” is computed
out = g per serving 80 80 80
