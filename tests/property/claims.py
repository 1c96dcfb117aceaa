"""Promises about claims, tried on random recipes; `run` runs them."""

import quern_test as test

CLAIMS = ["sodium free", "very low sodium", "low sodium"]        # each within the next, as 21 CFR 101.61(b) defines them
RANK = {"refused": 0, "in doubt": 1, "proved": 2}
FOOD = ('food mill {} {{ group oats; per 100 g {{ energy 50 kcal; sodium {:.6g} mg ({:.6g} mg to {:.6g} mg) }}; '
        'source "made up" }}\n')


def could_claim(rules, sodium, spread, grams, makes, reference, kind):
    """Outcome by name of all that a dish of one food could claim."""
    text = FOOD.format("gruel", sodium, sodium * (1 - spread), sodium * (1 + spread))
    text += f'recipe "Dish" {{\n    serves 1\n    {grams} g mill gruel\n    reference amount {reference} g\n'
    text += (f"    makes {grams} g\n" if makes else "") + (f"    counts as {kind}\n" if kind else "") + "}\n"
    with test.kitchen({"kitchen.quern": f'kitchen "Trial"\nfollow rules {rules}\n', "a.quern": text}) as folder:
        _, out, err = test.run(["check", "--claims", "--as", "json", "."], folder)
    document, reason = test.parse(out)
    if document is None or len(document.get("claims", [])) != 1:
        raise AssertionError(reason or err.decode(errors="replace"))
    return {claim["name"]: claim["outcome"] for claim in document["claims"][0]["could_claim"] if claim["kind"] == "claim"}


def dish(random_source):
    kind = random_source.choice(["", "", "meal", "main dish"])
    return dict(rules="us", spread=random_source.choice([0, 0.02, 0.2]), grams=random_source.choice([15, 30, 85, 245, 300]),
                makes=random_source.random() < 0.8, reference=random_source.choice([5, 15, 30, 31, 50, 245]), kind=kind)


def claims_never_gain_by_sodium(random_source):
    """More sodium never makes a claim about little sodium surer."""
    one, faults = dish(random_source), []
    low, high = sorted(random_source.choice([0.5, 1, 2, 5, 10, 30, 40, 60, 100, 140, 200, 500]) * random_source.uniform(0.9, 1.1) for _ in range(2))
    less, more = could_claim(sodium=low, **one), could_claim(sodium=high, **one)
    for name in CLAIMS:
        if RANK[less[name]] < RANK[more[name]]:
            faults.append(f"{name}: {less[name]} at {low}, {more[name]} at {high}, {one}")
    return faults


def free_is_very_low_is_low(random_source):
    """Under 5 mg is at most 35 mg is at most 140 mg on the same basis: reference amounts of ordinary size that are the serving."""
    one = {**dish(random_source), "grams": 245, "reference": 245, "kind": ""}
    found = could_claim(sodium=random_source.choice([0.5, 2, 2.05, 10, 14.3, 40, 57.1, 57.2, 80]), **one)
    return [f"{a} {found[a]}, {b} {found[b]}" for a, b in zip(CLAIMS, CLAIMS[1:]) if RANK[found[a]] > RANK[found[b]]]


def an_unweighed_dish_proves_no_claim_by_weight(random_source):
    one = {**dish(random_source), "makes": False, "kind": random_source.choice(["meal", "main dish"])}
    found = could_claim(sodium=random_source.choice([0.5, 2, 10, 40, 60, 100]), **one)
    return [f"{name} is proved" for name in CLAIMS[1:] if found[name] == "proved"]


def a_food_compares_as_a_recipe_of_it(random_source):
    """A claim against a food, and against a weighed recipe of nothing but that food, come to the same; more sodium in what is compared
    never makes less of a claim."""
    before, grams = random_source.uniform(150, 800), random_source.choice([30, 100, 245])
    after = before * random_source.choice([0.4, 0.5, 0.7, 0.75, 0.76, 0.9, 1.2])
    text = FOOD.format("gruel", after, after, after * 1.05) + FOOD.format("porridge", before, before * 0.98, before)
    text += FOOD.format("pudding", before * 1.2, before * 1.2 * 0.98, before * 1.2)
    text += f'recipe "Other" {{ serves 1; makes {grams} g; {grams} g mill porridge }}\n'
    text += f'recipe "Dish" {{\n    serves 1\n    makes {grams} g\n    reference amount {grams} g\n    {grams} g mill gruel\n'
    text += "".join(f'    claim "reduced sodium", compared to {other}\n' for other in ("mill porridge", '"Other"', "mill pudding")) + "}\n"
    with test.kitchen({"a.quern": text}) as folder:
        _, out, err = test.run(["report", "--as", "json", "a.quern"], folder)
    document, reason = test.parse(out)
    if document is None:
        raise AssertionError(reason or err.decode(errors="replace"))
    found = [claim["outcome"] for claim in test.recipe_named(document, "Dish")["claims"] if claim["kind"] == "claim"]
    faults = [] if found[0] == found[1] else [f"{found[0]} against the food, {found[1]} against the recipe: {before}, {after}, {grams}"]
    return faults + ([] if RANK[found[2]] >= RANK[found[0]] else [f"{found[2]} against more, {found[0]} against less: {before}, {after}, {grams}"])


PROMISES = [a_food_compares_as_a_recipe_of_it, claims_never_gain_by_sodium, free_is_very_low_is_low, an_unweighed_dish_proves_no_claim_by_weight]
