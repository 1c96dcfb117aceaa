# Names that a spreadsheet would take for a formula, a comma, and a line nobody knows: RFC 4180, and CWE-1236.
$ printf 'recipe "=1+2, beans" {\n    serves 2\n    5 g table salt\n}\nrecipe "  @sum" {\n    1 cup grool\n}\n' > a.quern
$ "$QUERN" report --as csv a.quern | grep -v '^caution' | grep -E '^kind|sodium|grool|@sum.*potassium'
status 0
out kind,name,file,line,nutrient,origin,unit,complete,per_serving_low,
out recipe,"'=1+2, beans",a.quern,1,sodium,,mg,yes,968.95,968.95,968.95,38758,38758,38758,1937.9,1937.9,1937.9,
out recipe,"'=1+2, beans",a.quern,1,sodium,cook,mg,yes,968.95,968.95,968.95,
out recipe,'  @sum,a.quern,5,potassium,,mg,no,unknown,unknown,unknown,unknown,unknown,unknown,0,unknown,unknown,
out error,'  @sum,a.quern,6,,,,,,,,,,,,,,no food is called `grool` [unknown-food]
