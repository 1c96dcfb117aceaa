"""What is published that people eat a day, for every row of the tables, and days against it. DRI: NASEM 2019, potassium
read in table S-1, sodium second-hand. WHO 2012: second-hand."""

import quern_test as test

DRI, WHO = "Dietary Reference Intakes 2019", "WHO guidelines 2012"

# words, ages at both ends of a row: adequate sodium, chronic-disease-risk level (None: none could be set), adequate potassium
TABLE = [
    ("infant", ("0 months", "6 months"), 110, None, 400), ("infant", ("7 months", "11 months"), 370, None, 860),
    ("child", ("1", "3"), 800, 1200, 2000), ("boy", ("1", "3"), 800, 1200, 2000), ("girl", ("1", "3"), 800, 1200, 2000),
    ("child", ("4", "8"), 1000, 1500, 2300), ("girl", ("4", "8"), 1000, 1500, 2300),
    ("boy", ("9", "13"), 1200, 1800, 2500), ("boy", ("14", "18"), 1500, 2300, 3000),
    ("man", ("19", "30", "31", "50", "51", "70", "71", "99"), 1500, 2300, 3400),
    ("girl", ("9", "13"), 1200, 1800, 2300), ("girl", ("14", "18"), 1500, 2300, 2300),
    ("woman", ("19", "30", "31", "50", "51", "70", "71", "72", "75", "99"), 1500, 2300, 2600),
    ("adult woman", ("35",), 1500, 2300, 2600), ("adult man", ("35",), 1500, 2300, 3400),
    ("pregnant", ("14", "17", "18"), 1500, 2300, 2600), ("pregnant girl", ("16",), 1500, 2300, 2600),
    ("pregnant woman", ("19", "29", "30", "50"), 1500, 2300, 2900),
    ("lactating", ("14", "16", "18"), 1500, 2300, 2500), ("lactating woman", ("19", "50"), 1500, 2300, 2800),
]
# who may be two: the least and the most of potassium that may be meant
OPEN = [("adult", "", 2600, 3400), ("adult", "40", 2600, 3400), ("child", "10", 2300, 2500), ("child", "16", 2300, 3000)]
NO_ROW = [("pregnant", "51"), ("pregnant", "52"), ("lactating", "52")]

FOOD = 'food mill groats { group oats; per 100 g { sodium 100 mg; potassium 100 mg }; source "made up for this test" }\n'


def figures(day, title):
    """{(nutrient, kind): (least, most, use)} of one table, as a day's report gives them."""
    return {(one["nutrient"], one["kind"]): (one["least"], one["most"], one["use"]) for one in day["published"] if one["title"] == title}


def days_of(tally, name, text):
    document = test.report_of(tally, name, FOOD + text, (0, 1))
    return {day["name"]: day for day in document["days"]} if document else {}


def check_table(tally):
    rows = [(row[0], age, row[2], row[3], row[4]) for row in TABLE for age in row[1]]
    text = "".join(f'day "{words} {age}" for {words} {age} {{ 100 g mill groats }}\n' for words, age, *_ in rows)
    days = days_of(tally, "the table of intakes", text)
    for words, age, adequate, most, potassium in rows:
        day = days.get(f"{words} {age}")
        infant = words == "infant"
        wanted = {("sodium", "adequate"): (adequate, adequate, "shown"),
                  ("potassium", "adequate"): (potassium, potassium, "shown" if infant else "judged")}
        if most:
            wanted["sodium", "at most"] = (most, most, "judged")
        found = figures(day, DRI) if day else None
        tally.check(f"published for {words} {age}", found == wanted, f"{found}")


def check_open(tally):
    text = "".join(f'day "{words} {age}" for {words} {age} {{ 100 g mill groats }}\n' for words, age, *_ in OPEN)
    text += "".join(f'day "{words} {age}" for {words} {age} {{ 100 g mill groats }}\n' for words, age in NO_ROW)
    days = days_of(tally, "who may be two", text)
    for words, age, least, most in OPEN:
        day = days.get(f"{words} {age}")
        found = figures(day, DRI).get(("potassium", "adequate")) if day else None
        tally.check(f"published for {words} {age}", found == (least, most, "judged"), f"{found}")
    for words, age in NO_ROW:
        day = days.get(f"{words} {age}") or {}
        codes = [finding["code"] for finding in day.get("findings", [])]
        tally.check(f"no row for {words} {age}", day.get("published") == [] and day.get("limits") == [] and "no-intake" in codes, f"{codes}")


# EFSA 2019 (sodium, a safe and adequate intake, which judges nothing) and 2016 (potassium): abstracts read. Words, ages at both ends.
EFSA, SACN = "European Food Safety Authority 2019, 2016", "Scientific Advisory Committee on Nutrition 2003, salt"
EUROPE = [("infant", ("7 months", "11 months"), 200, 750), ("child", ("1", "3"), 1100, 800), ("child", ("4", "6"), 1300, 1100), ("child", ("7", "10"), 1700, 1800),
          ("child", ("11", "14"), 2000, 2700), ("girl", ("15", "17"), 2000, 3500), ("woman", ("18", "19", "70"), 2000, 3500),
          ("pregnant woman", ("18", "50"), 2000, 3500), ("lactating woman", ("18", "50"), 2000, 4000)]
# SACN 2003, second-hand: g of salt, which is 2.5 times the sodium.
SALT = [("infant", ("7 months", "11 months"), 1), ("child", ("1", "3"), 2), ("child", ("4", "6"), 3), ("child", ("7", "10"), 5), ("child", ("11", "18"), 6), ("adult", ("19", "80"), 6)]


def check_regions(tally):
    """Tables that belong to rules: shown and judged where these are followed, and nowhere else."""
    text = "".join(f'day "{words} {age}" for {words} {age} {{ 100 g mill groats }}\n' for words, ages, *_ in EUROPE for age in ages)
    days = days_of(tally, "the table of the European Union", "follow rules eu\n" + text)
    for words, ages, sodium, potassium in EUROPE:
        for age in ages:
            day, use = days.get(f"{words} {age}"), "shown" if words == "infant" else "judged"
            found = figures(day, EFSA) if day else None
            tally.check(f"EFSA for {words} {age}", found == {("sodium", "adequate"): (sodium, sodium, "shown"), ("potassium", "adequate"): (potassium, potassium, use)}, found)
            level = figures(day, DRI).get(("sodium", "at most")) if day else None
            tally.check(f"the level of sodium stays for {words} {age}", words == "infant" or level is None or level[2] == "judged", level)
    text = "".join(f'day "{words} {age}" for {words} {age} {{ 100 g mill groats }}\n' for words, ages, _ in SALT for age in ages)
    text += 'day "newborn" for infant 6 months { 100 g mill groats }\nday "pregnant" for pregnant woman 30 { 100 g mill groats }\n'
    days = days_of(tally, "the table of the United Kingdom", "follow rules uk\n" + text)
    for words, ages, grams in SALT:
        for age in ages:
            day, use = days.get(f"{words} {age}"), "shown" if words == "infant" else "judged"
            found = figures(day, SACN) if day else None
            tally.check(f"SACN for {words} {age}", found == {("sodium", "at most"): (grams * 400, grams * 400, use)}, found)
            others = {figures(day, DRI).get(("sodium", "at most"), (0, 0, "shown"))[2], figures(day, DRI)["potassium", "adequate"][2]} if day else None
            tally.check(f"of {words} {age} the other table judges potassium alone", others == ({"shown"} if words == "infant" else {"shown", "judged"}), others)
    tally.check("SACN to six months: under 1 g of salt", days and figures(days["newborn"], SACN) == {("sodium", "under"): (400, 400, "shown")}, figures(days["newborn"], SACN))
    tally.check("SACN says nothing of pregnancy: the general level", days and figures(days["pregnant"], SACN) == {} and figures(days["pregnant"], DRI)["sodium", "at most"][2] == "judged")
    days = days_of(tally, "no rules of a region", 'day "woman" for adult woman 30 { 100 g mill groats }\n')
    tally.check("tables of regions are shown nowhere else", days and figures(days["woman"], EFSA) == figures(days["woman"], SACN) == {} and figures(days["woman"], WHO))
    for mg, wanted in ((2400, "kept"), (2401, "broken")):
        days = days_of(tally, "6 g of salt", f'follow rules uk\nday "D" for adult man 30 {{ {mg} g mill groats }}\n')
        tally.check(f"{mg} mg against 6 g of salt", outcome(days.get("D", {}), "sodium", SACN) == wanted)
    # Adults of the WHO begin at 16.
    for age, wanted in (("15", False), ("16", True)):
        days = days_of(tally, "adults of the WHO", f'follow rules who\nday "D" for girl {age} {{ 100 g mill groats }}\n')
        tally.check(f"the WHO for a girl of {age}: {wanted}", days and bool(figures(days["D"], WHO)) == wanted)


# EFSA 2019 (sodium, a safe and adequate intake, which judges nothing) and 2016 (potassium): abstracts read. Words, ages at both ends.
EFSA, SACN = "European Food Safety Authority 2019, 2016", "Scientific Advisory Committee on Nutrition 2003, salt"
EUROPE = [("infant", ("7 months", "11 months"), 200, 750), ("child", ("1", "3"), 1100, 800), ("child", ("4", "6"), 1300, 1100), ("child", ("7", "10"), 1700, 1800),
          ("child", ("11", "14"), 2000, 2700), ("girl", ("15", "17"), 2000, 3500), ("woman", ("18", "19", "70"), 2000, 3500),
          ("pregnant woman", ("18", "50"), 2000, 3500), ("lactating woman", ("18", "50"), 2000, 4000)]
# SACN 2003, second-hand: g of salt, which is 2.5 times the sodium.
SALT = [("infant", ("7 months", "11 months"), 1), ("child", ("1", "3"), 2), ("child", ("4", "6"), 3), ("child", ("7", "10"), 5), ("child", ("11", "18"), 6), ("adult", ("19", "80"), 6)]


def check_europe(tally):
    """Tables that belong to rules are shown and judge where these are followed, and nowhere else. What they do not judge the general one does."""
    text = "".join(f'day "{words} {age}" for {words} {age} {{ 100 g mill groats }}\n' for words, ages, *_ in EUROPE for age in ages)
    days = days_of(tally, "the table of the European Union", "follow rules eu\n" + text)
    for words, ages, sodium, potassium in EUROPE:
        for age in ages:
            day, use = days[f"{words} {age}"], "shown" if words == "infant" else "judged"
            found = figures(day, EFSA)
            tally.check(f"EFSA for {words} {age}", found == {("sodium", "adequate"): (sodium, sodium, "shown"), ("potassium", "adequate"): (potassium, potassium, use)}, found)
            if words != "infant":
                level = figures(day, DRI)["sodium", "at most"]
                tally.check(f"the general level of sodium judges {words} {age}", level[2] == "judged", level)


def check_united_kingdom(tally):
    text = "".join(f'day "{words} {age}" for {words} {age} {{ 100 g mill groats }}\n' for words, ages, _ in SALT for age in ages)
    text += 'day "newborn" for infant 6 months { 100 g mill groats }\nday "pregnant" for pregnant woman 30 { 100 g mill groats }\n'
    days = days_of(tally, "the table of the United Kingdom", "follow rules uk\n" + text)
    for words, ages, grams in SALT:
        for age in ages:
            day, use = days[f"{words} {age}"], "shown" if words == "infant" else "judged"
            found = figures(day, SACN)
            tally.check(f"SACN for {words} {age}", found == {("sodium", "at most"): (grams * 400, grams * 400, use)}, found)
            others = {key: value[2] for key, value in figures(day, DRI).items() if key != ("sodium", "adequate")}
            wanted = {("potassium", "adequate"): "shown"} if words == "infant" else {("potassium", "adequate"): "judged", ("sodium", "at most"): "shown"}
            tally.check(f"of {words} {age} the general table judges potassium alone", others == wanted, others)
    newborn = next(one for one in days["newborn"]["published"] if one["title"] == SACN)
    tally.check("SACN to six months: under 1 g of salt", newborn["strict"] and newborn["most"] == 400 and newborn["use"] == "shown", newborn)
    tally.check("SACN says nothing of pregnancy: the general level", figures(days["pregnant"], SACN) == {} and figures(days["pregnant"], DRI)["sodium", "at most"][2] == "judged")
    for mg, wanted in ((2400, "kept"), (2401, "broken")):
        days = days_of(tally, "6 g of salt", f'follow rules uk\nday "D" for adult man 30 {{ {mg} g mill groats }}\n')
        tally.check(f"{mg} mg against 6 g of salt", outcome(days.get("D", {}), "sodium", SACN) == wanted)


def check_regions(tally):
    days = days_of(tally, "no rules of a region", 'day "woman" for adult woman 30 { 100 g mill groats }\n')
    tally.check("tables of regions are shown nowhere else", figures(days["woman"], EFSA) == figures(days["woman"], SACN) == {} and bool(figures(days["woman"], WHO)))
    for age, wanted in (("15", False), ("16", True)):
        days = days_of(tally, "adults of the WHO", f'follow rules who\nday "D" for girl {age} {{ 100 g mill groats }}\n')
        tally.check(f"the WHO for a girl of {age}: {wanted}", bool(figures(days["D"], WHO)) == wanted)


def outcome(day, nutrient, title):
    return next((limit["outcome"] for limit in day.get("limits", []) if limit["nutrient"] == nutrient and limit.get("published") == title), None)


def check_comparisons(tally):
    """2,300 mg is not above the level, 2,000 mg is not under the limit of the WHO, 3,510 mg of potassium is enough."""
    grams = {"2300": 2300, "2301": 2301, "1999": 1999, "2000": 2000, "3510": 3510, "3509": 3509}
    text = "".join(f'day "{name}" for adult man 30 {{ {amount} g mill groats }}\n' for name, amount in grams.items())
    days = days_of(tally, "comparisons", text)
    for name, wanted in (("2300", "kept"), ("2301", "broken")):
        found = outcome(days.get(name, {}), "sodium", DRI)
        tally.check(f"{name} mg against the level of 2300 mg", found == wanted, f"{found}")
    days = days_of(tally, "comparisons of the WHO", 'follow rules who\nrules who { title "made up" }\n' + text)
    for name, nutrient, wanted in (("1999", "sodium", "kept"), ("2000", "sodium", "broken"), ("3510", "potassium", "kept"), ("3509", "potassium", "broken")):
        found = outcome(days.get(name, {}), nutrient, WHO)
        tally.check(f"{name} mg {nutrient} against the WHO", found == wanted, f"{found}")


def check_rows_at_their_limits(tally):
    """Every row at its figures and 1 mg beside them: the level is not exceeded by itself, the adequate intake of potassium is
    enough, that of sodium is shown and never judged, and a day under it carries the caution."""
    rows = [(row[0], row[1][0], row[2], row[3], row[4]) for row in TABLE if row[3]]
    cases = [(f"{words} {age}, {what} {mg}", words, age, nutrient, mg, wanted) for words, age, adequate, most, potassium in rows
             for what, nutrient, mg, wanted in (("level", "sodium", most, "kept"), ("level", "sodium", most + 1, "broken"),
                                                ("potassium", "potassium", potassium, "kept"), ("potassium", "potassium", potassium - 1, "broken"),
                                                ("adequate", "low", adequate, False), ("adequate", "low", adequate - 1, True))]
    text = "".join(f'day "{name}" for {words} {age} {{ {mg} g mill groats }}\n' for name, words, age, _, mg, _ in cases)
    days = days_of(tally, "rows at their limits", text)
    for name, _, _, nutrient, _, wanted in cases:
        day = days.get(name, {})
        found = "low-intake" in [finding["code"] for finding in day.get("findings", [])] if nutrient == "low" else outcome(day, nutrient, DRI)
        tally.check(f"at its limit: {name} mg", day and found == wanted, f"{found}")
        sodium = [limit for limit in day.get("limits", []) if limit["nutrient"] == "sodium"]
        tally.check(f"only the level of sodium is judged: {name}", len(sodium) == 1 and "at_least" not in sodium[0], f"{sodium}")


def check_comparators(tally):
    """2,300 mg: not above the level, at most 2,300 mg (a heart association), not less than 2,300 mg (dietary guidelines). The same
    on average of a week whose days are 2,200 and 2,400 mg."""
    text = 'day "On the line" { 2300 g mill groats; limit sodium at most 2300 mg; limit sodium under 2300 mg }\n' \
           'week "On the line on average" { day "Under" { 2200 g mill groats }; day "Over" { 2400 g mill groats }\n' \
           'limit sodium at most 2300 mg; limit sodium under 2300 mg; limit sodium at most 100.05 mmol; limit sodium at most 100 mmol }\n'
    document = test.report_of(tally, "comparators", FOOD + text, (0, 1)) or {"days": [{}], "weeks": [{}]}
    held = [limit["outcome"] for limit in document["days"][0].get("limits", [])]
    tally.check("2300 mg at most and under 2300 mg", held == ["kept", "broken"], f"{held}")
    limits = document["weeks"][0].get("limits", [])
    held = [limit["outcome"] for limit in limits]
    tally.check("2300 mg on average; 2300 / 22.98977 = 100.04 mmol", held == ["kept", "broken", "kept", "broken"], f"{held}")
    furthest = [(limit["furthest_day"] or {}).get("day") for limit in limits]
    tally.check("the day of 2400 mg goes furthest", furthest == ["Over"] * 4, f"{furthest}")


def check_table_salt(tally):
    """Salt at the table: a quarter, a half, three quarters of a teaspoon are 575, 1,150 and 1,725 mg sodium (a heart association,
    second-hand), a teaspoon of 6.0 g 2,325 mg (SR 02047)."""
    spoons = [("1/4", 575), ("1/2", 1150), ("3/4", 1725), ("1", 2325)]
    days = days_of(tally, "table salt", "".join(f'day "{spoon}" {{ {spoon} tsp table salt }}\n' for spoon, _ in spoons))
    for spoon, mg in spoons:
        found = days.get(spoon, {}).get("per_day", {}).get("sodium") or {}
        tally.check(f"{spoon} tsp of table salt is about {mg} mg", found and found["low"] <= mg <= found["high"] and abs(found["best"] - mg) <= mg * 0.02, f"{found}")


def check_units(tally):
    """The sheet's arithmetic: 2,000 mg sodium and 3,510 mg potassium are 87.0 and 89.8 mmol, their ratio 0.969; 1,000 mg
    and 1,700.5 mg are a ratio of 1.000; 100 mmol sodium are 2,299 mg; 40 and 80 mmol are 919.6 and 1,839.2 mg."""
    pairs = [(2000, 3510, 0.969), (1000, 1700.5, 1.000)]
    text = "".join(f'food mill part{at} {{ group oats; per 100 g {{ sodium {sodium / 100:g} mg; potassium {potassium / 100:g} mg }}; source "made up" }}\n'
                   f'day "{at}" {{ 10000 g mill part{at}; limit sodium to potassium at most 1 by moles }}\n'
                   for at, (sodium, potassium, _) in enumerate(pairs))
    days = days_of(tally, "ratios by moles", text)
    for at, (sodium, potassium, wanted) in enumerate(pairs):
        value = days.get(str(at), {"limits": [{}]})["limits"][0].get("value") or {}
        tally.check(f"{sodium} mg to {potassium} mg by moles", abs(value.get("best", 0) - wanted) <= 0.0005, f"{value}")
    moles = [(100, 2299), (40, 919.6), (80, 1839.2), (90, None)]
    text = "".join(f'day "{mmol}" {{ 100 g mill groats; limit {"potassium" if not mg else "sodium"} at most {mmol} mmol }}\n' for mmol, mg in moles)
    days = days_of(tally, "mmol", text)
    for mmol, mg in moles:
        found = days.get(str(mmol), {"limits": [{}]})["limits"][0].get("at_most", {}).get("value", 0)
        mg = mg or 3519                     # 90 mmol potassium x 39.0983: 3,519 mg by formula, printed as 3,510
        tally.check(f"{mmol} mmol are {mg} mg", abs(found - mg) <= 0.5, f"{found}")


def check_practice(tally):
    """Common practice without source: a day's potassium goal lies between 2,500 and 4,500 mg."""
    days = days_of(tally, "practice", "".join(f'day "{who}" for {who} {{ 100 g mill groats }}\n' for who in ("adult man", "adult woman", "pregnant woman")))
    for name, day in days.items():
        least, most, _ = figures(day, DRI).get(("potassium", "adequate"), (0, 0, ""))
        tally.check(f"the potassium goal of {name}", 2500 <= least <= most <= 4500, f"{least} to {most}")


def check_days(tally):
    for part in (check_table, check_open, check_europe, check_united_kingdom, check_regions, check_comparisons, check_rows_at_their_limits, check_comparators, check_table_salt, check_units, check_practice):
        part(tally)
