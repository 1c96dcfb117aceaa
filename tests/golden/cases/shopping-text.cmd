# Two plates twice over are four, of 2 servings of the base: half its pound of potatoes, 227 g: a weight is what is
# bought; half a can and two make 2 1/2, so three cans; six eggs; 3 cups of broth are one carton.
$ "$QUERN" shopping --kitchen "$CASES/shopping" Plate --servings 4
status 0
out   - Plate, 4 servings
out     potato             8 oz, 225 g             about 225 g
out     canned chickpeas   3 × can of 425 g        about 1.06 kg
out     egg                6 × large               about 300 g
out     Broth in a carton  1 packet of 4 servings  710 ml
out     table salt         a little
out   - about 7 oz moon dust (Plate)
out   At hand, so not on the list: water.
out   - Base, 0.5 times
