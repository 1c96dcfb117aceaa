# A limit that a clinician set comes before all figures where it is over or in doubt, whatever the nutrient: 2545 mg against 1000,
# exactly 1000 is within, and one that may be either says so. Kept ones are told after the three things.
$ printf 'food mill groats { group oats; per 100 g { sodium 10 mg; potassium 100 mg; energy 100 kcal }; source "made up for this test" }\nday "Over" { 2545 g mill groats; limit potassium at most 1000 mg set by clinician; limit sodium at most 2000 mg }\n' > over.quern; "$QUERN" report --for patients over.quern | sed -n "/Over/,/Three things/p"
$ printf 'food mill groats { group oats; per 100 g { sodium 10 mg; potassium 100 mg; energy 100 kcal }; source "made up for this test" }\nday "At" { 1000 g mill groats; limit potassium at most 1000 mg set by clinician }\nday "May" { 990 to 1008 g mill groats; limit potassium at most 1000 mg set by clinician }\nday "Probably" { 990 to 1030 g mill groats; limit potassium at most 1000 mg set by clinician }\n' > more.quern; "$QUERN" report --for patients more.quern
status 0
out potassium per day: 2550 mg. Over the limit of 1000 mg that your care team
out Other limits and goals
out Within the limit of 1000 mg that your
out May be over the
out Probably over the
