/* Foods and treatments made up for the unit suites, with round figures. */
#ifndef QUERN_TESTS_UNIT_KITCHEN_H
#define QUERN_TESTS_UNIT_KITCHEN_H

#define GROATS \
    "food mill groats { group oats; per 100 g { energy 50 kcal; sodium 100 mg; potassium 200 mg }; 1 cup = 200 g; " \
    "1 cup packed = 250 g; 1 small = 20 g; 1 medium = 30 g; 1 large = 40 g; source \"made up\" }\n"
#define CRYSTALS \
    "food mill crystals { group salts; per 100 g { energy 0 kcal; sodium 40000 mg; potassium 0 mg }; 1 tsp = 6 g (5 g to 7 g); source \"made up\" }\n"
#define BEANS \
    "food mill beans canned { group canned legumes; as whole can; per 100 g { energy 80 kcal; sodium 300 mg; potassium 150 mg }; " \
    "1 cup = 240 g; 1 cup drained = 150 g; 1 can = 400 g; source \"made up\" }\n" \
    "treatment mill poured { for canned legumes; from canned; keeps sodium 50% (40% to 60%); mass 60% (50% to 75%); keeps others 55%; evidence from memory; source \"made up\" }\n" \
    "treatment mill poured, mill washed { for canned legumes; from canned; keeps sodium 30% (20% to 40%); mass 60% (50% to 75%); keeps others 50%; evidence from memory; source \"made up\" }\n" \
    "treatment mill washed { for canned legumes; from canned; keeps sodium 70% (50% to 90%); mass 80%; keeps others 50%; evidence from memory; source \"made up\" }\n" \
    "treatment mill measured { for canned legumes; from canned; keeps sodium 50%; mass 60%; strength sodium 90% (80% to 100%); keeps others 55%; evidence from memory; source \"made up\" }\n"
#define BROTH "label \"Mill broth\" { serving 1 cup = 240 ml; servings 4; sodium 580 mg; potassium 30 mg; energy 10 kcal }\n"
#define PANTRY GROATS CRYSTALS BEANS BROTH

#define SODIUM "recipes/0/per_recipe/sodium"

#endif
