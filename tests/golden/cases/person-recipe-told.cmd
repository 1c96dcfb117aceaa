# Whom a recipe is for stands in its report and its handout; the house limits that are not for them stand in neither.
$ printf 'kitchen "K"\nfollow "House"\npolicy "House" { limit sodium at most 10 mg per serving; claim "low sodium" }\nrecipe "Mash", for infant 7 months { serves 2; 100 g potatoes, boiled; 1/4 tsp table salt }\n' > kitchen.quern; "$QUERN" report kitchen.quern; "$QUERN" report --for patients kitchen.quern
status 0
out This recipe is for infant 7 months.
out policy `House` is for adult; this recipe is for infant 7 months, so it is not used here
lacks at most 10 mg
lacks low sodium
lacks "low sodium"
