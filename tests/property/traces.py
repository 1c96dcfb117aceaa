"""Any figure of a report is its trace, done again by hand: random recipes, baths and days; `run` runs them."""

import baths
import by_hand
import quern_test as test
from comparing import report, same

ENDS = ("low", "best", "high")
EXAMPLES = test.ROOT / "examples" / "millrace"
ROUNDS = 12                              # each is several runs
COLUMNS = ("sodium", "potassium", "energy", "water", "sodium from inherent", "sodium from maker-added", "sodium from cook-added", "sodium from unseparated")
ORIGINS = {"inherent": "inherent", "maker-added": "maker", "cook-added": "cook", "unseparated": "unseparated"}


def trace_of(files, name, column):
    """`files`: those of a kitchen, or the folder of one."""
    if files == EXAMPLES:
        status, out, err = test.run(["trace", name, column, "--kitchen", EXAMPLES, "--as", "json"])
    else:
        with test.kitchen({"kitchen.quern": 'kitchen "Trial"\nfollow rules us\n', **files}) as folder:
            status, out, err = test.run(["trace", name, column, "--as", "json"], folder)
    document, reason = test.parse(out)
    if document is None or status not in (0, 1):
        raise AssertionError(f"status {status}: {reason or err.decode(errors='replace')}")
    return document


def figure_of(amounts, column):
    nutrient, _, origin = column.partition(" from ")
    return amounts[nutrient]["origin"][ORIGINS[origin]] if origin else amounts[nutrient]


def faults_of(files, document, name, column):
    """What differs between a trace, the same by hand, and the report."""
    trace = trace_of(files, name, column)
    by_hands, faults = by_hand.redo(trace)
    faults += test.schema_faults(trace, "trace")
    told = [one for one in document["recipes"] + document["days"] if one["name"] == name][0]
    amounts = told.get("per_serving") or told.get("per_recipe") or told.get("per_day")
    if by_hands is not None and column != "weight":
        reported = figure_of(amounts, column)
        faults += [f"{column} of {name}: the report says {reported}, by hand {by_hands}" for end, ours in zip(ENDS, by_hands)
                   if reported[end] is not None and not same(reported[end], ours)]
    return faults


def make_promises(kitchen_files, pantry, lines):
    """The promises, for a maker of kitchens and one of lines."""

    def any_figure_is_its_trace(source):
        files = {f"f{at}.quern": text for at, text in enumerate(kitchen_files(source))}
        document = report(files)
        name = document["recipes"][-1]["name"]
        return [fault for column in source.sample(COLUMNS, 3) for fault in faults_of(files, document, name, column)]

    def any_figure_of_a_dish_is_its_trace(source):
        files = baths.random_recipe(source).files()
        document = report(files)
        return [fault for column in source.sample(COLUMNS[:5], 2)
                for fault in faults_of(files, document, document["recipes"][0]["name"], column)]

    def any_figure_of_a_day_is_its_trace(source):
        meals = "".join(f'    meal "M{at}" {{\n' + "".join(f"        {line}\n" for line in lines(source)) + "    }\n" for at in range(source.randint(1, 3)))
        files = {"a.quern": pantry + f'day "D" {{\n{meals}}}\n'}
        return faults_of(files, report(files), "D", source.choice(COLUMNS))

    def any_figure_of_the_examples_is_its_trace(source):
        status, out, _ = test.run(["report", "--as", "json", EXAMPLES])
        document = test.parse(out)[0]
        name = source.choice([one["name"] for one in document["recipes"] + document["days"]])
        return [fault for column in source.sample(COLUMNS + ("weight",), 2) for fault in faults_of(EXAMPLES, document, name, column)]

    return [any_figure_of_the_examples_is_its_trace, any_figure_is_its_trace, any_figure_of_a_dish_is_its_trace, any_figure_of_a_day_is_its_trace]
