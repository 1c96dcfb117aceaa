# A day is told to be low by its high end, unless a dish in it was weighed by nobody: then nothing is its high end.
$ printf 'food mill groats { group oats; per 100 g { sodium 100 mg; potassium 100 mg }; source "made up for this test" }\nrecipe "Pot" { 1000 g mill groats }\nday "Weighed" for woman 75 { 1400 g mill groats }\nday "Estimated" for woman 75 { 1400 g "Pot" }\n' | "$QUERN" check -
status 0
out 3:15: note: this day holds at most 1400 mg of sodium, less than the adequate intake of 1500 mg [low-intake]
out 4:17: note: this day holds about 1400 mg (an estimate: nobody weighed a dish in it) of sodium, less than the adequate intake of 1500 mg [low-intake]
