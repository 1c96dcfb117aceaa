# USDA SR28 NDB 16058: sodium 278 mg, potassium 144 mg, sugars not measured; a cup is 240 g: 667.2 mg.
$ "$QUERN" lookup canned garbanzos --as json
status 0
schema lookup
same card/name "canned chickpeas"
same card/basis "whole can"
same card/group "canned legumes"
same card/milder "low sodium canned chickpeas"
same card/per_100_g/sodium {"unit": "mg", "low": 278, "best": 278, "high": 278}
same card/per_100_g/sugars {"unit": "g", "low": null, "best": null, "high": null}
same card/origin/inherent {"low": 3, "best": 4, "high": 7}
same card/origin/maker {"low": 271, "best": 274, "high": 275}
same card/portions/1/words "1 cup drained"
same card/portions/1/grams/best 152
same card/uses null
same kinds null
same foods/0/match "name"
same foods/0/found_as "canned garbanzos"
same foods/0/portion/words "1 cup"
same foods/0/per_portion/sodium/best 667.2
same foods/0/per_portion/potassium/best 345.6
same cautions/0/text "All numbers are estimates. The same food can have more or less."
