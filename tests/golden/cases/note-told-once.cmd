# Equal notes of a recipe are one, which names the next line and how many more there are. A line that is silent by itself is none of them.
$ printf 'food mill corn { group canned legumes; per 100 g { sodium 200 mg }; source "made up"; usual salted }\nrecipe "Three" {\n serves 1\n 100 g mill corn\n 50 g mill corn\n 2 g mill corn\n 70 g mill corn\n}\nrecipe "Two" {\n serves 1\n 100 g mill corn\n 50 g mill corn\n}\n' > v.quern
$ "$QUERN" check v.quern
status 0
out v.quern:4:8: note: mill corn is taken as the ordinary salted kind [salted-kind]
out at line 5: the same goes for this line, and for 1 more
out v.quern:11:8: note: mill corn is taken as the ordinary salted kind [salted-kind]
out at line 12: the same goes for this line
lacks line 6
out 2 notes
