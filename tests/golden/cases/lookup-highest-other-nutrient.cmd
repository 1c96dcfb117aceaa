# 100 g of canned chickpeas: 4.4 g fibre (USDA SR28 NDB 16058).
$ "$QUERN" lookup chickpeas canned --highest fibre >out; tr -s ' ' <out
status 0
out highest fibre first
out  fibre, g sodium, mg potassium, mg
out canned chickpeas 100 g 4.4 278 144
