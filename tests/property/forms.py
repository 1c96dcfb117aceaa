"""Promises about the forms of a report: each tells the same figures as the JSON, in its own way. `run` runs them."""

import csv
import io
import json

import quern_test as test
from comparing import same

ENDS = ("low", "best", "high")


def figure(cell):
    return None if cell == "unknown" else float(cell)


def told(files, form, *options):
    with test.kitchen({"kitchen.quern": 'kitchen "Trial"\nfollow rules us\n', **files}) as folder:
        status, out, err = test.run(["report", "--as", form, *options, "."], folder)
    assert status in (0, 1), f"status {status}: {err.decode(errors='replace')}"
    return out.decode("utf-8")


def rows_of(text):
    """The rows of a CSV text that is as RFC 4180 has it: each ends in CR and LF, and has as many cells as the head."""
    assert text.replace("\r\n", "").count("\n") == 0 or '"' in text, "a row that does not end in CR and LF"
    rows = list(csv.DictReader(io.StringIO(text, newline=""), strict=True))
    assert all(None not in row and None not in row.values() for row in rows), "a row with too few or too many cells"
    return rows


def differs(where, row, prefix, wanted):
    """Faults of three cells against a range of the JSON, whose best and high are null where the sum is incomplete."""
    faults = []
    for end in ENDS:
        cell = row[f"{prefix}_{end}"]
        wrong = cell != "unknown" if wanted is None else not same(figure(cell), wanted[end])
        if wrong:
            faults.append(f"{where} {prefix} {end}: {cell}, JSON has {wanted and wanted[end]}")
    return faults


def amounts_differ(rows, recipe):
    faults = []
    kinds = {"per_serving": recipe["per_serving"], "per_100_g": recipe["per_100_g"], "in_all": recipe["per_recipe"]}
    for key, whole in recipe["per_recipe"].items():
        for origin in ["", *whole.get("origin", {})]:
            found = [row for row in rows if row["kind"] == "recipe" and row["name"] == recipe["name"]
                     and row["nutrient"] == key and row["origin"] == origin]
            if len(found) != 1:
                return [f"{recipe['name']}: {len(found)} rows of {key} {origin}"]
            for prefix, amounts in kinds.items():
                wanted = amounts and (amounts[key]["origin"][origin] if origin else amounts[key])
                faults += differs(f"{recipe['name']} {key} {origin}", found[0], prefix, wanted)
    return faults


def lines_differ(rows, recipe):
    found = [row for row in rows if row["kind"] == "recipe" and row["name"] == recipe["name"]]
    if len(found) != len(recipe["lines"]):
        return [f"{recipe['name']}: {len(found)} rows of {len(recipe['lines'])} lines"]
    faults = []
    for row, line in zip(found, recipe["lines"]):
        if row["text"].removeprefix("'") != line["text"] or int(row["line"]) != line["line"]:
            faults.append(f"{row['text']} stands where {line['text']} was")
        faults += differs(line["text"], row, "sodium_mg", line["sodium"] if line["sodium"]["best"] is not None else None)
        faults += differs(line["text"], row, "g_in_the_dish", line["grams_after"])
    return faults


def make_promises(pantry, lines, recipe):
    def csv_and_json_tell_the_same(source):
        files = {"pantry.quern": pantry, "one.quern": recipe("One", source.randint(1, 6), lines(source)), "two.quern": recipe("Two", source.randint(1, 6), lines(source))}
        document = json.loads(told(files, "json"))
        by_nutrient, by_line = rows_of(told(files, "csv")), rows_of(told(files, "csv", "--lines"))
        return [fault for one in document["recipes"] for fault in amounts_differ(by_nutrient, one) + lines_differ(by_line, one)]

    return [csv_and_json_tell_the_same]
