# One caution, all its reasons, the most dangerous first; hazards stand before it.
$ printf 'label "Lite" { serving 1 g; potassium 340 mg; ingredients "salt, potassium chloride" }\nrecipe "Both" { serves 2; 1 serving "Lite"; 2 g half sodium salt blend; 1 g pink curing salt; 5 g low sodium baking powder }\n' > k.quern; "$QUERN" report --as json k.quern | python3 -c "import json,sys; [print(c['text'][:30], '|', c.get('because')) for c in json.load(sys.stdin)['recipes'][0]['cautions'][:3]]"
status 0
out Curing salt is a poison if it  | pink curing salt is in it
out This dish has a potassium salt | half sodium salt blend is in it, with about 262 mg potassium a serving; low sodium baking powder is in it, with about 
out a packet in it lists potassium chloride
