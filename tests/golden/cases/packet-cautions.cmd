# Equal parts of salt and potassium chloride: 1 g has 0.5 × 524 mg potassium, by formula.
$ printf 'label "Lite" { serving 1 g; potassium 340 mg; ingredients "salt, potassium chloride" }\nrecipe "Plain" { serves 1; 1 cup water }\nrecipe "Goal" { serves 1; goal potassium at least 10 mg; 1 cup water }\nrecipe "Most" { serves 1; limit potassium at most 700 mg; 1 cup water }\nrecipe "Ratio" { serves 1; limit sodium to potassium at most 1000; 1 cup water }\nrecipe "Food" { serves 1; makes 100 g; 1 g half sodium salt blend }\nrecipe "Inside" { serves 1; 50 g "Food" }\nrecipe "Packet" { serves 1; 1 g "Lite" }\n' > a.quern; "$QUERN" report --as json a.quern | python3 -c "import json,sys; [print(r['name'], len(r['cautions']), *[c['because'] for c in r['cautions'] if 'because' in c], sep=': ') for r in json.load(sys.stdin)['recipes']]"
$ "$QUERN" report --recipe Packet a.quern
status 0
out Plain: 5
out Goal: 6: potassium is a goal here
out Most: 5
out Ratio: 6: potassium is a goal here
out Food: 6: half sodium salt blend is in it, with about 262 mg potassium a serving
out Inside: 6: half sodium salt blend is in it
out Packet: 6: a packet in it lists potassium chloride
out (Shown because a packet in it lists potassium chloride.)
out Too much potassium can be dangerous
