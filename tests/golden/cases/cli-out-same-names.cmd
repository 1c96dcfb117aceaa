$ printf 'recipe "Soup" {\nserves 1\n1 cup water\n}\nrecipe ".." {\nserves 1\n1 cup water\n}\nrecipe "..." {\nserves 1\n1 cup water\n}\n' > a.quern; mkdir b; touch b/kitchen.quern; cp a.quern b; "$QUERN" report --out made .; ls made | tr '\n' ' '
status 0
out 6 reports in made
out recipe-2.txt recipe-3.txt recipe-4.txt recipe.txt soup-2.txt soup.txt
