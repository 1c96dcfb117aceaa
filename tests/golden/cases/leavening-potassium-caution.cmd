$ for food in "baking powder" "baking soda" "tartrate baking powder" "low sodium baking powder" "cream of tartar" "potassium bicarbonate" "potassium citrate" "soy sauce" "reduced sodium soy sauce made from hydrolyzed protein" "chicken bouillon powder" "low sodium bouillon"; do printf 'recipe "%s" { serves 1; makes 100 g; 1 g %s }\n' "$food" "$food"; done > a.quern; "$QUERN" report --as json a.quern | python3 -c "import json,sys; [print(r['name'], *[c['because'] for c in r['cautions'] if 'because' in c], sep=': ') for r in json.load(sys.stdin)['recipes']]"; "$QUERN" report --as text a.quern | grep -c '^  This dish has a potassium salt'
status 0
out baking powder
out baking soda
out tartrate baking powder: tartrate baking powder is in it
out low sodium baking powder: low sodium baking powder is in it
out cream of tartar: cream of tartar is in it
out potassium bicarbonate: potassium bicarbonate is in it
out potassium citrate: potassium citrate is in it
out soy sauce
out reduced sodium soy sauce made from hydrolyzed protein: reduced sodium soy sauce made from hydrolyzed protein is in it
out chicken bouillon powder
out low sodium bouillon: low sodium bouillon is in it
out 7
