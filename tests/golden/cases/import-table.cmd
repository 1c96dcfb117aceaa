# Quotes doubled, commas and line breaks inside them, CRLF, a byte-order mark; empty cells stay unknown; kJ and g converted.
$ printf '\357\273\277id,food,"Na (mg)",Fe,E\r\n7,"Mill soup, ""thick""",400,0.0035,418.4\r\n8,"Mill\r\nbread",0,,\r\n' > t.csv
$ printf 'import table {\n number column "id"\n name column "food"\n source "Millrace packets, number"\n per 100 g {\n sodium column "Na (mg)" mg\n iron column "Fe" g\n energy column "E" kJ\n }\n}\n' > t.map
$ "$QUERN" import t.csv --map t.map --out pantry && cat pantry/t-0001.quern && "$QUERN" check pantry && ls -A pantry | wc -l
status 0
out 2 foods in pantry/t-0001.quern
out food mill soup thick {
out energy 100 kcal; sodium 400 mg; iron 3.5 mg
out food mill bread {
out         sodium 0 mg
out source "Millrace packets, number 8"
lacks 0 kcal; sodium 0 mg
lacks error
