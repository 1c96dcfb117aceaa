"""What the whole-command tests share: running the program, checking its JSON, counting, comparing.

A check is one promise. `Tally` counts checks, prints a line for each that fails, and fails when it counted none.
"""

import copy
import json
import os
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

try:
    import jsonschema
except ImportError:
    sys.exit("these tests need the Python module jsonschema (on Debian: python3-jsonschema)")

ROOT = Path(__file__).resolve().parents[2]
SCHEMAS = ROOT / "docs" / "schema"
RELATIVE = 1e-6          # numbers that agree this closely are the same
SECONDS = 180            # no command of these tests may take longer, with sanitizers on a busy machine


class Tally:
    """Counts passed, failed and skipped checks."""

    def __init__(self):
        self.passed = self.failed = self.skipped = 0
        self.lock = threading.Lock()        # cases run beside each other

    def check(self, name, good, detail=""):
        with self.lock:
            if good:
                self.passed += 1
            else:
                self.failed += 1
                print(f"FAILED {name}: {detail}" if detail else f"FAILED {name}")
        return good

    def skip(self, name, why):
        with self.lock:
            self.skipped += 1
        print(f"skipped {name}: {why}")

    def finish(self):
        """Prints the count; the status is 0 only if something passed and nothing failed."""
        if self.skipped:
            print(f"{self.skipped} skipped")
        print(f"{self.passed} passed, {self.failed} failed")
        return 0 if self.passed and not self.failed else 1


# --- running ---

def program():
    return str(Path(os.environ.get("QUERN", ROOT / "build" / "quern")).resolve())


def require_program():
    if not os.access(program(), os.X_OK):
        sys.exit(f"no program to test at {program()}: build it, or say where with QUERN=path")


def run(arguments, folder=None, stdin=b""):
    """Runs the program; gives status, output bytes, error bytes. A hang is told as status 124."""
    try:
        done = subprocess.run([program(), *map(str, arguments)], cwd=folder, input=stdin,
                              capture_output=True, timeout=SECONDS)
    except subprocess.TimeoutExpired:
        return 124, b"", b"took too long"
    return done.returncode, done.stdout, done.stderr


def kitchen(files):
    """A temporary folder that holds `files` (name -> text). Use with `with`."""
    holder = tempfile.TemporaryDirectory(prefix="quern-test-")
    for name, text in files.items():
        path = Path(holder.name, name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return holder


# --- JSON ---

def no_constant(word):
    raise ValueError(f"{word} is no JSON number")


def parse(output):
    """The JSON document in `output`, or None and the reason."""
    try:
        return json.loads(output.decode("utf-8"), parse_constant=no_constant), ""
    except ValueError as reason:
        return None, f"not JSON: {reason}; it begins {output[:120]!r}"


def strict(schema):
    """A copy of the schema in which every object with named fields admits no other field."""
    if isinstance(schema, list):
        return [strict(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    made = {key: strict(value) for key, value in schema.items()}
    if isinstance(schema.get("properties"), dict) and "type" in schema:
        made.setdefault("additionalProperties", False)
    return made


def validator(kind):
    """A checker of documents of one kind: that of a schema of its own (`lookup`, `salts`), else `report` or `check`."""
    file = SCHEMAS / f"{kind}-2.json"
    file = file if file.exists() else SCHEMAS / "report-2.json"
    schema = strict(json.loads(file.read_text(encoding="utf-8")))
    whole = copy.deepcopy(schema)
    whole.pop("anyOf", None)
    whole["$ref"] = f"#/$defs/{kind}"
    jsonschema.Draft202012Validator.check_schema(whole)
    return jsonschema.Draft202012Validator(whole)


def deepest(fault):
    """Of the reasons why no branch of an `anyOf` fits, the one that lies deepest in the document."""
    while fault.context:
        fault = max(fault.context, key=lambda part: len(part.absolute_path))
    return fault


_validators = {}


def schema_faults(document, kind):
    """What in `document` the strict schema does not allow; at most three sentences."""
    if kind not in _validators:
        _validators[kind] = validator(kind)
    faults = map(deepest, _validators[kind].iter_errors(document))
    return [f"{'/'.join(map(str, fault.absolute_path)) or 'document'}: {fault.message[:200]}"
            for fault, _ in zip(faults, range(3))]


def json_of(tally, name, kind, arguments, folder=None, stdin=b""):
    """Runs a command whose output is JSON, checks it against the schema; gives the document (or None) and status."""
    status, out, err = run(arguments, folder, stdin)
    document, reason = parse(out)
    if not tally.check(f"{name} gives JSON", document is not None, f"{reason}; status {status}; {err[:200]!r}"):
        return None, status
    faults = schema_faults(document, kind)
    tally.check(f"{name} fits the schema", not faults, "; ".join(faults))
    return document, status


def report_of(tally, name, text, wanted_status=(0, 1)):
    """The JSON report of one recipe file that holds `text`; None if there is none."""
    with kitchen({"case.quern": text}) as folder:
        document, status = json_of(tally, name, "report", ["report", "--as", "json", "case.quern"], folder)
    if document is not None:
        tally.check(f"{name} ends well", status in wanted_status, f"status {status}, wanted {wanted_status}")
    return document


def recipe_named(document, name):
    for recipe in (document or {}).get("recipes", []):
        if recipe["name"] == name:
            return recipe
    return None


# --- comparing ---

def is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def same_number(wanted, found, relative=RELATIVE):
    return is_number(found) and abs(wanted - found) <= max(relative * abs(wanted), 1e-9)


def range_differs(wanted, found, relative=RELATIVE):
    """Empty if the range `found` has the wanted low, best and high (those that are named); else the difference."""
    if not isinstance(found, dict):
        return f"wanted a range, found {found!r}"
    wrong = [f"{key} {found.get(key)!r}, wanted {value!r}" for key, value in wanted.items()
             if not (found.get(key) is None if value is None else same_number(value, found.get(key), relative))]
    return "; ".join(wrong)


def check_range(tally, name, wanted, found, relative=RELATIVE):
    difference = range_differs(wanted, found, relative)
    return tally.check(name, not difference, difference)


def contains(found, value):
    return isinstance(found, dict) and is_number(found.get("low")) and is_number(found.get("high")) \
        and found["low"] <= value <= found["high"]
