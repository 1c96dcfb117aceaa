$ mkdir a; printf 'fdc_id,data_type,description\n11,branded_food,Mill oats\n11,branded_food,Mill rye\n12,branded_food,Mill ashes\n' > a/food.csv
$ printf 'id,name,unit_name,nutrient_nbr\n1093,Sodium,MG,307\n1092,Potassium,STONE,306\n' > a/nutrient.csv; printf 'id,name\n1000,cup\n' > a/measure_unit.csv
$ printf 'fdc_id,amount,measure_unit_id,portion_description,modifier,gram_weight\n99,1,1000,,,81\n' > a/food_portion.csv
$ printf 'fdc_id,nutrient_id,amount\n11,1093,3\n11,1093,4\n77,1093,5\n11,4444,6\n11,1092,7\n,1093,8\n12,1093,100001\n' > a/food_nutrient.csv
$ "$QUERN" import a --out out; got=$?; ls -A | tr '\n' ' '; exit $got
status 1
out food.csv: row 3: error: food 11 stands in row 2 already [import-row]
out food_nutrient.csv: row 3: error: sodium of food 11 stands in row 2 already [import-row]
out food_nutrient.csv: row 4: error: no row of food.csv is food 77 [import-row]
out food_nutrient.csv: row 5: error: no row of nutrient.csv is nutrient 4444 [import-row]
out food_nutrient.csv: row 6: error: `STONE` is no unit of potassium [import-row]
out food_nutrient.csv: row 7: error: fdc_id is empty, and the row needs it [import-row]
out food_nutrient.csv: row 8: error: `100001` in sodium is more than 100 g of anything can hold [import-row]
out food_portion.csv: row 2: error: no row of food.csv is food 99 [import-row]
out 8 wrong rows; nothing was written.
lacks out/
