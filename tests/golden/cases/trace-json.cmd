# Two of four servings of what holds 420 mg are 210 mg; 50 g of groats that may be left out are 0 to 60 mg. Of two: 105 mg and more.
$ "$QUERN" trace Supper sodium --kitchen "$CASES/trace.quern" --as json
status 0
schema trace
same of "sodium"
same recipes/0/lines/0/recipe 1
same recipes/0/lines/0/went_in/best 0.5
same recipes/0/lines/0/holds/high 504
same recipes/0/lines/0/total/low 174
same recipes/0/lines/1/total/low 0
same recipes/0/lines/1/total/high 60
same recipes/0/per_serving/best 130
same recipes/1/name "Gruel"
same recipes/1/lines/1/treatments/1/step "keeps"
same recipes/1/lines/1/treatments/1/factor/best 0.5
same recipes/1/total/best 420
same recipes/1/limits/0/outcome "in doubt"
