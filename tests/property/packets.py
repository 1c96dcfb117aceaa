"""Promises about packets, tried on random labels; `run` runs them. What a label may print is worked out here, from the
bands of 21 CFR 101.9(c) and (d)(7)(ii), in whole steps of its own."""

import math

import quern_test as test
from comparing import NOISE, at_most, order_fault, report

DAYS = {"sodium": 2300, "fat": 78, "carbohydrate": 275}
WORDS = ["water", "wheat flour (wheat, niacin)", "Sugar", "vegetable oil (palm, canola)", "2% or less of: yeast", "garlic", "unsalted butter"]
SALTS = {"salt": "salts", "Sea Salt": "salts", "potassium chloride": "potassium compounds", "E 508": "potassium compounds",
         "disodium phosphate": "phosphates", "sodium bicarbonate": "sodium compounds", "monosodium glutamate": "sodium compounds"}


def half_up(amount, step):
    return math.floor(amount / step + 0.5 + 1e-12) * step


def printed(nutrient, amount):
    """How a label prints so much of it."""
    if nutrient == "sodium":
        return 0 if amount < 5 else half_up(amount, 5 if amount <= 140 else 10)
    if nutrient == "fat":
        return 0 if amount < 0.5 else half_up(amount, 0.5 if amount < 5 else 1)
    if nutrient == "energy":
        return half_up(amount, 5 if amount <= 50 else 10)
    return half_up(amount, 1) if amount >= 1 else 0 if amount < 0.5 else 1


def some_amount(random_source, nutrient):
    return random_source.uniform(0, random_source.choice([8, 160, 3000] if nutrient == "sodium" else [2, 8, 70]))


def packet(figures, more="", name="Packet"):
    return f'label "{name}" {{\n    serving 1 cup (240 g)\n' + "".join(f"    {figure}\n" for figure in figures) + f"    {more}\n}}\n"


def eaten(name="Packet"):
    return f'recipe "Eaten {name}" {{\n    serves 1\n    1 serving "{name}"\n}}\n'


def codes_of(text):
    with test.kitchen({"packets.quern": text}) as folder:
        _, out, _ = test.run(["check", "--as", "json", "."], folder)
    document, reason = test.parse(out)
    if document is None:
        raise AssertionError(reason)
    return [finding["code"] for finding in document["findings"]]


def a_lawful_label_is_never_told_off(random_source):
    """Any amount, rounded for print, beside any percent that the rule allows; and energy by 9, 4 and 4."""
    amounts = {nutrient: some_amount(random_source, nutrient) for nutrient in DAYS}
    amounts["protein"] = some_amount(random_source, "protein")
    fibre = random_source.uniform(0, amounts["carbohydrate"])
    energy = 9 * amounts["fat"] + 4 * (amounts["carbohydrate"] - fibre + amounts["protein"]) + fibre * random_source.uniform(0, 4)
    figures = [f"energy {printed('energy', energy):g} kcal", f"fibre {printed('fibre', fibre):g} g", f"protein {printed('protein', amounts['protein']):g} g"]
    for nutrient, day in DAYS.items():
        shown = printed(nutrient, amounts[nutrient])
        percent = half_up(100 * random_source.choice([shown, amounts[nutrient]]) / day, 1)
        written = random_source.choice([f"{percent:g}%", f"({percent:g}%)"])
        figures.append(f"{nutrient} {shown:g} {'mg' if nutrient == 'sodium' else 'g'} {written}")
    found = codes_of(packet(figures))
    return [f"{found}: {figures} of {amounts}, fibre {fibre}, energy {energy}"] if found else []


def a_percent_far_off_is_told(random_source):
    """A printed amount, and a percent that is two points or more from every lawful one."""
    shown = printed("sodium", random_source.uniform(20, 3000))
    lawful = 100 * shown / DAYS["sodium"]
    percent = max(0, round(lawful) + random_source.choice([-1, 1]) * random_source.randint(3, 40))
    found = codes_of(packet([f"sodium {shown:g} mg {percent}%"]))
    return [] if abs(percent - lawful) < 2 or found == ["label-percent"] else [f"{found} of sodium {shown:g} mg {percent}%"]


def labels_of(random_source, tolerance):
    """Packets with ever more sodium and potassium, and the report of what one serving of each holds."""
    shown = sorted({printed("sodium", some_amount(random_source, "sodium")) for _ in range(5)})
    text = "".join(packet([f"sodium {much:g} mg", f"potassium {10 * round(much / 7):g} mg"], name=f"P{at}") + eaten(f"P{at}") for at, much in enumerate(shown))
    rule = 'follow "Law"\npolicy "Law" { tolerance legal }\n' if tolerance else ""
    return shown, report({"kitchen.quern": f'kitchen "Trial"\nfollow rules us\n{rule}', "a.quern": text})["recipes"]


def tolerance_only_widens(random_source):
    state = random_source.getstate()
    _, plain = labels_of(random_source, False)
    random_source.setstate(state)
    shown, wide = labels_of(random_source, True)
    faults = []
    for much, before, after in zip(shown, plain, wide):
        for nutrient in ("sodium", "potassium"):
            old, new = before["per_serving"][nutrient], after["per_serving"][nutrient]
            by_law, by_rounding = (after["packets"][0]["per_serving"][nutrient][key] for key in ("by_law", "by_rounding"))
            if not at_most(new["low"], old["low"]) or (new["high"] is not None and not at_most(old["high"], new["high"])):
                faults.append(f"{nutrient} {much}: {old} became {new}")
            if any(by_rounding[end] != before["packets"][0]["per_serving"][nutrient]["by_rounding"][end] for end in ("low", "best", "high")):
                faults.append(f"{nutrient} {much}: the rounding changed to {by_rounding}")
            if by_law["low"] != new["low"] or by_law["high"] != new["high"]:
                faults.append(f"{nutrient} {much}: told apart {by_law}, used {new}")
            if order_fault(by_law):
                faults.append(order_fault(by_law))
    return faults


def more_in_print_is_never_less(random_source):
    faults = []
    for tolerance in (False, True):
        shown, recipes = labels_of(random_source, tolerance)
        figures = [recipe["per_serving"]["sodium"] for recipe in recipes]
        for much, found in zip(shown, figures):
            if not at_most(found["low"], much) or not at_most(much, found["high"]) or abs(found["best"] - much) > NOISE * (1 + much):
                faults.append(f"sodium {much} printed is {found}")
        for one, other in zip(figures, figures[1:]):
            if any(not at_most(one[end], other[end]) for end in ("low", "best", "high")):
                faults.append(f"{one} before {other}")
    return faults


def what_a_packet_lists_is_found_wherever_it_stands(random_source):
    """Among harmless words, nested or not, in any case; and harmless words alone give nothing."""
    harmless = random_source.sample(WORDS, random_source.randint(1, len(WORDS)))
    salts = random_source.sample(sorted(SALTS), random_source.randint(0, 3))
    items = harmless + [random_source.choice([salt, salt.upper(), f"spices (pepper, {salt})", f"Seasoning [onion ({salt})]"]) for salt in salts]
    random_source.shuffle(items)
    text = random_source.choice([", ", "; "]).join(items) + random_source.choice(["", "."])
    recipe = report({"a.quern": packet(["sodium 200 mg"], f'ingredients "{text}"') + eaten()})["recipes"][0]
    found = {(one["text"].lower(), one["kind"]) for one in recipe["packets"][0]["lists"]}
    missing = [salt for salt in salts if (salt.lower(), SALTS[salt]) not in found]
    extra = [one for one in found if one[0] not in {salt.lower() for salt in salts}]
    needs = any(SALTS[salt] == "potassium compounds" for salt in salts)
    told = any("because" in caution for caution in recipe["cautions"])
    return [f"{text}: missing {missing}, extra {extra}"] if missing or extra else [f"{text}: caution {told}"] if told != needs else []


PROMISES = [a_lawful_label_is_never_told_off, a_percent_far_off_is_told, tolerance_only_widens, more_in_print_is_never_less,
            what_a_packet_lists_is_found_wherever_it_stands]
