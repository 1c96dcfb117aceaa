$ printf 'group shop foods { within condiments }\nfood shop paste { group shop foods; per 100 g { sodium 500 mg }; 1 cup = 200 g; source "shop" }\nlabel "Shop broth" { serving 1 cup; sodium 140 mg }\nunit ladle { volume 120 ml }\n' > shop.quern; mkdir k; printf 'kitchen "K"\nuse "../shop.pack"\n' > k/kitchen.quern; printf 'recipe "A" {\nserves 1\n1 cup shop paste\n1 cup "Shop broth"\n1 ladle water\n}\nlabel "Own" { serving 10 g; sodium 10 mg }\ngroup mine { within shop foods }\nfood mine paste { group mine; per 100 g { sodium 1 mg } }\n' > k/a.quern; "$QUERN" pack --out shop.pack shop.quern && "$QUERN" check --allow . k && "$QUERN" report --allow . --as json k | python3 -c "import json,sys; print([(l['food'], l['sodium']['best'], l.get('source')) for l in json.load(sys.stdin)['recipes'][0]['lines']])"
status 0
out 2 foods in shop.pack
out ('shop paste', 1000, 'shop')
$ printf 'food shop paste { per 100 g { sodium 500 mg }; source "shop" }\n' > shop.quern; "$QUERN" pack --out shop.pack shop.quern; printf 'kitchen "K"\nuse "shop.pack"\n' > kitchen.quern; printf 'recipe "A" {\nserves 1\n100 g shop paste\n}\n' > a.quern; python3 -c "import struct; b = bytearray(open('shop.pack','rb').read()); at = b.find(struct.pack('<d', 500.0)); b[at+5] ^= 1; open('shop.pack','wb').write(b)"; "$QUERN" check --allow . .
status 1
out a.quern:3:7: error: the pack that holds shop paste is damaged [bad-pack]
$ printf 'food shop paste { per 100 g { sodium 500 mg }; source "shop" }\n' > shop.quern; "$QUERN" pack --out shop.pack shop.quern; printf 'kitchen "K"\nuse "shop.pack"\n' > kitchen.quern; printf 'recipe "A" {\nserves 1\n100 g table salt\n}\n' > a.quern; cp shop.pack whole; for edit in 'b[:-9]' 'b[:8] + b"\xff" + b[9:]' 'b[:12] + b[15:11:-1] + b[16:]' 'b[:24] + b"\1" + b[25:]' 'b"x" + b[1:]' 'b[:90] + b"\x7f" + b[91:]' 'b""'; do python3 -c "b = open('whole','rb').read(); open('shop.pack','wb').write($edit)"; "$QUERN" check . | grep 'error: the pack'; done
status 0
out it is not as long as it says
out it was made by another version of Quern
out numbers in another order
out it was made with another library below it
out this is no library pack
out it is damaged
out No data available
$ printf 'food a1 { per 100 g { sodium 500 mg }; source "s" }\nrecipe "X" {\nserves 1\n}\n' > shop.quern; "$QUERN" pack --out none.pack shop.quern; ls | grep -c none.pack
status 1
out `recipe` does not go into a pack
out 0
$ printf 'food a1 { per 100 g { sodium 500 mg }; source "s" }\n' > shop.quern; "$QUERN" pack --out /dev/full/x shop.quern
status 2
err /dev/full/x
$ "$QUERN" pack shop.quern
status 2
err quern pack --out shop.pack shop.quern
