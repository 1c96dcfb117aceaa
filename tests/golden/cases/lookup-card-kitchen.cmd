# Each line as it was written, under any of the food's names, in parts, too; a line that nobody knows is counted.
$ cd "$CASES"; "$QUERN" lookup millrace beans --kitchen kitchen-lookup
status 0
out used by 3 lines in kitchen-lookup
out   kitchen-lookup/soup.quern:3: 2 cups Millrace Beans  ("Bean soup")
out   kitchen-lookup/soup.quern:7: 1/2 cup millrace pulses, diced  ("Bean soup")
out   kitchen-lookup/soup.quern:13: 1 cup (250 g) millrace beans  ("Stew")
out the food of 1 other line there is not known
out also: millrace pulses
out figures are for the whole can, liquid and all
out of the sodium, in it by nature: 20 mg (10 to 30)
out of the sodium, put in by makers: 180 mg (170 to 190)
out source: made up, by hand
