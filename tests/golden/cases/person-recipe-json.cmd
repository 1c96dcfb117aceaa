# Whom a recipe is for, in JSON: null where it does not say.
$ printf 'recipe "Mash", for infant 7 months { serves 2; 100 g potatoes, boiled }\nrecipe "Soup" { serves 1; 1 cup water }\n' > k.quern; "$QUERN" report --as json k.quern
status 0
schema report
same recipes/0/for/words "for infant 7 months"
same recipes/0/for/age_months 7
same recipes/1/for null
