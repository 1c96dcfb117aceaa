# Two plates twice over are four, of 2 servings of the base: half its pound of potatoes, 227 g, of which a quarter is peel
# (USDA SR28 NDB 11352), so 302 g; half a can and two make 2 1/2, so three cans; six eggs; 3 cups of broth are one carton.
$ "$QUERN" shopping --kitchen "$CASES/shopping" Plate --servings 4
status 0
out   - Plate, 4 servings
out     potato             10 3/4 oz, 300 g        about 225 g; 25% of what is bought is peel, bone or the like
out     canned chickpeas   3 × can of 425 g        about 1.06 kg
out     egg                6 large                 about 300 g
out     Broth in a carton  1 packet of 4 servings  710 ml
out     table salt         a little
out   - about 7 oz moon dust (Plate)
out   At hand, so not on the list: water.
out   - Base, 0.5 times
