"""Promises about parts of a recipe as wholes, and about where the sodium of a bath comes from; `run` runs them."""

import baths
from comparing import report, same

FOODS = ("400 g potatoes", "300 g carrots", "250 g chicken breast", "200 g kale", "100 g spaghetti", "150 g cheddar cheese",
         "1 tsp table salt", "2 tbsp olive oil", "1 cup whole milk", "1 can (15 oz) chickpeas", "200 g pork tenderloin")
DONE = ("boiled", "roasted", "steamed", "fried", "simmered", "chopped", "boiled, mashed", "grilled", "baked")
ENDS = ("low", "best", "high")


def figures(text):
    """What the one recipe of a text holds, when no error speaks of it; else None."""
    document = report({"a.quern": text})
    if any(one["severity"] == "error" for one in document["findings"]):
        return None
    return document["recipes"][0]["per_recipe"]


def differences(ours, others, left_out=()):
    return [f"{nutrient} {end}: {ours[nutrient][end]} and {others[nutrient][end]}"
            for nutrient in ours if nutrient not in left_out for end in ENDS
            if not same(ours[nutrient][end], others[nutrient][end])]


def recipe_of(body):
    return f'recipe "A" {{\n    serves 4\n{body}}}\n'


def what_is_done_to_a_part_is_done_to_each_line(source):
    lines = source.sample(FOODS, source.randint(1, 5))
    done = source.choice(DONE)
    part = recipe_of('    part "P" {\n' + "".join(f"        {line}\n" for line in lines) + f"    }}, {done}\n")
    each = recipe_of("".join(f"    {line}, {done}\n" for line in lines))
    ours, others = figures(part), figures(each)
    if ours is None or others is None:
        return [] if ours is None and others is None else [f"only one of the two has an error: {lines}, {done}"]
    return differences(ours, others)


def what_boils_away_is_water(source):
    lines = source.sample(FOODS, source.randint(1, 5))
    share = source.randint(5, 30)
    body = "".join(f"        {line}\n" for line in lines)
    ours = figures(recipe_of(f'    part "P" {{\n{body}    }}\n'))
    others = figures(recipe_of(f'    part "P" {{\n{body}    }}, reduced by {share}%\n'))
    if ours is None or others is None:
        return []                       # oil that is to boil away is an error, and rightly
    faults = differences(ours, others, left_out=("water",))
    if others["water"]["best"] is not None and not others["water"]["best"] < ours["water"]["best"]:
        faults.append(f"water {others['water']['best']} after {ours['water']['best']}")
    return faults


def origin_faults(where, sodium):
    """At each end the four origins sum to the whole."""
    faults = []
    for end in ENDS:
        parts = [sodium["origin"][origin][end] for origin in sodium["origin"]]
        if sodium[end] is not None and not same(sum(parts), sodium[end]):
            faults.append(f"{where} {end}: {sum(parts)}, of {sodium[end]}")
    return faults


def origins_of_what_a_bath_gives_sum_to_the_total(source):
    whole = baths.random_recipe(source, keeping=False).report()["recipes"][0]
    faults = origin_faults("recipe", whole["per_recipe"]["sodium"])
    for bath in whole["baths"]:
        for part in ("went_in", "left", "kept", "discarded"):
            faults += origin_faults(f"{bath['name']} {part}", bath[part]["sodium"])
    return faults


PROMISES = [what_is_done_to_a_part_is_done_to_each_line, what_boils_away_is_water, origins_of_what_a_bath_gives_sum_to_the_total]
