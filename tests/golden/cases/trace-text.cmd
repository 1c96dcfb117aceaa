# By hand: 0.5 cup × 240 g = 120 g, 100 mg in 100 g: 120 mg (108 to 144); 200 g × 300 mg × 50% = 300 mg (240 to 360). Of four 105 mg (87 to 126).
$ "$QUERN" trace Gruel --kitchen "$CASES/trace.quern" | tr -s " "
status 0
out How the sodium of “Gruel” is computed
out × 1 cup, in g 240 240 240 [2]
out = g that go in 120 120 120
out mill groats: mg in 100 g 90 100 120 [2]
out = mg of the line 108 120 144
out mill washed (estimated) [4]
out × share that stays 0.4 0.5 0.6
out = mg of the line 240 300 360
out sum of the lines 348 420 504
out = mg per serving 87 105 126
out printed, low down and high up 85 105 130
out - in doubt: limit: sodium per serving at most 110 mg; it is 105 mg (87 to 126 mg)
out 2. a made-up table
out Are you under medical care?
