"""Claims against the worked cases of the regulations: each at, just below and just above its limit.

Every row: what is claimed, the recipe in figures, and whether the rule lets it stand. The rows follow the text of the
section named beside them; arithmetic is done by hand on the figures given there, never taken from the program.
"""

import json
import re

import quern_test as test

FOOD = '''food testing grits {{
    group oats
    per 100 g {{ energy {energy} kcal; sodium {sodium:.12g} mg; potassium {potassium:.12g} mg; fat {fat} g; saturated fat 0 g; cholesterol 0 mg }}
    source "made up for this test"
}}
'''


# A second food of another food group: a meal and a main dish are of two at least (21 CFR 101.13(l), (m)).
GREENS = FOOD.replace("testing grits", "testing greens").replace("group oats", "group leafy vegetables")


def text_of(claim, grams, sodium, reference=None, kind=None, more="", potassium=0, energy=10, fat=0, serves="1"):
    """A dish that weighs `grams` and holds `sodium` mg, all of it weighed: of one food, or half of each of two where it counts
    as something else than a food."""
    figures = {"sodium": sodium / grams * 100, "potassium": potassium / grams * 100, "energy": energy, "fat": fat}
    food = FOOD.format(**figures) + (GREENS.format(**figures) if kind else "")
    what = [f"{grams / 2:g} g testing grits", f"{grams / 2:g} g testing greens"] if kind else [f"{grams} g testing grits"]
    lines = [f"serves {serves}", f"makes {grams} g", *what]
    if reference:
        lines.append(f"reference amount {reference}")
    if kind:
        lines.append(f"counts as {kind}")
    return food, f'recipe "Dish" {{\n' + "".join(f"    {line}\n" for line in lines) + f"    {more}\n    claim {claim}\n}}\n"


def outcome(files):
    """`proved`, `refused` or `in doubt` of the only claim, and all findings."""
    with test.kitchen(files) as folder:
        status, out, _ = test.run(["check", "--as", "json", "."], folder=folder)
    findings = json.loads(out)["findings"]
    codes = [finding["code"] for finding in findings]
    other = [code for code in codes if code not in ("claim-refused", "claim-in-doubt", "claim-words", "claim-disclosure", "take-care")]   # hazards and potassium salts are told beside a claim, too
    if other:
        return f"trouble {other}", findings
    return ("refused" if "claim-refused" in codes else "in doubt" if "claim-in-doubt" in codes else "proved"), findings


def one(tally, name, rules, expected, text, more_files=None):
    files = {"kitchen.quern": f'kitchen "Claims"\nfollow rules {rules}\n', "a.quern": "".join(text), **(more_files or {})}
    found, findings = outcome(files)
    tally.check(f"{name}: {expected}", found == expected, f"{found}; {[finding['message'] for finding in findings]}")
    return findings


# name, claim, grams of the dish (one serving), mg sodium in it, reference amount, kind, expected
US = [
    ("101.61(b)(1), under 5", "sodium free", 85, 4.99, "85 g", None, "proved"),
    ("101.61(b)(1), 5.0 is not under 5", "sodium free", 85, 5.0, "85 g", None, "refused"),
    ("101.61(b)(1), 9 mg in a larger serving", "sodium free", 180, 9, "85 g", None, "refused"),
    ("101.61(b)(1), meal, per serving", "sodium free", 300, 4.9, None, "meal", "proved"),
    ("101.61(b)(2), 35.0", "very low sodium", 85, 35.0, "85 g", None, "proved"),
    ("101.61(b)(2), 35.1", "very low sodium", 85, 35.1, "85 g", None, "refused"),
    ("101.61(b)(2), 5.0", "very low sodium", 85, 5.0, "85 g", None, "proved"),
    ("101.61(b)(4), 139.9", "low sodium", 245, 139.9, '"soups"', None, "proved"),
    ("101.61(b)(4), 140.0", "low sodium", 245, 140.0, '"soups"', None, "proved"),
    ("101.61(b)(4), 140.1 prints as 140", "low sodium", 85, 140.1, "85 g", None, "refused"),
    ("101.61(b)(4), 140.4 prints as 140", "low sodium", 245, 140.4, '"soups"', None, "refused"),
    ("small, 84 of 30 g is 140.00 of 50 g", "low sodium", 30, 84, '"cheese"', None, "proved"),
    ("small, 84.1 of 30 g is 140.17 of 50 g", "low sodium", 30, 84.1, '"cheese"', None, "refused"),
    ("small, 85 of 30 g is 141.7 of 50 g", "low sodium", 30, 85, "30 g", None, "refused"),
    ("small, 100 of 30 g", "low sodium", 30, 100, "30 g", None, "refused"),
    ("31 g is not small", "low sodium", 31, 140, "31 g", None, "proved"),
    ("50 g is not small", "low sodium", 50, 140, '"bread and rolls"', None, "proved"),
    ("small, 42 of 15 g is 140.00 of 50 g", "low sodium", 15, 42, "15 g", None, "proved"),
    ("small, 42.1 of 15 g is 140.33 of 50 g", "low sodium", 15, 42.1, "15 g", None, "refused"),
    ("small, 10.5 of 15 g is 35.00 of 50 g", "very low sodium", 15, 10.5, "15 g", None, "proved"),
    ("small, 10.6 of 15 g is 35.33 of 50 g", "very low sodium", 15, 10.6, "15 g", None, "refused"),
    ("small, 21 of 30 g is 35.0 of 50 g", "very low sodium", 30, 21, "30 g", None, "proved"),
    ("small, 22 of 30 g is 36.7 of 50 g", "very low sodium", 30, 22, "30 g", None, "refused"),
    ("meal, 140.00 of 100 g", "low sodium", 300, 420, None, "meal", "proved"),
    ("meal, 140.33 of 100 g", "low sodium", 300, 421, None, "meal", "refused"),
    ("meal, 35.00 of 100 g", "very low sodium", 300, 105, None, "meal", "proved"),
    ("meal, 35.03 of 100 g", "very low sodium", 300, 105.1, None, "meal", "refused"),
    ("main dish, 140.00 of 100 g", "low sodium", 200, 280, None, "main dish", "proved"),
    ("main dish, 140.10 of 100 g", "low sodium", 200, 280.2, None, "main dish", "refused"),
    ("main dish of 170 g, 140.0", "low sodium", 170, 238, None, "main dish", "proved"),
    ("main dish of 170 g, 140.6", "low sodium", 170, 239, None, "main dish", "refused"),
    ("101.56(d)(2), a meal that is low is light in sodium", "light in sodium", 300, 390, None, "meal", "proved"),
    ("101.56(d)(2), 145 of 100 g is not", "light in sodium", 300, 435, None, "meal", "refused"),
    ("101.61(c)(1), 20 mg is not salt free", "salt free", 130, 20, "130 g", None, "refused"),
    ("101.61(c)(2), no salt, 20 mg", "no salt added", 130, 20, "130 g", None, "proved"),
    ("a mixed dish of 300 mg a reference amount", "low sodium", 245, 300, "245 g", None, "refused"),
    ("healthy, 230.1 mg", "healthy", 85, 230.1, "85 g", None, "refused"),
    ("healthy, 230.0 mg: its other conditions cannot be looked at", "healthy", 85, 230.0, "85 g", None, "in doubt"),
    ("healthy, 40 g is small there: 237.5 of 50 g", "healthy", 40, 190, "40 g", None, "refused"),
]

EU = [("low, 0.12 g", "low sodium", 100, 120, "proved"), ("low, 0.121 g", "low sodium", 100, 121, "refused"),
      ("very low, 0.04 g", "very low sodium", 100, 40, "proved"), ("very low, 0.041 g", "very low sodium", 100, 41, "refused"),
      ("free, 0.005 g", "sodium free", 100, 5, "proved"), ("free, 0.0051 g", "sodium free", 100, 5.1, "refused"),
      ("no added, 130 mg of its own", "no added sodium", 100, 130, "refused"),
      ("no added, 120 mg of its own", "no added sodium", 100, 120, "proved"),
      ("stew of 245 g, 118 mg of 100 g", "low sodium", 245, 290, "proved"),
      ("stew of 245 g, 122 mg of 100 g", "low sodium", 245, 300, "refused")]

# A pair: what the other recipe holds and this one, mg per 245 g (or 100 g of a meal). Foods that are compared for "light in
# sodium" have over 40 kcal a reference amount, as 101.56(c)(2) asks for.
COMPARED = [("101.61(b)(6), 25.00%", "reduced sodium", 400, 300, None, "proved"),
            ("101.61(b)(6), 24.75%", "reduced sodium", 400, 301, None, "refused"),
            ("101.61(b)(6), 300 to 225", "reduced sodium", 300, 225, None, "proved"),
            ("101.61(b)(6), 300 to 226 is 24.7%", "reduced sodium", 300, 226, None, "refused"),
            ("101.61(b)(6)(iii), the other is low", "reduced sodium", 140, 90, None, "refused"),
            ("101.56, the other is low", "light in sodium", 140, 60, None, "refused"),
            ("101.56(c)(2), 50.00%", "light in sodium", 400, 200, None, "proved"),
            ("101.56(c)(2), 49.75%", "light in sodium", 400, 201, None, "refused"),
            ("101.56(c)(2), 350 to 175", "light in sodium", 350, 175, None, "proved"),
            ("217 to 150 is 30.9%: 30% may be said", "30% less sodium", 217, 150, None, "proved"),
            ("217 to 150 is 30.9%: 31% may not", "31% less sodium", 217, 150, None, "refused"),
            ("20% is under the least that may be said", "20% less sodium", 400, 310, None, "refused"),
            ("101.61(b)(7), meal, 300 to 225", "reduced sodium", 300, 225, "meal", "proved"),
            ("101.61(b)(7), meal, 300 to 226", "reduced sodium", 300, 226, "meal", "refused")]


# 101.56(c)(1), (2): light alone for its sodium where the compared food has at most 40 kcal and 3 g of fat a reference amount of
# 100 g; light in sodium where it has more of either. kcal and g of fat of both, mg before and after, claim, expected.
LIGHT = [(40, 3, 1000, 500, "light", "proved"), (40, 3, 1000, 501, "light", "refused"), (40.1, 3, 1000, 500, "light", "refused"),
         (40, 3.01, 1000, 500, "light", "refused"), (10, 0, 1000, 500, "lite", "proved"), (10, 0, 140, 60, "light", "refused"),
         (40, 3, 1000, 500, "light in sodium", "refused"), (40.1, 3, 1000, 500, "light in sodium", "proved"),
         (40, 3.01, 1000, 500, "light in sodium", "proved"), (40.1, 0, 1000, 501, "light in sodium", "refused")]


def light(tally):
    for energy, fat, before, after, claim, expected in LIGHT:
        compared(tally, "us", f"101.56(c), {energy} kcal and {fat} g fat", claim, before, after, None, expected, energy, fat, 100)


def compared(tally, rules, name, claim, before, after, kind, expected, energy=50, fat=0, grams=None, reference=False):
    grams = grams or (300 if kind else 245 if rules == "us" else 100)      # what a meal holds is told of 100 g
    share = grams / 100 if kind else 1
    more = f"counts as {kind}" if kind else f"reference amount {grams} g" if rules == "us" or reference else ""
    texts = "".join(f'food testing {word} {{\n    group {group}\n    per 100 g {{ energy {energy} kcal; fat {fat} g; saturated fat 0 g; cholesterol 0 mg; sodium {mg * share / grams * 100:.12g} mg }}\n'
                    f'    source "made up for this test"\n}}\n'
                    for word, mg, group in (("before", before, "oats"), ("after", after, "oats"), ("beside", after, "leafy vegetables")))
    what = f"{grams / 2:g} g testing after\n    {grams / 2:g} g testing beside" if kind else f"{grams} g testing after"
    texts += f'recipe "Other" {{\n    serves 1\n    makes {grams} g\n    {grams} g testing before\n}}\n'
    texts += (f'recipe "Dish" {{\n    serves 1\n    makes {grams} g\n    {more}\n    {what}\n'
              f'    claim "{claim}", compared to "Other"\n}}\n')
    one(tally, f"{name}, {before} to {after}", rules, expected, texts)


# 101.13(h): over any of these, a claim needs its words. kind, grams, mg, disclosure expected
DISCLOSED = [(None, 245, 480.0, "245 g", False), (None, 245, 480.1, "245 g", True), (None, 245, 481, "245 g", True),
             (None, 30, 288, "30 g", False), (None, 30, 289, "30 g", True), (None, 30, 300, "30 g", True),
             ("main dish", 300, 720.0, None, False), ("main dish", 300, 720.1, None, True),
             ("meal", 400, 960.0, None, False), ("meal", 400, 960.1, None, True)]


def check(tally):
    for name, claim, grams, sodium, reference, kind, expected in US:
        one(tally, name, "us", expected, text_of(f'"{claim}"', grams, sodium, reference, kind))
    for name, claim, grams, sodium, expected in EU:
        one(tally, f"1924/2006, {name}", "eu", expected, text_of(f'"{claim}"', grams, sodium))
        if claim != "no added sodium":
            one(tally, f"Codex, {name}", "codex", expected, text_of(f'"{claim}"', grams, sodium))
    for row in COMPARED:
        compared(tally, "us", *row)
    for after, expected in ((375, "proved"), (376, "refused")):
        compared(tally, "eu", "1924/2006, reduced by 25%", "reduced sodium", 500, after, None, expected)
    for kind, grams, sodium, reference, expected in DISCLOSED:
        findings = one(tally, f"101.13(h), {kind or 'food'} of {sodium} mg", "us", "proved",
                       text_of('"no salt added"', grams, sodium, reference, kind))
        told = any(f["code"] == "claim-disclosure" and f["severity"] == "warning" and "sodium" in f["message"] for f in findings)
        tally.check(f"101.13(h), {kind or 'food'} of {sodium} mg per {grams} g: words needed: {expected}", told == expected)
    light(tally)
    unweighed(tally)
    kinds(tally)
    added(tally)
    references(tally)
    portions(tally)
    percents(tally)
    meat(tally)
    eu_labels(tally)
    ingredients(tally)
    potassium(tally)
    elsewhere(tally)
    marks(tally)
    salt(tally)


# 21 CFR 101.13(l), (m) and 9 CFR 317.313: a meal is 10 oz or more a serving, three portions of 40 g from two of four food groups; a main
# dish 6 oz or more, 40 g from each of two. An ounce is 28 g there (101.9(b)(5)(viii)). Kind, what goes in, expected of "low sodium".
KINDS = [("meal", "160 g testing grits, 120 g testing greens", "proved"), ("meal", "160 g testing grits, 119 g testing greens", "refused"),
         ("meal", "240 g testing grits, 40 g testing greens", "proved"), ("meal", "241 g testing grits, 39 g testing greens", "refused"),
         ("meal", "79 g testing grits, 79 g testing greens, 200 g water", "refused"), ("meal", "80 g testing grits, 79 g testing greens, 200 g water", "proved"),
         ("meal", "300 g testing grits", "refused"), ("meal", "150 g testing grits, 150 g testing curry", "in doubt"),
         ("meal", "40 g testing grits, 40 g testing greens, 40 g fine oats, 160 g water", "proved"),
         ("meal", "100 g testing grits, 200 g mild gherkins", "refused"),
         ("main dish", "84 g testing grits, 84 g testing greens", "proved"), ("main dish", "84 g testing grits, 83 g testing greens", "refused"),
         ("main dish", "128 g testing grits, 40 g testing greens", "proved"), ("main dish", "129 g testing grits, 39 g testing greens", "refused")]

CURRY = FOOD.replace("testing grits", "testing curry").replace("group oats", "group dishes")


def kinds(tally):
    foods = "".join(food.format(sodium=10, potassium=0, energy=10, fat=0)
                    for food in (FOOD, GREENS, CURRY, FOOD.replace("testing grits", "fine oats"),
                                 FOOD.replace("testing grits", "mild gherkins").replace("group oats", "group pickles")))
    for rules in ("us", "usda"):
        for kind, what, expected in KINDS:
            grams = sum(int(line.split()[0]) for line in what.split(", "))
            lines = "".join(f"    {line}\n" for line in what.split(", "))
            one(tally, f"{rules}, {kind} of {what}", rules, expected,
                foods + f'recipe "Dish" {{\n    serves 1\n    makes {grams} g\n    counts as {kind}\n{lines}    claim "low sodium"\n}}\n')
    # Nobody weighed it: whether it weighs enough is not known.
    one(tally, "101.13(l), not weighed", "us", "in doubt",
        foods + 'recipe "Dish" { serves 1; counts as meal; 200 g testing grits; 200 g testing greens; claim "low sodium" }\n')
    # What is too small for a meal has the levels of a food: 480 mg and not 960 mg a serving.
    for grams, words in ((400, False), (200, True)):
        food, dish = text_of('"no salt added"', grams, 600, "100 g", "meal")
        _, findings = outcome({"kitchen.quern": 'kitchen "Claims"\nfollow rules us\n', "a.quern": food + dish})
        told = any(f["code"] == "claim-disclosure" and f["severity"] == "warning" and "sodium" in f["message"] for f in findings)
        tally.check(f"101.13(h), 600 mg in a meal of {grams} g: words needed: {words}", told == words, [f["message"] for f in findings])
    # Canada: 30% of the daily value, 690 mg, is for main dishes of a reference amount of 200 g or more (from memory).
    for reference, mark in ((200, "proved"), (199, "refused")):
        food, dish = text_of('"none"', 200, 600, f"{reference} g", "main dish")
        with test.kitchen({"kitchen.quern": 'kitchen "Marks"\nfollow rules canada\n', "a.quern": food + dish.replace('    claim "none"\n', "")}) as folder:
            _, out, _ = test.run(["check", "--claims", "--as", "json", "."], folder=folder)
        found = {claim["name"]: claim["outcome"] for claim in json.loads(out)["claims"][0]["could_claim"]}
        tally.check(f"Canada, main dish of {reference} g with 600 mg: High in sodium", found.get("High in sodium") == mark, found)


# What brings sodium that somebody added. "No added sodium" asks for none of it (1047/2012; CFIA; CXG 23-1997 as amended), and "sodium free" for
# no ingredient that people understand to contain sodium (101.61(b)(1)(ii)); "no salt added" is of salt alone, and of what is made with it.
ADDED = ["table salt", "pink curing salt", "baking soda", "monosodium glutamate monohydrate", "sodium citrate", "trisodium phosphate", "sodium bisulfate",
         "sodium benzoate", "chicken bouillon powder", "soy sauce", "fish sauce"]
WITHOUT_SODIUM = ["potassium citrate", "pure potassium chloride", "calcium carbonate"]


def added(tally):
    for rules, claim, doubt in (("eu", "no added sodium", None), ("canada", "no added sodium", None), ("codex", "no added sodium", "in doubt"),
                                ("us", "sodium free", None), ("usda", "sodium free", None)):
        reference = None if rules in ("eu", "codex") else "100 g"
        for what in ADDED:
            one(tally, f"{rules}, {claim} with {what}", rules, "refused", text_of(f'"{claim}"', 100, 0.1, reference, None, f"0.001 g {what}"))
        for what in WITHOUT_SODIUM:
            one(tally, f"{rules}, {claim} with {what}", rules, doubt or "proved", text_of(f'"{claim}"', 100, 0.1, reference, None, f"0.001 g {what}"))
    # Salt that comes with how a food is made: no line of salt says so.
    for rules, claim in (("eu", "no added sodium"), ("canada", "no added sodium"), ("codex", "no added sodium"), ("us", "no salt added"), ("usda", "no salt added")):
        food, dish = text_of(f'"{claim}"', 100, 0.1)
        one(tally, f"{rules}, {claim}, salted by the cook, as the food says", rules, "refused",
            food.replace("group oats", "group oats; origin cook-added") + dish)
        one(tally, f"{rules}, {claim}, salted by how it is made", rules, "refused", SALTED + dish.replace("testing grits", "testing grits, rolled in brine") + food)


SALTED = """treatment rolled in brine {
    for oats
    keeps others 100%
    keeps sodium 100%
    mass 100%
    adds sodium 1 mg (0.5 mg to 2 mg) per 100 g after
    evidence estimated
    source "made up for this test"
}
"""


# "Reduced" of what is low already. Canada: from memory, as that "lightly salted" and "no added sodium" exclude it, too. The European rules
# and Codex do not exclude it: 1924/2006 asks for 25% less alone. Milligrams of 100 g before and after.
def references(tally):
    for before, after, expected in ((400, 300, "proved"), (141, 105, "proved"), (140, 105, "refused"), (100, 60, "refused")):
        compared(tally, "canada", "reduced", "reduced sodium", before, after, None, expected, grams=100, reference=True)
    compared(tally, "eu", "1924/2006, reduced of what is low", "reduced sodium", 100, 60, None, "proved")


def ingredients(tally):
    """Salt among the ingredients; words that must stand with a claim."""
    salted = "0.01 g table salt"
    for footnote, expected in (("", "refused"), (", with footnote", "proved")):
        one(tally, f"101.61(b)(1)(ii), 4 mg and salt{footnote}", "us", expected,
            text_of(f'"sodium free"{footnote}', 85, 0.1, "85 g", None, salted))
    one(tally, "101.61(c)(2), salt is added", "us", "refused", text_of('"unsalted"', 130, 20, "130 g", None, salted))
    one(tally, "EU 1047/2012, soy sauce is added to 100 mg", "eu", "refused",
        text_of('"no added sodium"', 100, 50, None, None, "1 g soy sauce"))
    for what, expected in (("soy sauce", "refused"), ("fish sauce", "refused"), ("chicken bouillon powder", "refused"), ("baking soda", "proved")):
        one(tally, f"101.61(c)(2), {what} is added", "us", expected, text_of('"unsalted"', 130, 1, "130 g", None, f"0.1 g {what}"))
    # 101.13(p)(1): where the serving breaks the limit that the reference amount meets, the claim says per what it holds.
    for claim, mg, serves, words in (("low sodium", 140, "1", False), ("low sodium", 200, "1", True), ("very low sodium", 35, "1", False), ("very low sodium", 50, "1", True)):
        grams = 85 if mg in (140, 35) else 127.5
        findings = one(tally, f"101.13(p)(1), {claim}, {mg} mg in a serving of {grams} g", "us", "proved", text_of(f'"{claim}"', grams, mg, "85 g"))
        tally.check(f"101.13(p)(1), {claim}, {mg} mg a serving: says per what: {words}", any("per what it holds for" in f["message"] for f in findings) == words)
    lightly_salted(tally)
    findings = one(tally, "101.61(c)(2), unsalted is not sodium free", "us", "proved", text_of('"unsalted"', 130, 20, "130 g"))
    tally.check("… and says so", any("not a sodium free food" in f["message"] for f in findings))
    findings = one(tally, "101.61(c)(2), unsalted and sodium free", "us", "proved", text_of('"unsalted"', 130, 2, "130 g"))
    tally.check("… needs no such words", not any("not a sodium free food" in f["message"] for f in findings))


def lightly_salted(tally):
    """101.56(g): chips to which 200 mg of sodium are added in 30 g, and others with 100 mg added, 110 mg in all, 183 mg of 50 g. Table
    salt is 38.758% sodium (USDA SR28 NDB 02047)."""
    for added, expected in ((100, "proved"), (101, "refused")):
        texts = FOOD.format(sodium=10 / 30 * 100, potassium=0, energy=500, fat=30)
        for name, mg in (("Usual chips", 200), ("Chips", added)):
            texts += (f'recipe "{name}" {{\n    serves 1\n    makes 30 g\n    reference amount "snacks"\n    30 g testing grits\n    {mg / 387.58:.9g} g table salt\n'
                      + ('    claim "lightly salted", compared to "Usual chips"\n' if name == "Chips" else "") + "}\n")
        findings = one(tally, f"101.56(g), {added} mg added instead of 200 mg", "us", expected, texts)
        if expected == "proved":
            tally.check("101.56(g), 183 mg of 50 g: says not a low sodium food", any("not a low sodium food" in f["message"] for f in findings))


def potassium(tally):
    """101.54: shares of the daily value of 4,700 mg."""
    for claim, mg, expected in (("good source of potassium", 470, "proved"), ("good source of potassium", 469, "refused"),
                                ("good source of potassium", 893, "proved"), ("good source of potassium", 930, "proved"),
                                ("high in potassium", 940, "proved"), ("high in potassium", 939, "refused")):
        one(tally, f"101.54, {mg} mg potassium, {claim}", "us", expected, text_of(f'"{claim}"', 240, 1, "240 g", potassium=mg))


def elsewhere(tally):
    """Canada: very low is not permitted; low is per reference amount, serving, and 50 g of a small one."""
    one(tally, "CFIA, 30 mg, very low", "canada", "refused", text_of('"very low sodium"', 245, 30, "245 g"))
    one(tally, "Canada, 30 mg, low", "canada", "proved", text_of('"low sodium"', 245, 30, "245 g"))
    one(tally, "Canada, 140 mg, low", "canada", "proved", text_of('"low sodium"', 85, 140, "85 g"))
    one(tally, "Canada, 140.1 mg, low", "canada", "refused", text_of('"low sodium"', 85, 140.1, "85 g"))
    one(tally, "Canada, 30 g, 85 mg, low", "canada", "refused", text_of('"low sodium"', 30, 85, "30 g"))


# What a figure on a label of the European Union may stand for (Commission guidance of December 2012, second-hand): salt in hundredths of
# a gram up to 1 g and tenths above, 0 up to 0.0125 g; three figures of potassium, calcium and their like, two of iron and zinc. Halves both
# ways, since the guidance says nothing of them. Printed, nutrient in the report, lowest and highest there: salt is 2.5 times the sodium.
EU_LABELS = [("salt 0 g", "sodium", 0, 5), ("salt 0.01 g", "sodium", 5, 6), ("salt 0.99 g", "sodium", 394, 398), ("salt 1 g", "sodium", 398, 420),
             ("salt 1.1 g", "sodium", 420, 460), ("salt 0.3 g", "sodium", 118, 122), ("salt 6 g", "sodium", 2380, 2420), ("potassium 87.5 mg", "potassium", 87.45, 87.55),
             ("potassium 350 mg", "potassium", 349.5, 350.5), ("potassium 1230 mg", "potassium", 1225, 1235), ("calcium 120 mg", "calcium", 119.5, 120.5),
             ("iron 2.1 mg", "iron", 2.05, 2.15), ("zinc 0.45 mg", "zinc", 0.445, 0.455), ("fat 0.6 g", "fat", 0.55, 0.65), ("fat 0 g", "fat", 0, 0.5),
             ("fat 12 g", "fat", 11.5, 12.5), ("saturated fat 0.2 g", "saturated_fat", 0.15, 0.25), ("energy 123 kcal", "energy", 122.5, 123.5)]


def eu_labels(tally):
    text = 'kitchen "Labels"\nfollow rules eu\n'
    for number, (printed, _, _, _) in enumerate(EU_LABELS):
        text += f'label "L{number}" {{ serving 100 g; {printed} }}\nrecipe "R{number}" {{ serves 1; 1 serving "L{number}" }}\n'
    document = test.report_of(tally, "labels of the European Union", text, (0,))
    for number, (printed, nutrient, low, high) in enumerate(EU_LABELS):
        found = ((test.recipe_named(document, f"R{number}") or {}).get("per_serving") or {}).get(nutrient) or {}
        good = all(test.is_number(found.get(key)) and abs(found[key] - value) <= 1e-6 * max(1, value) for key, value in (("low", low), ("high", high)))
        tally.check(f"{printed} on a label is {low} to {high} {nutrient}", good, found)


# The same amount against four daily values: rules, nutrient, mg, percent. 480 mg of sodium is 20% of 2,400 mg and 21% of 2,300 mg; 350 mg
# of potassium is 8% of 4,700 mg by steps of 2, and 10% of 3,500 mg; Canada has 3,400 mg.
PERCENTS = [("us", "sodium", 480, 21), ("usda", "sodium", 480, 20), ("us", "potassium", 350, 8), ("usda", "potassium", 350, 10), ("canada", "potassium", 350, 10),
            ("canada", "sodium", 345, 15), ("eu", "sodium", 480, 20), ("eu", "potassium", 300, 15), ("who", "sodium", 500, 25)]


def percents(tally):
    for rules, nutrient, mg, percent in PERCENTS:
        text = FOOD.format(sodium=mg if nutrient == "sodium" else 1, potassium=mg if nutrient == "potassium" else 1, energy=10, fat=0)
        text += 'recipe "Dish" { serves 1; makes 100 g; 100 g testing grits }\n'
        with test.kitchen({"kitchen.quern": f'kitchen "Percents"\nfollow rules {rules}\n', "a.quern": text}) as folder:
            _, out, _ = test.run(["report", "."], folder=folder)
        called = {"eu": "reference intake", "who": "guideline of the WHO"}.get(rules, "daily value")
        found = re.search(rf"^{nutrient} per serving: .*\n  (\d+)% of the {called} of", out.decode(), re.M)
        tally.check(f"{rules}: {mg} mg {nutrient} is {percent}%", found and int(found.group(1)) == percent, found and found.group(0))


# 9 CFR 317.361: the numbers of 21 CFR 101.61, and "not a sodium free product".
def meat(tally):
    for claim, mg, expected in (("sodium free", 4.99, "proved"), ("sodium free", 5, "refused"), ("very low sodium", 35, "proved"), ("very low sodium", 35.1, "refused"),
                                ("low sodium", 140, "proved"), ("low sodium", 140.1, "refused")):
        one(tally, f"9 CFR 317.361(b), {claim}, {mg} mg", "usda", expected, text_of(f'"{claim}"', 85, mg, "85 g"))
    for after, expected in ((165, "proved"), (166, "refused")):
        compared(tally, "usda", "9 CFR 317.361(b)(6), 220 mg", "reduced sodium", 220, after, None, expected, grams=84, reference=True)
    findings = one(tally, "9 CFR 317.361(c)(2), unsalted", "usda", "proved", text_of('"unsalted"', 85, 40, "85 g"))
    tally.check("9 CFR 317.361(c)(2) says not a sodium free product", any("not a sodium free product" in f["message"] for f in findings))


# UK: salt in g per 100 g (or 100 ml), size of the portion, kind, whether it is red. Over 1.5 g of 100 g, or over 1.8 g in a portion of
# more than 100 g; of a drink 0.75 g of 100 ml (from memory), or 0.9 g (from memory) in a portion of more than 150 ml.
PORTIONS = [(0.80, 250, None, True), (0.80, 90, None, False), (0.72, 250, None, False), (0.73, 250, None, True), (1.50, 100, None, False), (1.51, 100, None, True),
            (1.80, 100, None, True), (1.50, 101, None, False), (1.50, 121, None, True), (0.75, 100, "drink", False), (0.76, 100, "drink", True),
            (0.61, 150, "drink", False), (0.60, 150, "drink", False), (0.60, 151, "drink", True), (0.45, 200, "drink", False), (0.46, 200, "drink", True)]


def portions(tally):
    for salt_grams, size, kind, red in PORTIONS:
        mg = salt_grams * 400 * size / 100
        makes = f"makes {size} ml\n    " if kind else ""
        text = "".join(text_of('"none"', size, mg, None, kind, makes)).replace('    claim "none"\n', "")
        with test.kitchen({"kitchen.quern": 'kitchen "Marks"\nfollow rules uk\n', "a.quern": text.replace(f"makes {size} g\n    " if kind else "~", "")}) as folder:
            _, out, _ = test.run(["check", "--claims", "--as", "json", "."], folder=folder)
        found = {claim["name"]: claim["outcome"] for claim in json.loads(out)["claims"][0]["could_claim"]}
        tally.check(f"UK, {salt_grams} g of salt in 100, portion of {size}, {kind or 'food'}: red: {red}", found.get("red for salt") == ("refused" if red else "proved"), found)
    # 0.3 g of 100 g is green, but in a portion of 700 g it is 2.1 g of salt, which is red
    for size, expected in ((100, "proved"), (590, "proved"), (700, "refused")):
        one(tally, f"UK, 0.3 g of salt in 100 g, portion of {size} g", "uk", expected, text_of('"green for salt"', size, 0.3 * 400 * size / 100))


# Nobody weighed it: boiled down to a tenth of what went in (common practice, no source), 60 mg in 100 g would be the 600 mg that a red needs to
# be over, and 12 mg the 120 mg of green. mg in 100 g of what goes in, whether red is off, whether green is sure.
UNWEIGHED = [(33, "proved", "in doubt"), (60, "proved", "in doubt"), (60.1, "in doubt", "in doubt"), (12, "proved", "proved"), (12.1, "proved", "in doubt"), (601, "refused", "refused")]


def unweighed(tally):
    for sodium, red, green in UNWEIGHED:
        text = FOOD.format(sodium=sodium, potassium=0, energy=10, fat=0) + 'recipe "Dish" { serves 10; 1000 g testing grits }\n'
        with test.kitchen({"kitchen.quern": 'kitchen "Marks"\nfollow rules uk\n', "a.quern": text}) as folder:
            _, out, _ = test.run(["check", "--claims", "--as", "json", "."], folder=folder)
        found = {claim["name"]: claim["outcome"] for claim in json.loads(out)["claims"][0]["could_claim"]}
        tally.check(f"UK, {sodium} mg in 100 g that nobody weighed: red {red}, green {green}", (found["red for salt"], found["green for salt"]) == (red, green), found)


# rules, mark, grams of the dish, mg sodium in it, reference amount, kind, kcal per 100 g, whether it must stand
MARKS = [("uk", "red for salt", 100, 600, None, None, 10, False), ("uk", "red for salt", 100, 604, None, None, 10, True),      # 1.50, 1.51 g
         ("canada", "High in sodium", 85, 344.9, "85 g", None, 10, False), ("canada", "High in sodium", 85, 345, "85 g", None, 10, True),
         ("canada", "High in sodium", 30, 229, "30 g", None, 10, False), ("canada", "High in sodium", 30, 230, "30 g", None, 10, True),
         ("mexico", "EXCESO SODIO", 100, 299, None, None, 400, False), ("mexico", "EXCESO SODIO", 100, 300, None, None, 400, True),
         ("mexico", "EXCESO SODIO", 100, 120, None, None, 100, True), ("mexico", "EXCESO SODIO", 100, 250, None, None, 200, True),
         ("mexico", "EXCESO SODIO", 100, 299, None, None, 350, False), ("mexico", "EXCESO SODIO", 100, 300, None, None, 350, True),
         ("chile", "ALTO EN SODIO", 100, 400, None, None, 10, False), ("chile", "ALTO EN SODIO", 100, 401, None, None, 10, True)]


def marks(tally):
    for rules, mark, grams, sodium, reference, kind, energy, expected in MARKS:
        text = "".join(text_of('"none"', grams, sodium, reference, kind, energy=energy)).replace('    claim "none"\n', "")
        with test.kitchen({"kitchen.quern": f'kitchen "Marks"\nfollow rules {rules}\n', "a.quern": text}) as folder:
            _, out, _ = test.run(["check", "--claims", "--as", "json", "."], folder=folder)
        found = {claim["name"]: claim["outcome"] for claim in json.loads(out)["claims"][0]["could_claim"] if claim["kind"] == "mark"}
        tally.check(f"{rules}, {mark}, {sodium} mg in {grams} g: stands: {expected}", found.get(mark) == ("refused" if expected else "proved"), found)
    for sodium, expected in ((120, "proved"), (124, "refused")):                # salt 0.30, 0.31 g
        one(tally, f"UK, green, {sodium} mg", "uk", expected, text_of('"green for salt"', 100, sodium))


# mg of sodium, g of salt as the guidance of December 2012 prints it (second-hand): tenths from 1 g, hundredths below, up to 0.0125 g "0 g" or
# "<0.01 g", of which the second is no zero. 5.75 and 1.05 g lie half way, where the guidance says nothing: halves go up.
SALT = [(0, "0 g"), (5, "less than 0.01 g"), (5.2, "0.01 g"), (40, "0.1 g"), (120, "0.3 g"), (397.6, "0.99 g"), (398.4, "1 g"), (400, "1 g"), (416, "1 g"),
        (420, "1.1 g"), (480, "1.2 g"), (600, "1.5 g"), (2300, "5.8 g"), (2400, "6 g")]


def salt(tally):
    """Regulation (EU) 1169/2011, annex I: salt is sodium times 2.5, whatever it comes from."""
    for rules in ("eu", "uk"):
        for sodium, expected in SALT:
            text = "".join(text_of('"none"', 100, sodium)).replace('    claim "none"\n', "")
            with test.kitchen({"kitchen.quern": f'kitchen "Salt"\nfollow rules {rules}\n', "a.quern": text}) as folder:
                _, out, _ = test.run(["report", "."], folder=folder)
            found = re.search(r"^ *salt \(sodium times 2.5\) per serving: (.+)$", out.decode(), re.M)
            tally.check(f"{rules}: {sodium} mg sodium are {expected} of salt", found and found.group(1) == expected, found and found.group(0))
