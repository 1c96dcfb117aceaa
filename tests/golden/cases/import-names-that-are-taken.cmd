# One set of words is one name, whatever the order and the number; the library's foods and its choices of kinds are taken, too.
$ printf 'id,food,na\n1,Mill beans,1\n2,"Beans, mill",2\n3,bean of mill,3\n4,Butter,4\n5,"Carrots",5\n6,other,6\n' > t.csv
$ printf 'import table {\n number column "id"\n name column "food"\n per 100 g { sodium column "na" mg }\n}\n' > t.map
$ "$QUERN" import t.csv --map t.map --out pantry && cat pantry/* && "$QUERN" check pantry
status 0
out 6 foods in
out 4 names were taken
out food mill beans {
out food beans mill number 2 {
out food bean of mill number 3 {
out food butter number 4 {
out food carrots number 5 {
out food other {
lacks error
