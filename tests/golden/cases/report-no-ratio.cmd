# Of what there may be nothing no ratio is told; it is not called unknown, since both figures are known.
$ printf 'food oddity { group oats; source "x"; per 100 g { sodium 100 mg; potassium 0 to 10 mg } }\nrecipe "May be" {\n    serves 1\n    100 g oddity\n}\nday "D" { 100 g oddity }\n' > a.quern; "$QUERN" report a.quern | grep 'by mass\|by moles'
status 0
out sodium to potassium, by mass: no figure: there may be no potassium
out sodium to potassium, by moles: no figure: there may be no potassium
lacks unknown, since
# Markdown: a number at the start of a cell is no list, an address is no link.
$ printf 'recipe "1. See www.example.org" {\n    serves 1\n    1/2 tsp table salt\n    1 cup milk\n    method { "2. Stir." }\n}\n' > a.quern; "$QUERN" report --as markdown a.quern > out; head -n 1 out; grep 'Stir\|iron\|^. water' out
status 0
out # 1\. See www\.example.org
out 1. 2\. Stir.
lacks | 0\.
lacks | 216\.
