# A packet that is a medicine, and much tap water: half a litre is at the limit.
$ printf 'label "Fizz" { serving 1 tablet = 3 g; sodium 400 mg; medicine }\nrecipe "Glass" { serves 1; 1 serving "Fizz"; 499 g water }\nrecipe "Pot" { serves 4; 500 g water }\n' > k.quern; "$QUERN" report --as json k.quern | python3 -c "import json,sys; [print(r['name'], [c['text'][:20] for c in r['cautions'] if 'because' in c]) for r in json.load(sys.stdin)['recipes']]"
status 0
out Glass ['Some medicines have ']
out Pot ['Tap water that runs ']
