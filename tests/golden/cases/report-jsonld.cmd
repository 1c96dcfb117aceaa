# What is unknown is left out, never 0; a serving that nobody weighed is "1 serving".
$ printf '## Salty.\nrecipe "A </script>" {\n    serves 2\n    5 g table salt\n    1 cup grool\n    method { "Stir."; note "n"; "Serve." }\n}\nday "D" { 1 serving "A </script>" }\n' > a.quern
$ "$QUERN" report --as jsonld a.quern | python3 -c 'import json, sys; d = json.load(sys.stdin); r = d["@graph"]; n = r[0]["nutrition"]; print(len(r), d["@context"], r[0]["name"], r[0]["description"], r[0]["recipeYield"], r[0]["recipeIngredient"], [s["text"] for s in r[0]["recipeInstructions"]], sorted(n)); print(n["servingSize"], n["description"][:400])'
status 0
out 1 https://schema.org A </script> Salty. 2 servings ['5 g table salt', '1 cup grool'] ['Stir.', 'Serve.'] ['@type', 'description', 'servingSize']
out 1 serving energy at least 0 kcal
out sodium at least 960 mg
# It is pasted into pages, where `</script>` within a name would end it.
$ printf 'recipe "A </script><b>" {\n    serves 1\n    5 g table salt\n}\n' > a.quern
$ "$QUERN" report --as jsonld a.quern > a.json; grep -c '<' a.json; python3 -c 'import json; r = json.load(open("a.json"))["@graph"][0]; print(r["name"], r["recipeYield"])'
status 0
out 0
out A </script><b> 1 serving
lacks 1 servings
