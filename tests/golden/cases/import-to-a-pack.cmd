# A pack at once: nothing but the pack is left, and nothing at all when a row is wrong.
$ printf 'name,na,id\nMill oats,3,1\nMill wafer,610,2\n' > t.csv; printf 'import table {\n number column "id"\n name column "name"\n source "class list"\n per 100 g {\n sodium column "na" mg\n }\n}\n' > t.map; "$QUERN" import t.csv --map t.map --out shop.pack; echo "status $?"; ls
status 0
out 2 foods in shop.pack
out status 0
lacks parts
$ printf 'kitchen "K"\nuse "shop.pack"\n' > kitchen.quern; printf 'recipe "A" {\nserves 1\n50 g mill wafer\nlimit sodium at most 305 mg per serving\n}\n' > a.quern; "$QUERN" check . && echo clean
status 0
out clean
$ rm -f shop.pack; printf 'name,na,id\nMill oats,-3,1\n' > t.csv; "$QUERN" import t.csv --map t.map --out shop.pack; echo "status $?"; ls | grep -c pack
status 1
out status 1
lacks parts
