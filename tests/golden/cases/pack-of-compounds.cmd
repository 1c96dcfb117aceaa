# Whatever the order of files and lines: Xx weighs 30 and Zz 60, so Xx2Zz is half sodium, and half of that in the blend.
$ printf 'blend shop mix { 50%% shop xz; 50%% shop meal }\ncompound shop xz { formula Xx2Zz }\n' > a.quern; printf 'food shop meal { per 100 g { sodium 0 mg } }\nelement zedium { symbol Zz; weight 60 }\nelement xenium { symbol Xx; weight 30; counts as sodium }\n' > b.quern; "$QUERN" pack --out shop.pack a.quern b.quern; mkdir k; printf 'kitchen "K"\nuse "../shop.pack"\n' > k/kitchen.quern; printf 'compound own xz { formula XxZz }\nblend own mix { 20%% own xz; 80%% shop mix }\nrecipe "A" {\nserves 1\n100 g shop mix\n}\nrecipe "B" {\nserves 1\n100 g own mix\n}\n' > k/a.quern; "$QUERN" report --allow . --as json k | python3 -c "import json,sys; print([round(r['per_serving']['sodium']['best'], 6) for r in json.load(sys.stdin)['recipes']])"
status 0
out 3 foods in shop.pack
out [25000, 26666.666667]
# A text is read once more for compounds and once more for blends; what is wrong with it is told once all the same.
$ printf 'blend shop mix { 50%% shop xz; 40%% nothing }\ncompound shop xz { formula Xx2 }\nelement xenium { symbol Xx; weight 30 }\nfood a1 { per 100 g { sodium 5 mg }; 1 cup = }\n' > a.quern; "$QUERN" pack --out shop.pack a.quern > said; grep -c 'blend-sum' said; grep -c 'unknown-food' said; grep -c 'syntax' said; echo "told: $(grep -c 'error:' said)"
status 0
out told: 3
$ printf 'element xenium { symbol Xx; weight 30 }\nfood a1 { per 100 g { sodium 5 mg }; 1 cup = }\n' > a.quern; "$QUERN" pack --out shop.pack a.quern > said; echo "told: $(grep -c 'error:' said)"
status 0
out told: 1
