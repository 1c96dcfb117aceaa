# The CSV tables: every field in quotes, units by number, samples left out; rows of one food may lie apart, in any order.
$ mkdir a; printf '"fdc_id","data_type","description"\n"11","foundation_food","Mill oats"\n"12","sample_food","Mill oats, lot 9"\n"13","branded_food","MILL WAFER"\n' > a/food.csv
$ printf '"id","name","unit_name","nutrient_nbr"\n"1093","Sodium","MG","307"\n"1092","Potassium","MG","306"\n"1008","Energy","KCAL","208"\n"2047","Energy (Atwater General)","KCAL","957"\n"9","Other","XX","1"\n' > a/nutrient.csv
$ printf '"id","name"\n"1000","cup"\n"9999","undetermined"\n' > a/measure_unit.csv
$ printf '"id","fdc_id","amount","measure_unit_id","portion_description","modifier","gram_weight"\n"1","11","1","1000","","rolled","81"\n"2","13","","9999","2 wafers","","30"\n' > a/food_portion.csv
$ printf '"id","fdc_id","nutrient_id","amount"\n"1","11","1093","3"\n"2","11","1092","350"\n"3","11","2047","380"\n"4","12","1093","4"\n"5","13","1093","610"\n"6","13","1008","450"\n"7","13","2047","999"\n"8","13","9","5"\n' > a/food_nutrient.csv
$ cp -r a b; { head -n 1 a/food_nutrient.csv; tail -n +2 a/food_nutrient.csv | sort -r; } > b/food_nutrient.csv
$ "$QUERN" import a --out out --prefix x && "$QUERN" import b --out put --prefix x > /dev/null || exit 9; tail -n +3 out/x-0001.quern > 1; tail -n +3 put/x-0001.quern > 2; cmp 1 2 && cat 1 && "$QUERN" check out
status 0
out 2 foods in out/x-0001.quern
out caution: the figures of packed drinks may have been per 100 ml
out food mill oats {
out energy 380 kcal; sodium 3 mg; potassium 350 mg
out     1 cup rolled = 81 g
out source "USDA FoodData Central FDC 11"
out food mill wafer {
out energy 450 kcal; sodium 610 mg
out     2 wafers = 30 g
lacks lot
lacks error
