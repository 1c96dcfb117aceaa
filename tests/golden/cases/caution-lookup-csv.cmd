# A table of foods tells of a potassium salt in the row of the food; in a plain one the cell is empty.
$ "$QUERN" lookup "salt blend" --as csv | python3 -c "import csv,sys; [print(r['name'], r['caution'][:34], sep=': ') for r in csv.DictReader(sys.stdin) if r['name'] == 'half sodium salt blend']"
$ "$QUERN" lookup "flake salt" --as csv | python3 -c "import csv,sys; [print(r['name'], len(r['caution'])) for r in csv.DictReader(sys.stdin) if r['name'] == 'flake salt']"
status 0
out half sodium salt blend: This dish has a potassium salt in
out flake salt 0
