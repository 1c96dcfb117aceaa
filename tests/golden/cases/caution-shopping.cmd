# A list to buy from tells of what is dangerous on it, once: nobody has read the recipe yet.
$ printf 'recipe "Belly" { serves 10; 1 kg pork belly; 5 g pink curing salt; 3 g sodium nitrite; 3 g sodium nitrate; 1 tsp half sodium salt blend }\n' > k.quern; "$QUERN" shopping; "$QUERN" shopping --as json | python3 -c "import json,sys; print([c['because'] for c in json.load(sys.stdin)['cautions']])"
status 0
out Curing salt is a poison
out (Shown because of pink curing salt.)
out a small spoon of it can poison
out This dish has a potassium salt
out of sodium nitrate
