# Sodium under 0.5 g in 100 g: 0.15 g to either side; from 0.5 g on 20% (guidance of 2012, from memory).
$ printf 'kitchen "K"\nfollow rules eu\nfollow "Law"\npolicy "Law" { tolerance legal }\nlabel "Tin" { serving 100 g; sodium 499 mg }\nrecipe "R" { serves 1; 1 serving "Tin" }\n' > k.quern; "$QUERN" report k.quern >&2; "$QUERN" report --as json k.quern
status 0
err not checked against the regulation
schema report
same recipes/0/per_serving/sodium/low 349
same recipes/0/per_serving/sodium/best 499
same recipes/0/per_serving/sodium/high 649
