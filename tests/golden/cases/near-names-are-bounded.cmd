# Near names are looked for two hundred times of each sort, in the order of places and whatever the number of threads: the 200th slip has an offer, the 201st has none.
$ mkdir k; printf 'kitchen "K"\n' > k/kitchen.quern; for f in a b; do { printf 'recipe "%s" {\nserves 1\n' $f; i=0; while [ $i -lt 150 ]; do printf '%d g carots\n100 g carrots, choped\n' $((i+1)); i=$((i+1)); done; printf '}\n'; } > k/$f.quern; done
$ printf 'import json, sys\nf = [x for x in json.load(sys.stdin)["findings"] if x["code"] in ("unknown-food", "unknown-treatment")]\nhas = [bool(x["notes"]) for x in f]\nprint(len(f), sum(has), has.index(False), any(has[200:]))\n' > count.py
$ "$QUERN" check --as json k > one; "$QUERN" check --jobs 4 --as json k > four; cmp one four && python3 count.py < one
status 0
out 600 200 200 False
