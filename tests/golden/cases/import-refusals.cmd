# What cannot be done is told, and what is there is left alone.
$ printf 'food,na\na mill,1\n' > t.csv; printf 'import table {\n name column "food"\n per 100 g { sodium column "na" mg }\n}\n' > t.map; mkdir empty
$ "$QUERN" import t.csv --out p; echo 1 $?; "$QUERN" import empty --out p; echo 2 $?; "$QUERN" import none --map t.map --out p; echo 3 $?; "$QUERN" import t.csv --map none --out p; echo 4 $?; "$QUERN" import t.csv --form sheet --out p; echo 5 $?; "$QUERN" import empty --map t.map --out p; echo 6 $?; "$QUERN" import t.csv --map t.map; echo 7 $?; "$QUERN" import t.csv --map t.map --out p --prefix a/b; echo 8 $?; "$QUERN" import t.csv --form release --out p; echo 9 $?; "$QUERN" import empty --form central --map t.map --out p; echo 9b $?
$ "$QUERN" import t.csv --map t.map --out p > /dev/null && "$QUERN" import t.csv --map t.map --out p; echo 10 $?; ls -A . p | tr '\n' ' '
status 0
out 1 2
out 2 2
out 3 2
out 4 2
out 5 2
out 6 2
out 7 2
out 8 2
out 9 2
out 9b 2
out 10 2
out .: empty p t.csv t.map  p: t-0001.quern
err say with --map FILE what the columns of this table are
err the form of these tables is not known
err No such file or directory
err no form has this name: release, central, table
err this is a folder, and the mapping is of a single table
err `quern import packets.csv --map packets.map --out pantry`
err a/b: is no name for a file
err central: a form has its own mapping; leave out --form or --map
err this is a file, and the mapping is of the tables of a folder
err files of an earlier import with this name are here
