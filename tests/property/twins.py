"""Promises about recipes beside each other (`quern compare`) and about what brings most (`quern rank`); `run` runs them."""

import random
import re

import quern_test as test
from comparing import at_most, report, same

RANGE = re.compile(r"(\d[\d.]*) (mg|g|%) \((\d[\d.]*) \2 to (\d[\d.]*) \2\)|(\d[\d.]*)(%) \((\d[\d.]*)% to (\d[\d.]*)%\)")


def asked(command, text, *arguments):
    """The JSON of a command about a kitchen of one file."""
    with test.kitchen({"kitchen.quern": 'kitchen "Trial"\nfollow rules us\n', "a.quern": text}) as folder:
        status, out, err = test.run([command, *arguments, "--as", "json"], folder)
    document, reason = test.parse(out)
    if document is None or status not in (0, 1):
        raise AssertionError(f"status {status}: {reason or err.decode(errors='replace')}")
    faults = test.schema_faults(document, command)
    if faults:
        raise AssertionError("; ".join(faults))
    return document


def differences(document):
    """(nutrient, share, difference) of all that was compared."""
    return [(one["nutrient"], share, one[share]["difference"]) for one in document["nutrients"]
            for share in ("per_serving", "per_100_g", "per_100_ml") if one[share]]


# --- worlds: each amount that may be anything between two ends is one number in each of them ---

def between(random_source, low, high):
    return random_source.choice([low, high, random_source.uniform(low, high)])


def one_world(random_source, text):
    """The text with a number for each range of it."""
    def chosen(found):
        groups = [group for group in found.groups() if group]
        value = between(random_source, float(groups[2]), float(groups[3]))
        return f"{value:.9f}%" if groups[1] == "%" else f"{value:.9f} {groups[1]}"
    return RANGE.sub(chosen, text)


def shaky_line(random_source):
    """A line with ranges, and a function that gives it in one world."""
    low, wide = random_source.randint(1, 5), random_source.randint(0, 3)
    much = f"{low} to {low + wide}" if wide else str(low)
    food, ending = random_source.choice([("cups mill groats", ""), ("cups mill leaves", ""), ("tsp mill paste", ""), ("tsp mill crystals", ""),
                                         ("g mill crystals", ""), ("cans mill beans", ", mill poured"), ("cups mill groats", ", kept 20% to 60%"),
                                         ("tsp mill crystals", ", optional")])

    def in_world(chance):
        value = between(chance, low, low + wide)
        if ending == ", optional":
            return f"{value * chance.choice([0, 1]):.9f} {food}"
        kept = f", kept {between(chance, 20, 60):.9f}%" if "kept" in ending else ending
        return f"{value:.9f} {food}{kept}"
    return f"{much} {food}{ending}", in_world


def shaky_recipe(name, servings, lines, makes=""):
    return f'recipe "{name}" {{\n    serves {servings}\n    {makes}\n' + "".join(f"    {line}\n" for line in lines) + "}\n"


def make_promises(pantry, lines, recipe):
    """Promises over the kitchen that `run` makes its recipes of."""

    def nothing_differs_from_itself(random_source):
        body = lines(random_source)
        document = asked("compare", pantry + recipe("A", "4 to 6", body), "A", "a")
        faults = [f"{nutrient} {share}: {found}" for nutrient, share, found in differences(document)
                  if (found["low"], found["best"], found["high"], found["outcome"]) != (0, 0, 0, "none")]
        return faults + [f"{line['first']}: {line['difference']}" for line in document["lines"] if not line["same"] or line["difference"]["outcome"] != "none"]

    def turned_round_a_difference_changes_its_sign(random_source):
        body = lines(random_source)
        text = pantry + recipe("A", "2", body + lines(random_source)) + recipe("B", "2 to 3", lines(random_source) + body)
        one, other = asked("compare", text, "A", "B"), asked("compare", text, "B", "A")
        turned = {"more": "less", "less": "more"}
        faults = []
        for (nutrient, share, ours), (_, _, theirs) in zip(differences(one), differences(other), strict=True):
            ends = zip((ours["low"], ours["best"], ours["high"]), (theirs["high"], theirs["best"], theirs["low"]))
            if any((a is None) != (b is None) or (a is not None and not same(a, -b)) for a, b in ends) \
                    or turned.get(ours["outcome"], ours["outcome"]) != theirs["outcome"]:
                faults.append(f"{nutrient} {share}: {ours} and {theirs}")
        return faults

    def a_difference_holds_every_world(random_source):
        """Where each range is one number, the true difference lies within what was told before."""
        own = [[shaky_line(random_source) for _ in range(random_source.randint(0, 3))] for _ in range(2)]
        both = [shaky_line(random_source) for _ in range(random_source.randint(1, 4))]
        makes = random_source.choice(["", "makes 900 g"])
        servings = random_source.choice([("4", "4"), ("2", "5"), ("2 to 4", "3")])
        texts = [[line for line, _ in each + both] for each in own]
        told = asked("compare", pantry + "".join(shaky_recipe(name, many, body, makes) for name, many, body in zip("AB", servings, texts)), "A", "B")
        chance = random.Random(random_source.random())
        whole, real_lines = one_world(chance, pantry), {}
        for line, in_world in own[0] + own[1] + both:
            real_lines.setdefault(line, in_world(chance))               # what says the same holds the same
        true = [shaky_recipe(name, f"{between(chance, *(float(end) for end in (many.split(' to ') * 2)[:2])):.9f}",
                             [real_lines[line] for line in body], makes) for name, many, body in zip("AB", servings, texts)]
        found = {one["name"]: one for one in report({"a.quern": whole + "".join(true)})["recipes"]}
        faults = []
        for nutrient, share, difference in differences(told):
            ours, theirs = (found[name][share][nutrient] for name in "AB")
            if not (ours["complete"] and theirs["complete"]):
                continue
            real = theirs["best"] - ours["best"]
            slack = 1e-6 * max(1, abs(ours["best"]), abs(theirs["best"]))
            if (difference["low"] is not None and real < difference["low"] - slack) or (difference["high"] is not None and real > difference["high"] + slack):
                faults.append(f"{nutrient} {share}: {real} is outside {difference}")
        return faults

    def lines_sum_to_the_difference(random_source):
        body = lines(random_source)
        text = pantry + recipe("A", "2", body + lines(random_source)) + recipe("B", "3", lines(random_source) + body)
        document = asked("compare", text, "A", "B")
        whole = {one["nutrient"]: one for one in document["nutrients"]}[document["lines_are_of"]]["per_serving"]["difference"]
        bests = [line["difference"]["best"] for line in document["lines"]]
        if whole["best"] is None or None in bests:
            return []
        return [] if abs(sum(bests) - whole["best"]) <= 1e-6 * max(1, abs(whole["best"])) else [f"{sum(bests)} and {whole['best']}"]

    def what_is_ranked_sums_to_the_whole(random_source):
        names, text = [], pantry
        for name in "ABCDE":
            inner = [f'{random_source.randint(1, 3)} servings "{other}"' for other in random_source.sample(names, min(len(names), 2))]
            text += recipe(name, random_source.choice(["2", "4 to 6"]), lines(random_source) + inner)
            names.append(name)
        ranked, told = asked("rank", text, "--limit", "1000", "a.quern"), report({"a.quern": text})
        inside = {other for line in re.findall(r'servings "(\w)"', text) for other in line}
        dishes = [one for one in told["recipes"] if one["name"] not in inside]
        faults = [] if ranked["recipes"] == len(dishes) else [f"{ranked['recipes']} dishes, wanted {len(dishes)}"]
        for end in ("low", "best", "high"):
            wanted = [one["per_recipe"]["sodium"][end] for one in dishes], [one["per_serving"]["sodium"][end] for one in dishes]
            for key, ends in zip(("total", "per_serving"), wanted):
                given = ranked[key][end]
                if given is not None and not same(given, sum(ends)):
                    faults.append(f"{key}/{end}: {given}, wanted {sum(ends)}")
                foods, brought = ([one[key][end] for one in ranked[what]] for what in ("foods", "lines"))
                if given is not None and None not in foods and not (same(sum(foods), given) and same(sum(brought), given)):
                    faults.append(f"{key}/{end}: foods {sum(foods)}, lines {sum(brought)}, whole {given}")
        together = [one["together"] for one in ranked["foods"]]
        if together and ranked["total"]["best"] and not same(together[-1], 1):
            faults.append(f"shares end at {together[-1]}")
        order = [one["total"]["best"] for one in ranked["foods"] if one["total"]["best"] is not None]
        return faults + ([] if all(at_most(b, a) for a, b in zip(order, order[1:])) else ["not in order"])

    return [nothing_differs_from_itself, turned_round_a_difference_changes_its_sign, a_difference_holds_every_world,
            lines_sum_to_the_difference, what_is_ranked_sums_to_the_whole]
