# A label of the European Union prints salt: 1.2 g is 1.15 to 1.25 g, at 2.5 g of salt a gram of sodium 460 to 500 mg of sodium;
# 0.75 g is 0.745 to 0.755 g, 298 to 302 mg; 0 g is up to 0.0125 g, 5 mg (Commission guidance of December 2012).
$ printf 'kitchen "A"\nfollow rules eu\n' > kitchen.quern
$ printf 'label "Broth" { serving 100 g; salt 1.2 g }\nlabel "Crackers" { serving 100 g; salt 0.75 g }\nlabel "Plain" { serving 100 g; salt 0 g }\nlabel "Odd" { serving 100 g; salt 1.25 g }\nlabel "Both" { serving 100 g; sodium 0.3 g; salt 0.75 g }\n' > a.quern
$ printf 'recipe "A" { serves 1; 1 serving "Broth" }\nrecipe "B" { serves 1; 1 serving "Crackers" }\nrecipe "C" { serves 1; 1 serving "Plain" }\n' > b.quern
$ "$QUERN" report --as json .
status 1
schema report
same recipes/0/per_serving/sodium/low 460
same recipes/0/per_serving/sodium/best 480
same recipes/0/per_serving/sodium/high 500
same recipes/1/per_serving/sodium/low 298
same recipes/1/per_serving/sodium/high 302
same recipes/2/per_serving/sodium/low 0
same recipes/2/per_serving/sodium/high 5
out "label-figure"
out "repeated-statement"
