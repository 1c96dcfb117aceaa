"""Outside checks of packets: what a label says of itself, against published panels, worked percents and the law's
tolerance. A case is (what is printed, which codes must stand there); every expected value comes from the source named
beside it, or from arithmetic on it. Sources: 21 CFR 101.9 (2016) and its twin 9 CFR 317.309 (2015 edition)."""

import json

import quern_test as test

PERCENT, SUM = "label-percent", "label-sum"

# nutrient, unit, amount in the food, lawful prints of it (101.9(c)(4), (c)(8)), lawful percents (101.9(d)(7)(ii), (c)(8)(iii)):
# by the amount itself or by what is printed; both neighbours at exact halves, where the rule is silent.
SODIUM_DAY, POTASSIUM_DAY = 2300, 4700
LAWFUL = [
    ("sodium", "mg", 10, [0]), ("sodium", "mg", 35, [2]), ("sodium", "mg", 140, [6]), ("sodium", "mg", 150, [6, 7]),
    ("sodium", "mg", 230, [10]), ("sodium", "mg", 460, [20]), ("sodium", "mg", 480, [21]), ("sodium", "mg", 160, [7]),
    ("sodium", "mg", 1150, [50]), ("sodium", "mg", 2300, [100]), ("sodium", "mg", 690, [30]),
    ("potassium", "mg", 235, [4, 6]), ("potassium", "mg", 90, [0, 2]), ("potassium", "mg", 400, [8]), ("potassium", "mg", 470, [10]),
    ("potassium", "mg", 500, [10]), ("potassium", "mg", 590, [10, 15]), ("potassium", "mg", 2350, [50]), ("potassium", "mg", 4700, [100]),
    ("iron", "mg", 8, [45]), ("calcium", "mg", 260, [20]), ("vitamin d", "µg", 2, [10]),       # the panel of (d)(8)
    ("fat", "g", 8, [10]), ("saturated fat", "g", 1, [5]), ("carbohydrate", "g", 37, [13]), ("fibre", "g", 4, [14]),
]
# The amount and a percent that no lawful rounding of it, or of what may be printed so, comes to. Daily values of 2,400 and
# 3,500 mg (before 2016, and of the Department of Agriculture) are others: 480 mg was 20%, 350 mg was 10%.
SLIPS = [
    ("sodium", "mg", 580, 12), ("sodium", "mg", 480, 20), ("sodium", "mg", 140, 7), ("sodium", "mg", 230, 9), ("sodium", "mg", 160, 70),
    ("sodium", "mg", 1600, 7), ("potassium", "mg", 350, 10), ("potassium", "mg", 235, 10), ("potassium", "mg", 470, 20),
    ("potassium", "mg", 400, 0), ("sodium", "mg", 35, 0), ("iron", "mg", 8, 50), ("calcium", "mg", 260, 25), ("fat", "g", 8, 12),
]
# kcal, g fat, carbohydrate, fibre, protein. The first is the panel of 101.9(d); the others are 9, 4 and 4 by hand.
PANELS = [(230, 8, 37, 4, 3), (110, 0, 27, 0, 0), (100, 11, 0, 0, 0), (70, 5, 1, 0, 6), (90, 0, 12, 0, 9), (190, 16, 7, 3, 7), (25, 0, 6, 3, 1)]
# The same with one figure mistyped: a digit lost, doubled, or two of them turned round.
MISTYPED = [(23, 8, 37, 4, 3), (320, 8, 37, 4, 3), (230, 80, 37, 4, 3), (11, 0, 27, 0, 0), (100, 1, 0, 0, 0), (700, 5, 1, 0, 6), (90, 0, 2, 0, 9), (190, 61, 7, 3, 7)]
# printed mg, the law's low and high (9 CFR 317.309(h)(4)(ii), (5); 101.9(g) from memory), or the bands of (c)(4) where they
# reach further: 140 mg may be found to be 168 mg, 235 mg of potassium 188 mg.
TOLERANCES = [("sodium", 140, 0, 168), ("sodium", 580, 0, 696), ("sodium", 0, 0, 5), ("sodium", 5, 0, 7.5), ("sodium", 480, 0, 576), ("potassium", 235, 188, None),
              ("potassium", 470, 376, None), ("potassium", 10, 5, None)]


# Printed under the rules of the European Union, and the sodium (mg) that it may stand for: Commission guidance on tolerances of
# December 2012 (second-hand), salt in steps of 0.1 g from 1 g and 0.01 g below, 0 g or less than 0.01 g up to 0.0125 g; salt is
# 2.5 times the sodium (Regulation (EU) 1169/2011, annex I). At 1 g both steps print 1.0 g: 0.995 to 1.05 g.
EUROPE = [("salt 0 g", 0, 5), ("salt less than 0.01 g", 0, 5), ("salt 0.02 g", 6, 10), ("salt 0.3 g", 118, 122), ("salt 0.99 g", 394, 398),
          ("salt 1 g", 398, 420), ("salt 1.1 g", 420, 460), ("salt 1.2 g", 460, 500), ("salt 1.5 g", 580, 620), ("salt 6 g", 2380, 2420),
          ("sodium 0 mg", 0, 5), ("sodium 0.48 g", 475, 485), ("sodium 480 mg", 475, 485), ("sodium 1.2 g", 1150, 1250)]


def label(name, *figures):
    return f'label "{name}" {{\n    serving 1 cup (240 g)\n' + "".join(f"    {figure}\n" for figure in figures) + "}\n"


def codes_of(text):
    """The codes that a kitchen of one label gets."""
    with test.kitchen({"label.quern": text}) as folder:
        status, out, _ = test.run(["check", "--as", "json", "."], folder)
    document, _ = test.parse(out)
    return {finding["code"] for finding in (document or {"findings": [{"code": f"status {status}"}]})["findings"]}


def panel(energy, fat, carbohydrate, fibre, protein):
    return label("Panel", f"energy {energy} kcal", f"fat {fat} g", f"carbohydrate {carbohydrate} g", f"fibre {fibre} g", f"protein {protein} g")


def check_percents(tally):
    for nutrient, unit, amount, percents in LAWFUL:
        for percent in percents:
            found = codes_of(label("Panel", f"{nutrient} {amount} {unit} {percent}%"))
            tally.check(f"{nutrient} {amount} {unit} may say {percent}%", not found, f"{found}")
    for nutrient, unit, amount, percent in SLIPS:
        found = codes_of(label("Panel", f"{nutrient} {amount} {unit} ({percent}%)"))
        tally.check(f"{nutrient} {amount} {unit} cannot say {percent}%", PERCENT in found, f"{found}")


def check_energy(tally):
    for figures in PANELS:
        found = codes_of(panel(*figures))
        tally.check(f"the panel {figures} agrees", SUM not in found, f"{found}")
    for figures in MISTYPED:
        found = codes_of(panel(*figures))
        tally.check(f"the panel {figures} is told off", SUM in found, f"{found}")


def check_tolerances(tally):
    text = 'kitchen "K"\nfollow "Law"\npolicy "Law" { tolerance legal }\n'
    for number, (nutrient, printed, _, _) in enumerate(TOLERANCES):
        text += label(f"Packet {number}", f"{nutrient} {printed} mg") + f'recipe "From {number}" {{\n    serves 1\n    1 serving "Packet {number}"\n}}\n'
    document = test.report_of(tally, "tolerances", text, (0,))
    for number, (nutrient, printed, low, high) in enumerate(TOLERANCES):
        recipe = test.recipe_named(document, f"From {number}") or {"per_serving": {}, "packets": [{"per_serving": {nutrient: {"by_law": {}}}}]}
        for where, found in (("recipe", recipe["per_serving"].get(nutrient) or {}), ("packet", recipe["packets"][0]["per_serving"][nutrient]["by_law"])):
            wanted = {"low": low, "high": high}
            good = all(found.get(end, "none") == wanted[end] or (wanted[end] is not None and test.same_number(wanted[end], found.get(end))) for end in wanted)
            tally.check(f"by law {nutrient} {printed} mg is {low} to {high} ({where})", good, f"{found}")


def check_europe(tally):
    for rules in ("eu", "uk"):
        text = f'kitchen "K"\nfollow rules {rules}\n'
        for number, (printed, _, _) in enumerate(EUROPE):
            text += label(f"Packet {number}", printed) + f'recipe "From {number}" {{\n    serves 1\n    1 serving "Packet {number}"\n}}\n'
        document = test.report_of(tally, f"salt by {rules}", text, (0,))
        for number, (printed, low, high) in enumerate(EUROPE):
            recipe = test.recipe_named(document, f"From {number}") or {"per_serving": {}}
            found = recipe["per_serving"].get("sodium") or {}
            good = all(test.same_number(wanted, found.get(end)) for end, wanted in (("low", low), ("high", high)))
            tally.check(f"by {rules} {printed} is sodium {low} to {high} mg", good, f"{found}")


# What a laboratory may find, mg. European guidance of December 2012 (from memory): of sodium under 0.5 g in 100 g 0.15 g to either side, from
# 0.5 g on 20%; of minerals 65% to 145%. Salt is 2.5 times sodium. In a serving of 30 g 0.15 g of 100 g
# are 45 mg. Of a slice nobody weighed there is no figure in 100 g, so no end. Canada (from memory): sodium up to 120%, potassium
# from 80%. Rules, what the label prints, nutrient, lowest, highest.
ELSEWHERE = [("eu", "serving 100 g; sodium 499 mg", "sodium", 349, 649), ("eu", "serving 100 g; sodium 500 mg", "sodium", 400, 600),
             ("eu", "serving 100 g; salt 1.2 g", "sodium", 330, 630), ("eu", "serving 100 g; salt 1.3 g", "sodium", 416, 624),
             ("eu", "serving 100 g; salt 0.2 g", "sodium", 0, 230), ("eu", "serving 30 g; salt 0.2 g", "sodium", 35, 125),
             ("eu", "serving 1 slice; salt 0.2 g", "sodium", 0, None), ("eu", "serving 1 cup = 200 ml; salt 6 g", "sodium", 1920, 2880),
             ("eu", "serving 100 g; potassium 200 mg", "potassium", 130, 290), ("uk", "serving 100 g; salt 1.3 g", "sodium", 416, 624),
             ("canada", "serving 100 g; sodium 480 mg", "sodium", 0, 576), ("canada", "serving 100 g; potassium 200 mg", "potassium", 160, None)]


def check_tolerances_elsewhere(tally):
    for rules, printed, nutrient, low, high in ELSEWHERE:
        text = (f'kitchen "K"\nfollow rules {rules}\nfollow "Law"\npolicy "Law" {{ tolerance legal }}\nlabel "Tin" {{ {printed} }}\n'
                'recipe "Dish" { serves 1; 1 serving "Tin" }\n')
        document = test.report_of(tally, f"{rules}: {printed}", text, (0,))
        found = document["recipes"][0]["packets"][0]["per_serving"][nutrient]["by_law"]
        good = abs(found["low"] - low) < 1e-6 and (found["high"] is None if high is None else abs((found["high"] or 0) - high) < 1e-6)
        tally.check(f"{rules}, {printed}: {nutrient} {low} to {high} by law", good, found)
    for rules in ("chile", "mexico", "codex", "who"):
        text = f'kitchen "K"\nfollow rules {rules}\nfollow "Law"\npolicy "Law" {{ tolerance legal }}\n'
        with test.kitchen({"kitchen.quern": text}) as folder:
            status, out, _ = test.run(["check", "--as", "json", "."], folder=folder)
        tally.check(f"{rules} have no tolerance, and say so", status == 1 and [f["code"] for f in json.loads(out)["findings"]] == ["tolerance-none"], out)


def check_packets(tally):
    check_tolerances_elsewhere(tally)
    check_europe(tally)
    check_percents(tally)
    check_energy(tally)
    check_tolerances(tally)
