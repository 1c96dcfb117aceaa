# A can of 15 oz is 425 g; beans and vegetables keep 60% and 62% when drained: 255 g, 265 g. What is measured when it is drained already
# (a cup), what is not drained, and what takes water up has one weight.
$ printf 'recipe "Cans" {\n serves 2\n 1 can (15 oz) white beans, drained, rinsed\n 1 can (15 oz) chickpeas\n 1 can (15 oz) canned corn, drained\n 1 cup no salt added canned corn, drained\n 1 cup canned white beans, drained, as canned\n 1 package (8 oz) spaghetti, boiled\n 2 lb potatoes, boiled\n}\n' > cans.quern
$ "$QUERN" report --servings 2 cans.quern | tr -s ' '
status 0
out can (15 oz) white beans, drained, rinsed 1 about 255 g (about 425 g before)
out can (15 oz) chickpeas 1 about 425 g
lacks chickpeas 1 about 425 g (
out can (15 oz) canned corn, drained 1 about 265 g (about 425 g before)
out no salt added canned corn, drained 1 cup 235 ml, about 165 g
out canned white beans, drained, as canned 1 cup 235 ml, about 155 g (about 260 g before)
out package (8 oz) spaghetti, boiled 1 about 225 g
lacks spaghetti, boiled 1 about 225 g (
out potatoes, boiled 2 lb 905 g
$ "$QUERN" report --for patients cans.quern | tr -s ' '
status 0
out can (15 oz) white beans, drained, rinsed 1 about 255 g (about 425 g before)
# A whole part, or a bath that the line goes into, says nothing else of the weight that comes out of the can.
$ printf 'recipe "Pot" {\n serves 2\n part "Stew", reduced by half {\n 1 can (15 oz) white beans, drained\n 1 litre water\n }\n}\n' > pot.quern
$ "$QUERN" report --servings 2 pot.quern | tr -s ' '
status 0
out can (15 oz) white beans, drained 1
out about 255 g (about 425 g before)
