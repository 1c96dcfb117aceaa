# 5 cups and half of 1 1/2 are 5 3/4 cups of four to the carton; half of three eggs are two whole ones.
$ "$QUERN" shopping --kitchen "$CASES/shopping" Sunday --as json
status 0
schema shopping
same for/0 {"name": "Sunday", "times": 1}
same foods/1 {"name": "canned chickpeas", "buy": "packages", "packages": [{"package": "can", "count": 1, "grams": 425.242846875, "servings": null}]}
same foods/2 {"name": "egg", "buy": "pieces", "pieces": 2, "piece": "large"}
same foods/5 {"name": "Broth in a carton", "buy": "packages", "packages": [{"package": "packet", "count": 2, "grams": null, "servings": 4}]}
same as_written/0 {"recipe": "Plate"}
