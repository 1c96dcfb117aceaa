# The published text release: ~ around texts, ^ between fields, Latin-1, no header. Values are made up.
$ mkdir r; printf '~00001~^~0100~^~Mill cr\350me, sour, 20%% fat~^~X~\r\n~00002~^~0100~^~Mill paste~^~X~\r\n~00003~^~0100~^~Mill nothing~^~X~\r\n' > r/FOOD_DES.txt
$ printf '~307~^~mg~^~NA~\r\n~418~^~\265g~^~~\r\n~208~^~kcal~^~~\r\n~268~^~kJ~^~~\r\n~318~^~IU~^~~\r\n' > r/NUTR_DEF.txt
$ printf '~00001~^~307~^53^0^\r\n~00001~^~418~^0.25^0^\r\n~00001~^~208~^198^0^\r\n~00001~^~268~^828^0^\r\n~00001~^~318~^400^0^\r\n~00002~^~307~^^0^\r\n~00002~^~268~^418.4^0^\r\n' > r/NUT_DATA.txt
$ printf '~00001~^1^1^~cup, whipped (8 fl oz)~^230^^\r\n~00001~^2^.5^~tbsp~^6^^\r\n~00002~^1^3^~oz~^85^^\r\n' > r/WEIGHT.txt
$ "$QUERN" import r --out out && cat out/* && "$QUERN" check out
status 0
out 2 foods in out/r-0001.quern
out 1 food without any figure was left out
out 1 portion that no recipe could use was left out
out food mill crème sour 20% fat {
out energy 198 kcal; sodium 53 mg; vitamin b12 0.25 µg
out     1 cup whipped = 230 g
out     0.5 tbsp = 6 g
out source "USDA SR NDB 00001"
out food mill paste {
out         energy 100 kcal
lacks sodium 0
lacks error
