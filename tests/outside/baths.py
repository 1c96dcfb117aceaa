"""Baths: what foods take from salted water and lose to fresh, against published figures and against sums done here."""

import quern_test as test

# W6. Four plates of a pound of spaghetti in 3.785 litres with 18 g table salt. What a pot of pasta takes up, by two
# published figures brought to these plates (computed): 145 mg, from six shapes of a magazine's test (2014, independent
# laboratory, 57 mg per 100 g cooked; second-hand), and 335 mg, from USDA SR28 NDB 20321 (131 mg per 100 g cooked, 5
# samples) against 20121. The pot holds 18 g x 38.758% (NDB 02047) = 6976 mg: all of it would be 1744 mg a plate.
POT_TEXT = """recipe "Salted pot" {
    serves 4
    bath "pot" {
        3.785 litres water
        18 g table salt
    }
    1 lb spaghetti, boiled in "pot"
}
"""
PLATES = (145, 335)
NOT_ON_A_PLATE = 500         # far below the 1744 mg of somebody who counts all of the salt

# Albrecht, Asp & Buzzard 1987, Cereal Chem 64:106-109 (abstract read): sodium in mg per 100 g cooked in salted water.
# How salty the water was the abstract does not say; cooks' water holds 0.5 to 1%.
SALTED = {"spaghetti": 107.4, "macaroni": 176.6}
LEVELS = (5, 10)             # g table salt in a litre

# What a food of 60 g water keeps in water that it shares with V g, after as long as it takes: W / (W + V), each time.
WATERS = ((540, 540, 540), (240, 540, 1140), (60,), (1000, 140))


def per(recipe, basis):
    return ((recipe or {}).get(basis) or {}).get("sodium") or {}


def check_pot(tally):
    recipe = test.recipe_named(test.report_of(tally, "pasta pot", POT_TEXT, (0,)), "Salted pot")
    plate = per(recipe, "per_serving")
    for wanted in PLATES:
        tally.check(f"a plate can hold {wanted} mg", test.contains(plate, wanted), f"{plate}")
    best, high = plate.get("best"), plate.get("high")
    tally.check("the best plate lies between the two", test.is_number(best) and PLATES[0] <= best <= PLATES[1], f"{plate}")
    tally.check("no plate holds its part of all of the salt", test.is_number(high) and high < NOT_ON_A_PLATE, f"{plate}")
    tubs = (recipe or {}).get("baths") or [{}]
    poured = (tubs[0].get("went_in") or {}).get("sodium") or {}
    # 3.785 litres of tap water hold 3 mg per 100 g (NDB 14429), some 113 mg
    tally.check("the pot holds all of the salt", test.is_number(poured.get("best"))
                and abs(poured["best"] - 18 * 387.58 - 113) < 2, f"{poured}")


def level_text(food, level):
    return (f'recipe "{food} {level}" {{\n    serves 1\n    bath "pot" {{\n        1 litre water\n        {level} g table salt\n    }}\n'
            f'    100 g {food}, boiled in "pot"\n}}\n')


def check_salted(tally):
    text = "".join(level_text(food, level) for food in SALTED for level in LEVELS)
    document = test.report_of(tally, "salted pasta", text, (0,))
    for food, measured in SALTED.items():
        weak, strong = (per(test.recipe_named(document, f"{food} {level}"), "per_100_g") for level in LEVELS)
        low, high = weak.get("low"), strong.get("high")
        tally.check(f"{food} from salted water holds {measured} mg per 100 g",
                    test.is_number(low) and test.is_number(high) and 0 < low <= measured <= high, f"{low} to {high}")
        half, whole = weak.get("best"), strong.get("best")
        tally.check(f"{food} takes up by the strength of the water",      # Sanchez-Castillo et al. 1987, Clin Sci 72 (abstract read)
                    test.is_number(half) and test.is_number(whole) and 1.8 * half < whole < 2 * half, f"{half}, {whole}")


def check_desalted(tally):
    text = ('food mill cod {\n    group salt cod\n    per 100 g { sodium 7000 mg; potassium 100 mg; water 60 g }\n'
            '    source "made up for this test"\n}\n'
            'food mill stream {\n    group drinks\n    per 100 g { sodium 0 mg; potassium 0 mg; water 100 g }\n'
            '    source "made up for this test"\n}\n'
            'treatment mill soaked { reaches 100%; evidence from memory; source "made up for this test" }\n')
    for at, waters in enumerate(WATERS):
        text += f'recipe "Soaked {at}" {{\n    serves 1\n'
        text += "".join(f'    bath "water {i}" {{ {water} g mill stream }}\n' for i, water in enumerate(waters))
        text += "    100 g mill cod" + "".join(f', mill soaked in "water {i}"' for i in range(len(waters))) + "\n}\n"
    document = test.report_of(tally, "desalted", text, (0,))
    for at, waters in enumerate(WATERS):
        wanted = 7000.0
        for water in waters:
            wanted *= 60 / (60 + water)
        test.check_range(tally, f"cod in {waters} g water", dict.fromkeys(("low", "best", "high"), wanted),
                         per(test.recipe_named(document, f"Soaked {at}"), "per_serving"))


def check_baths(tally):
    check_pot(tally)
    check_salted(tally)
    check_desalted(tally)
