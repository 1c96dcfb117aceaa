$ printf 'food mill paste { group condiments; per 100 g { sodium 100 mg }; source "t" }\npolicy "P" {\nlimit sodium at most 10 mg\n}\nrecipe "A" {\nserves 4 people\n? (up to 1) oz mill paste\n100 g mill paste\nfollow "P"\nfollow "P"\nlimit sodium at most 400\n}\n' | "$QUERN" check - | grep -v '^ '
status 0
out not-computed-yet
out this bound of sodium has no unit
lacks unknown-treatment
lacks serving-size
out 2 errors, 1 warning
$ printf 'recipe "A" {\nserves 1\n1 cup water\n}\n' > a.quern; "$QUERN" report --as json --recipe Nope a.quern | wc -c
status 0
out 0
$ d=deep; for i in $(seq 66); do d=$d/a; done; mkdir -p $d; printf 'recipe "A" {\nserves 1\n1 cup nothing\n}\n' > $d/a.quern; cp $d/a.quern deep; "$QUERN" check deep
status 2
err it lies more than 64 folders deep
$ mkdir big; for i in $(seq 40); do printf 'recipe "A%s" {\nserves 1\n1 cup water\n}\n' $i > big/$i.quern; done; (ulimit -f 4; "$QUERN" report --as json --out made big); echo "status $?"; ls made | grep -vc 'json$'
status 1
out status 2
out 0
err File too large
$ printf 'label "L" { serving 30 g; sodium 480 g }\n' | "$QUERN" check -
status 1
out figure-senseless
