"""What the property tests share: a kitchen's JSON report, its ranges, and whether two of them are the same."""

import math
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
import quern_test as test

NOISE = 1e-9


def report(files, *options):
    """The JSON report of a kitchen of files; None where there is none."""
    with test.kitchen({"kitchen.quern": 'kitchen "Trial"\nfollow rules us\n', **files}) as folder:
        status, out, err = test.run(["report", "--as", "json", *options, "."], folder)
    document, reason = test.parse(out)
    if document is None or status not in (0, 1):
        raise AssertionError(f"status {status}: {reason or err.decode(errors='replace')}")
    return document


def ranges(value, path=""):
    """(path, range) of every range of a document."""
    if isinstance(value, dict):
        if {"low", "best", "high"} <= value.keys():
            yield path, value
        for key, inner in value.items():
            yield from ranges(inner, f"{path}/{key}")
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            yield from ranges(inner, f"{path}/{at}")


def same(one, other):
    if one is None or other is None:
        return one is other
    return math.isclose(one, other, rel_tol=NOISE, abs_tol=NOISE)


def at_most(one, other):
    """Whether one number is at most the other, noise aside."""
    return one <= other * (1 + NOISE) + NOISE


def order_fault(found):
    """What is wrong with the ends of a range, or an empty text."""
    low, best, high = found["low"], found["best"], found["high"]
    if low is None or low < 0:
        return f"low is {low}"
    if best is not None and not at_most(low, best):
        return f"low {low}, best {best}"
    if best is not None and high is not None and not at_most(best, high):
        return f"best {best}, high {high}"
    if "complete" in found and found["complete"] != (best is not None and high is not None):
        return f"complete is {found['complete']}, best {best}, high {high}"
    return ""
