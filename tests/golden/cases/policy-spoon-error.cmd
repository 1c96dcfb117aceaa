$ mkdir k; printf 'policy "P" { spoon error 20%% }\npolicy "Q" { spoon error 10%% }\nkitchen "K"\nfollow "P"\nfollow "Q"\n' > k/kitchen.quern; printf 'food mill powder { group condiments; per 100 g { sodium 40000 mg }; 1 tsp = 6 g; 1 knob = 6 g; source "made up" }\nlabel "Rub" { serving 1 tsp = 6 g; servings 4; sodium 600 mg }\nrecipe "House" { serves 2 of 1 tsp; 12 g mill powder }\nrecipe "A" {\nserves 1\n1 tsp mill powder\n6 g mill powder\n1 knob mill powder\n1 knob mill powder (1 tsp)\n1 packet (1 tsp) mill powder\n20 g mill powder, thrown away 1 tsp\n1 tsp "House"\n1 heaped tsp mill powder\n1 tsp mill powder (6 g)\nup to 1 tsp mill powder\n}\n' > k/a.quern; "$QUERN" report --as json --recipe A k | python3 -c "import json,sys; r=json.load(sys.stdin)['recipes'][0]; print(r['spoon_error']); [print(*(round(l['sodium'][k]) for k in ('low','best','high'))) for l in r['lines']]"
status 0
out 0.2
out 1920 2400 2880
out 2400 2400 2400
out 2400 2400 2400
out 1920 2400 2880
out 2400 2400 2400
out 5120 5600 6080
out 1920 2400 2880
out 2496 3600 4896
out 2400 2400 2400
out 0 1200 2880
$ "$QUERN" report --spoon-error 25% --as json --recipe A k | python3 -c "import json,sys; r=json.load(sys.stdin)['recipes'][0]; print(r['spoon_error'], *(round(r['lines'][0]['sodium'][k]) for k in ('low','best','high')))"
status 0
out 0.25 1800 2400 3000
$ "$QUERN" report --spoon-error=10% "$CASES/policy-spoon-error.quern"
status 1
out Ranges hold that spoons and cups err by 10%: 1 of 1 amounts here.
$ "$QUERN" report "$CASES/policy-spoon-error.quern" | grep -c "Ranges hold"
status 1
out 0
$ "$QUERN" check "$CASES/policy-spoon-error.quern" | grep -c spoon-error-in-recipe; "$QUERN" check --spoon-error 10% "$CASES/policy-spoon-error.quern" | grep -c spoon-error-in-recipe
status 1
out 1
out 0
$ "$QUERN" check --spoon-error 51% k
status 2
err --spoon-error takes a share from 0% to 50%
$ "$QUERN" check --spoon-error 10 k
status 2
err not `10`
$ "$QUERN" check --spoon-error -5% k
status 2
err not `-5%`
$ "$QUERN" check --spoon-error nan% k
status 2
err not `nan%`
$ "$QUERN" check --spoon-error
status 2
err `--spoon-error` needs a value
$ "$QUERN" lookup --spoon-error 10% salt
status 2
err no option is called
