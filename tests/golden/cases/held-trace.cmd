# In the words of the report, with who set it and both sides of it; of a trace what is traced, of a record all.
$ printf 'food mill grain { group oats; per 100 g { sodium 100 mg; potassium 50 mg }; source "made up" }\nrecipe "Over" { serves 1; limit sodium between 100 mg and 400 mg per serving set by clinician; goal potassium at least 300 mg per serving; 500 g mill grain }\n' > v.quern
$ "$QUERN" trace Over --kitchen v.quern > trace
$ grep -c 'goal: potassium' trace
$ cat trace
$ "$QUERN" trace Over potassium --kitchen v.quern | sed 's/^/potassium/'
$ "$QUERN" trace Over --record --kitchen v.quern | sed 's/^/record/'
status 0
out 0
out - BROKEN: limit: sodium per serving between 100 mg and 400 mg (set by clinician); it is 500 mg
out potassium  - missed: goal: potassium per serving at least 300 mg; it is 250 mg
out record  - BROKEN: limit: sodium per serving between 100 mg and 400 mg (set by clinician); it is 500 mg
out record  - missed: goal: potassium per serving at least 300 mg; it is 250 mg
