# Two figures that differ: with --skip-bad the figure is unknown, whichever came first; a better code counts all the same.
$ mkdir a; printf 'fdc_id,data_type,description\n11,branded_food,Mill oats\n' > a/food.csv; printf 'id,name\n1000,cup\n' > a/measure_unit.csv; printf 'fdc_id,amount,measure_unit_id,portion_description,modifier,gram_weight\n11,1,1000,,,0\n' > a/food_portion.csv
$ printf 'id,name,unit_name,nutrient_nbr\n1093,Sodium,MG,307\n1092,Potassium,MG,306\n1089,Iron,MG,303\n8,Energy,KCAL,208\n9,Energy,KJ,268\n' > a/nutrient.csv
$ printf 'fdc_id,nutrient_id,amount\n11,1093,3\n11,1093,400\n11,1092,7\n11,1092,7\n11,1089,2\n11,9,100\n11,9,200\n11,8,50\n' > a/food_nutrient.csv
$ "$QUERN" import a --out out --skip-bad && cat out/* && "$QUERN" check out
status 0
out food_nutrient.csv: row 3: error: sodium of food 11 stands in row 2 already
out food_nutrient.csv: row 5: error: potassium of food 11 stands in row 4 already
out food_nutrient.csv: row 8: error: energy of food 11 stands in row 7 already
out 1 portion that no recipe could use was left out
out 3 wrong rows: they were left out
out         energy 50 kcal; potassium 7 mg; iron 2 mg
lacks sodium 3
lacks sodium 400
