# A lower-sodium version that is one by a potassium salt says so first, with its potassium, and is no offer to buy.
$ printf 'food mill lite brine { group soy sauces with potassium; per 100 g { sodium 1000 mg; potassium 4000 mg }; source "made up for this test" }\nfood mill brine { milder mill lite brine; group dishes; per 100 g { sodium 3000 mg; potassium 100 mg }; source "made up for this test" }\nrecipe "Bowl" { serves 1; 20 g mill brine; 200 g water }\n' > k.quern; "$QUERN" report --for patients k.quern
status 0
out 3. mill lite brine has a potassium salt in it, 4000 mg potassium in 100 g: ask your care team before you buy it instead of mill brine.
lacks You can buy
