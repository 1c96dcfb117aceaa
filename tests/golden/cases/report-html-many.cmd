# Several reports are one page; what stands in no recipe is told at its end. One report alone is a page of its own.
$ "$QUERN" report --as html "$CASES/day-report.quern" > all.html; grep -c '<article' all.html; grep -c '<h1' all.html; grep -c '</html>' all.html; grep '<h1\|<h2' all.html; grep -c 'no day is called' all.html
out 5
out <h1>Recipes and what they hold</h1>
out >Soup</h2>
out >Class day</h2>
out >Class week</h2>
out >What stands in no recipe</h2>
$ printf 'recipe "Soup" {\n1 carrot\n}\n' | "$QUERN" report --as html - > one.html; grep "<h1" one.html; grep -c "<article" one.html
out <h1>Soup</h1>
out 0
$ printf 'recipe "Soup" {\n1 carrot\n}\n' | "$QUERN" report --as html --recipe Stew - | wc -c
err no recipe, day or week is called: Stew
out 0
$ printf 'food mill roots { per 100 g { sodium 1 mg } }\n' | "$QUERN" report --as html -
status 0
out No recipe, day or week stands here.
out </html>
