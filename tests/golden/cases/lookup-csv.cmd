# Read back with a reader of RFC 4180; lines end with CR LF, cells a spreadsheet would compute are defused.
$ "$QUERN" lookup millrace --as csv --kitchen "$CASES/kitchen-lookup" >out; s=$?
$ python3 -c 'import csv; rows = list(csv.reader(open("out", newline=""), strict=True)); assert {len(row) for row in rows} == {len(rows[0])}, rows; print([row[0] + "|" + row[-2] for row in rows])'
$ grep -c "$(printf '\r')\$" out; exit $s
status 0
out "'=1+1 millrace|'@made up"
out 'millrace beans|made up, by hand'
out 5
