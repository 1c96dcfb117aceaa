# In JSON what is dangerous says so.
$ "$QUERN" salts --as json | python3 -c "import json,sys; d=json.load(sys.stdin)['foods']; print(sorted(f['name'] for f in d if 'hazard' in f))"
status 0
out ['pink curing salt', 'pink curing salt with nitrate', 'potassium nitrate', 'sodium nitrate', 'sodium nitrite', 'weak curing salt']
