$ printf 'recipe "A" {\n    5 g table salt\n    1 cup grool, chopped\n}\nfolow x\n' > a.quern
$ "$QUERN" report --as csv --lines a.quern
status 1
out kind,name,file,line,part,text,food,source,treatments,evidence,g_as_measured_low,
out recipe,A,a.quern,2,,5 g table salt,table salt,"USDA SR28 NDB 02047; range of a teaspoon
out ,5,5,5,5,5,5,1937.9,1937.9,1937.9,0.4,0.4,0.4,
out recipe,A,a.quern,3,,"1 cup grool, chopped",,,,,unknown,unknown,unknown,unknown,unknown,unknown,unknown,unknown,unknown,unknown,unknown,unknown,
out error,,a.quern,5,,,,,,,,,,,,,,,,,,,`folow x` stands in no recipe [misplaced]
out caution,A,a.quern,1,
