# 300,000 foods fill more than one file; all names differ, and the whole is a kitchen without a finding.
$ awk 'BEGIN { print "id,food,na"; for (i = 0; i < 300000; i++) print i ",mill food kind " i ",5" }' > t.csv
$ printf 'import table {\n number column "id"\n name column "food"\n per 100 g { sodium column "na" mg }\n}\n' > t.map
$ "$QUERN" import t.csv --map t.map --out p && ls p | tr '\n' ' ' && cat p/* | grep -c '^food ' && printf 'kitchen "Mill"\n' > p/kitchen.quern && printf 'recipe "R" {\nserves 1\n100 g mill food kind 299999\n}\n' > p/r.quern && "$QUERN" check p/r.quern && echo clean
status 0
out 300000 foods in p/t-0001.quern and the files after it, up to 0002
out t-0001.quern t-0002.quern
out 300000
out clean
lacks error
