# Escape, DEL, C1, direction and zero-width characters of a recipe reach no output raw: not the terminal, not CSV, not JSON,
# not a page. Where they stand JSON has escapes, and the rest a sign in their place.
$ printf 'recipe "Red\033[31m\177\302\233 \342\200\256 \342\200\213\357\273\277\363\240\201\201 end" {\n serves 1\n 100 g carrots, "a\033b\342\200\256c"\n 1 cup gr\033[2Joats\n}\n' > k.quern
$ for form in text json csv html markdown jsonld; do "$QUERN" report --as $form k.quern > out.$form; done; "$QUERN" report --as csv --lines k.quern > out.lines; "$QUERN" check k.quern > out.check; "$QUERN" check --as json k.quern > out.checked; "$QUERN" shopping --kitchen k.quern > out.shopping; "$QUERN" rank --as json k.quern > out.rank; "$QUERN" report --for patients k.quern > out.hand; "$QUERN" lookup "$(printf 'a\033b\302\233')" --as json > out.look
$ printf 'import glob, re\nraw = re.compile("[\\x00-\\x08\\x0b\\x0c\\x0e-\\x1f\\x7f-\\x9f\\u200b\\u200e\\u200f\\u202a-\\u202e\\u2060-\\u206f\\ufeff\\U000e0000-\\U000e007f]")\nfor path in sorted(glob.glob("out.*")):\n    text = open(path, encoding="utf-8").read()\n    found = raw.search(text)\n    print(path, "raw " + ascii(found.group()) if found else "clean", bool(text))\n' > look.py; python3 look.py
$ python3 -c "import json; print('same', json.load(open('out.json'))['recipes'][0]['name'].encode('unicode_escape').decode())"
status 0
out out.json clean True
out out.csv clean True
out out.lines clean True
out out.look clean True
out out.check clean True
lacks raw '
lacks False
