# Every statement of a mapping once. 2 g per 5 ml spoon is not asked for: a density of 0.4 g per ml is given.
$ printf 'Code;Food;Kind;Na;Salt;Cup;Serving;Dens;Group;Ref;Use\nA-1;Mill peas;green, shelled;12,5;;160;;;canned legumes;table 3;class\nA-2;Mill dust;fine;N;2,5;;;0,4;;;class\nA-3;Mill stone;;Tr;1;;;;;;other\nA-4;Mill tea;;1;;;;;;;retail\n' > t.csv
$ printf 'import table {\n separator ";"\n decimal comma\n encoding utf-8\n unknown "N", "Tr"\n caution "weighed once"\n number column "Code"\n name column "Food", "Kind"\n source "Millrace list"\n source column "Ref"\n group column "Group"\n keep column "Use" "class", "retail"\n per 100 g {\n sodium column "Na" mg\n iron column "Salt" 0.4 mg\n }\n portion cup shelled column "Cup" g\n serving column "Serving" g\n density column "Dens" g per ml\n}\n' > t.map
$ "$QUERN" import t.csv --map t.map --out p --prefix list && cat p/list-0001.quern && "$QUERN" check p && "$QUERN" import t.csv --map t.map --out q --source "Another list" | tail -n 1 && grep -c 'source "Another list' q/t-0001.quern
status 0
out 3 foods in p/list-0001.quern
out caution: weighed once
out # weighed once
out food mill peas green shelled {
out     group canned legumes
out         sodium 12.5 mg
out     1 cup shelled = 160 g
out     source "Millrace list, table 3 A-1"
out food mill dust fine {
out         iron 1 mg
out     density 0.4 g per ml
out     source "Millrace list A-2"
out food mill tea {
out 3
lacks stone
lacks sodium 0
