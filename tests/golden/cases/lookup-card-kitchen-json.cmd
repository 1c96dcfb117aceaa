$ cd "$CASES"; "$QUERN" lookup millrace beans --kitchen kitchen-lookup --as json --limit 1
status 0
schema lookup
same card/uses/kitchen "kitchen-lookup"
same card/uses/lines/2 {"recipe": "Stew", "file": "kitchen-lookup/soup.quern", "line": 13, "text": "1 cup (250 g) millrace beans"}
same card/uses/unknown_lines 1
same card/aliases ["millrace pulses"]
same foods/0/per_100_g/potassium {"unit": "mg", "low": 90, "best": 100, "high": 120}
same foods/0/per_portion/potassium {"unit": "mg", "low": 216, "best": 250, "high": 312}
