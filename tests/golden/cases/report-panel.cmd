$ "$QUERN" report --panel --recipe "Plain loaf" "$CASES/../../../examples/millrace" > out; echo $?; sed -n 1,22p out | tr -s ' '; tail -n 1 out | wc -c; "$QUERN" report --panel --as csv "$CASES/../../../examples/millrace"; echo $?; printf 'recipe "Soup" {\n1 cup water\n}\n' > a.quern; "$QUERN" report --panel a.quern | sed -n 3,5p
status 0
out Nutrition facts, for a serving
out  Calories 120 kcal
out  Sodium 110 mg 105 to 120 5%
out  Includes added sugars not known
out   A panel is of a serving, and the recipe does not say how many it serves:
err a panel is told as text, html or markdown
# Rules that permit a 0 for what is little do not make 0 of what has a range beside it.
$ "$QUERN" report --panel --recipe "Plain loaf" "$CASES/../../../examples/millrace" | grep Potassium | tr -s ' '
status 0
out Potassium 40 mg 30 to 40 0%
