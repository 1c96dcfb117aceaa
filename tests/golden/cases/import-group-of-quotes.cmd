# A group without a name made the reader look four gigabytes past the end.
$ printf 'import table{group"""""{' > m.map; printf 'Code;Food\n1;x\n' > t.csv; "$QUERN" import t.csv --map m.map --out o
status 1
out unknown-group
