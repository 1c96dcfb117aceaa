"""The corpus of the benchmark, the same bytes on every run.

    generate.py library FOLDER           foods and what they need as .quern text, and foods.tsv for sqlite3
    generate.py lookups FOLDER           lookups.quern: 10,000 foods with two names each, for looking up
    generate.py shop FOLDER COUNT        shop-COUNT/: so many foods that build on the built-in library, and
                                         kitchen-COUNT/, which uses the pack shop-COUNT.pack and three of them
    generate.py recipes FOLDER COUNT     tree-COUNT/ (a kitchen), one-COUNT.quern, lines-COUNT.tsv, planted-COUNT.txt

Each food and each recipe has its own seed, so recipe N is the same whatever COUNT is. Foods, figures and
treatments are invented; none of them says anything about real food.
"""
import itertools
import math
import os
import random
import sys

FOODS_A_FILE, SHOP_FOODS_A_FILE, RECIPES_A_FOLDER, LINES, SERVINGS = 500, 30000, 500, 10, 4

COLOURS = "amber birch brook cedar copper dusky ember fallow frost golden hazel ivory linden marsh mellow pale ruby sandy tawny willow"
PLACES = "early garden hill island lake late meadow moor north orchard river shore south spring summer valley village wild winter wood"
MORE_PLANTS = "almond cherry fennel quince radish"  # with these 10,000 names; the recipes do without
PLANTS = "apple bean beet carrot fig grain leek lentil melon mushroom nut olive onion parsnip pea pear plum pumpkin root turnip"

NUTRIENTS = [  # name, unit, range drawn from; energy follows from protein, fat and carbohydrate, sodium from the group
    ("energy", "kcal", 0, 0), ("protein", "g", 1, 20), ("fat", "g", 4, 15), ("carbohydrate", "g", 10, 30),
    ("sodium", "mg", 0, 0), ("saturated fat", "g", 0, 3), ("trans fat", "g", 0, 0.5), ("cholesterol", "mg", 0, 90),
    ("fibre", "g", 0, 5), ("sugars", "g", 0, 5), ("potassium", "mg", 20, 600), ("calcium", "mg", 2, 300),
    ("iron", "mg", 0.1, 8), ("magnesium", "mg", 2, 120), ("phosphorus", "mg", 5, 400), ("zinc", "mg", 0.1, 6),
    ("vitamin a", "µg", 0, 500), ("vitamin c", "mg", 0, 60), ("vitamin d", "µg", 0, 10), ("thiamin", "mg", 0, 1),
    ("riboflavin", "mg", 0, 1), ("niacin", "mg", 0, 10), ("folate", "µg", 0, 200), ("selenium", "µg", 0, 40),
    ("water", "g", 1, 30)]

GROUPS = {  # group: mg of sodium per 100 g, and how a cook measures it: words, quantity, portion, phrases
    "produce": ((1, 80), [("2 large", 2, "large", ", diced"), ("1 1/2 cups", 1.5, "cup", ", chopped"), ("150 g", 150, "g", "")]),
    "canned produce": ((150, 350), [("2 cups", 2, "cup", ", drained"), ("1 cup", 1, "cup", ", drained, rinsed"),
                                    ("1/2 cup", 0.5, "cup", ", drained")]),
    "staples": ((1, 20), [("1 cup", 1, "cup", ""), ("200 g", 200, "g", ""), ("1 large", 1, "large", "")]),
    "seasonings": ((200, 2000), [("1/2 tsp", 0.5, "tsp", ""), ("1 tsp", 1, "tsp", ""), ("1/4 tsp", 0.25, "tsp", "")])}

KNOWLEDGE = """
unit gram { mass 1 g; also g }
unit milligram { mass 0.001 g; also mg }
unit microgram { mass 0.000001 g; also µg, ug }
unit cup { volume 236.5882365 ml; source "1/16 US gallon of 231 cubic inches" }
unit teaspoon { volume 4.92892159375 ml; also tsp; source "1/48 cup" }
unit piece { count 1; also each }
unit large { size }
unit kilocalorie { energy 1 kcal; also kcal }

group produce { origin inherent }
group canned produce
group staples { origin inherent }
group seasonings { origin cook-added }

treatment diced { also chopped; changes nothing }
treatment drained {
    for canned produce
    from canned
    keeps sodium 55% (40% to 65%)
    keeps others 60% (50% to 70%)
    mass 62% (56% to 66%)
    strength sodium 88% (70% to 95%)
    evidence from memory
    source "generated"
}
treatment drained, rinsed {
    for canned produce
    from canned
    keeps sodium 48% (35% to 60%)
    keeps others 55% (45% to 65%)
    mass 62% (56% to 66%)
    strength sodium 76% (60% to 90%)
    evidence from memory
    source "generated"
}

rules us {
    title "Rules of the benchmark"
    rounding sodium { zero under 5 mg; step 5 mg up to 140 mg; step 10 mg; source "21 CFR 101.9(c)(4)" }
    daily value sodium 2300 mg "21 CFR 101.9(c)(9)"
}
"""


def between(chance, low, high):
    """Only Random.random() is promised to give the same numbers under every Python."""
    return low + (high - low) * chance.random()


def food_draw(index, name):
    """A food: its name, group, values per 100 g by nutrient, and grams of each portion."""
    chance = random.Random(1000003 + index)
    group = list(GROUPS)[int(between(chance, 0, len(GROUPS)))]
    values = {nutrient: between(chance, low, high) for nutrient, _, low, high in NUTRIENTS}
    values["energy"] = 4 * values["protein"] + 9 * values["fat"] + 4 * values["carbohydrate"]
    values["sodium"] = between(chance, *GROUPS[group][0])
    portions = {"cup": int(between(chance, 100, 250)), "tsp": int(between(chance, 2, 7)),
                "large": int(between(chance, 80, 200)), "g": 1}
    return name, group, values, portions


def foods_draw():
    names = itertools.product(COLOURS.split(), PLACES.split(), PLANTS.split())
    return [food_draw(index, " ".join(words)) for index, words in enumerate(names)]


def food_text(food, also=""):
    name, group, values, portions = food
    figures = "".join(f"        {nutrient} {values[nutrient]:.6f} {unit}\n" for nutrient, unit, _, _ in NUTRIENTS)
    canned = ('    as whole can\n    inherent sodium 5 mg "generated"\n'
              f"    1 cup drained = {portions['cup'] * 2 // 3} g\n") if group == "canned produce" else ""
    return (f"food {name} {{\n{also}    group {group}\n    per 100 g {{\n{figures}    }}\n{canned}"
            f"    1 cup = {portions['cup']} g\n    1 tsp = {portions['tsp']} g\n    1 large = {portions['large']} g\n"
            '    source "generated"\n}\n\n')


def file_write(path, text):
    with open(path, "wb", buffering=0) as file:
        file.write(text.encode())


def library_write(folder):
    foods = foods_draw()
    nutrients = "".join(f"nutrient {name} {{ unit {unit}{'; traced' if name == 'sodium' else ''} }}\n"
                        for name, unit, _, _ in NUTRIENTS)
    file_write(f"{folder}/knowledge.quern", nutrients + KNOWLEDGE)
    for first in range(0, len(foods), FOODS_A_FILE):
        file_write(f"{folder}/foods-{first:04}.quern", "".join(map(food_text, foods[first:first + FOODS_A_FILE])))
    rows = ("\t".join([str(index)] + [f"{value:.6f}" for value in food[2].values()]) for index, food in enumerate(foods))
    file_write(f"{folder}/foods.tsv", "\n".join(rows) + "\n")


def lookups_write(folder):
    """Every food has a second name with a word that all of them share: the most that a search can find."""
    words = itertools.product(COLOURS.split(), PLACES.split(), f"{PLANTS} {MORE_PLANTS}".split())
    foods = [food_draw(index, " ".join(three)) for index, three in enumerate(words)]
    text = "".join(food_text(food, f"    also {food[0]} kept for class\n") for food in foods)
    nutrients = "".join(f"nutrient {name} {{ unit {unit}{'; traced' if name == 'sodium' else ''} }}\n"
                        for name, unit, _, _ in NUTRIENTS)
    file_write(f"{folder}/lookups.quern", nutrients + KNOWLEDGE.replace('rules us {', 'rules us {\n    compare sodium to potassium') + text)


def shop_write(folder, count):
    """Parcels of a shop: eleven figures and a cup each."""
    os.makedirs(f"{folder}/shop-{count}", exist_ok=True)
    for first in range(0, count, SHOP_FOODS_A_FILE):
        foods = []
        for number in range(first, min(count, first + SHOP_FOODS_A_FILE)):
            chance = random.Random(f"shop {number}")
            figures = "; ".join(f"{name} {between(chance, low, high):.4f} {unit}" for name, unit, low, high in NUTRIENTS[1:11] if high)
            foods.append(f"food parcel {number} {PLACES.split()[number % 20]} goods {{\n    per 100 g {{ {figures}; sodium {number % 900} mg }}\n"
                         f"    1 cup = {80 + number % 170} g\n    source \"shelf {number}\"\n}}\n")
        file_write(f"{folder}/shop-{count}/{first:06}.quern", "".join(foods))
    os.makedirs(f"{folder}/kitchen-{count}", exist_ok=True)
    file_write(f"{folder}/kitchen-{count}/kitchen.quern", f'kitchen "Shop"\nuse "../shop-{count}.pack"\n')
    lines = "".join(f"    1 cup parcel {number} {PLACES.split()[number % 20]} goods\n" for number in (3, count // 2, count - 1))
    file_write(f"{folder}/kitchen-{count}/one.quern", f'recipe "One" {{\n    serves 2\n{lines}    1/2 tsp table salt\n}}\n')


def is_unknown(number):
    """Such a recipe names a food that nobody declares."""
    return number % 500 == 0


def unknown_food(number):
    """A word for each, so that the benchmark can look for every one of them."""
    colour, place = divmod(number // 500 % 400, 20)
    return f"gravel{COLOURS.split()[colour]}{PLACES.split()[place]}"


def is_broken(number):
    """Such a recipe has a limit that it cannot keep."""
    return number % 50 == 25


class Corpus:
    def __init__(self):
        self.foods = foods_draw()
        self.serving_sodium_mg = [0.0]  # by number of the recipe, before treatments

    def food_line(self, chance):
        """A line, its row for sqlite3 (food, grams), and its sodium before treatments."""
        index = int(chance.random() * len(self.foods))
        name, group, values, portions = self.foods[index]
        words, quantity, portion, phrases = GROUPS[group][1][int(chance.random() * 3)]
        plural = "s" if portion != "g" and quantity > 1 else ""
        grams = quantity * portions[portion]
        return f"    {words} {name}{plural}{phrases}\n", f"{index}\t{grams:g}\n", grams * values["sodium"] / 100

    def recipe_line(self, chance, number):
        """Uses an earlier recipe, never one with an unknown food: one cause, one finding."""
        used = int(between(chance, 1, number))
        used -= is_unknown(used)
        return f'    1 serving "Class dish {used}"\n', "", self.serving_sodium_mg[used] * SERVINGS

    def last_line(self, chance, number):
        if is_unknown(number):
            return f"    50 g {unknown_food(number)}\n", "", 0
        if number > 1 and chance.random() < 0.04:
            return self.recipe_line(chance, number)
        return self.food_line(chance)

    def recipe_draw(self, number):
        """The text of a recipe, and its rows for sqlite3."""
        chance = random.Random(7919 + number)
        lines = [self.food_line(chance) for _ in range(LINES - 1)] + [self.last_line(chance, number)]
        sodium_mg = sum(sodium for _, _, sodium in lines) / SERVINGS
        self.serving_sodium_mg.append(sodium_mg)
        limit_mg = 0.7 if is_broken(number) else 10 * math.ceil(sodium_mg / 5)  # else twice what it holds: kept for sure
        text = (f'recipe "Class dish {number}" {{\n    serves {SERVINGS}\n{"".join(line for line, _, _ in lines)}'
                f"    limit sodium at most {limit_mg} mg per serving\n"
                '    method {\n        "Simmer for twenty minutes."\n    }\n}\n')
        return text, "".join(f"{number}\t{row}" for _, row, _ in lines if row)


def recipe_path(folder, number):
    return f"{folder}/shelf-{(number - 1) // RECIPES_A_FOLDER:03}/dish-{number:06}.quern"


def recipes_write(folder, count):
    tree, corpus, numbers = f"{folder}/tree-{count}", Corpus(), range(1, count + 1)
    os.makedirs(tree, exist_ok=True)
    file_write(f"{tree}/kitchen.quern", 'kitchen "Millrace benchmark kitchen"\nfollow rules us\n')
    with open(f"{folder}/one-{count}.quern", "w") as one_file, open(f"{folder}/lines-{count}.tsv", "w") as table:
        for number in numbers:
            text, rows = corpus.recipe_draw(number)
            if number % RECIPES_A_FOLDER == 1:
                os.makedirs(os.path.dirname(recipe_path(tree, number)), exist_ok=True)
            file_write(recipe_path(tree, number), text)
            one_file.write(text + "\n")
            table.write(rows)
    unknown = "".join(f"{unknown_food(number)}\n" for number in filter(is_unknown, numbers))
    file_write(f"{folder}/planted-{count}.txt", f"{sum(map(is_broken, numbers))}\n{unknown}")


if __name__ == "__main__":
    if sys.argv[1] == "library":
        library_write(sys.argv[2])
    elif sys.argv[1] == "lookups":
        lookups_write(sys.argv[2])
    elif sys.argv[1] == "shop":
        shop_write(sys.argv[2], int(sys.argv[3]))
    else:
        recipes_write(sys.argv[2], int(sys.argv[3]))
