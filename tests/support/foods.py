"""Reads the food declarations of stdlib/ and the published tables that their figures come from.

This is a second, independent reader: it knows only the regular form in which the library is written.
"""

import csv
import functools
import os
import re
from pathlib import Path

import quern_test as test

FOODS = test.ROOT / "stdlib" / "foods"
SHARED = Path(os.environ.get("QUERN_SHARED", test.ROOT / ".." / "shared"))

# nutrient of the library -> column of the published table; a column's ending is its unit
COLUMNS = {
    "energy": "energy_kcal", "protein": "protein_g", "fat": "fat_g", "saturated fat": "sat_fat_g",
    "monounsaturated fat": "mono_fat_g", "polyunsaturated fat": "poly_fat_g", "trans fat": "trans_fat_g",
    "cholesterol": "cholesterol_mg", "carbohydrate": "carbohydrate_g", "fibre": "fibre_g", "sugars": "sugars_g",
    "water": "water_g", "alcohol": "alcohol_g", "sodium": "sodium_mg", "potassium": "potassium_mg",
    "calcium": "calcium_mg", "iron": "iron_mg", "magnesium": "magnesium_mg", "phosphorus": "phosphorus_mg",
    "zinc": "zinc_mg", "copper": "copper_mg", "selenium": "selenium_ug", "vitamin a": "vit_a_rae_ug",
    "vitamin c": "vit_c_mg", "vitamin d": "vit_d_ug", "vitamin e": "vit_e_mg", "vitamin k": "vit_k_ug",
    "thiamin": "thiamin_mg", "riboflavin": "riboflavin_mg", "niacin": "niacin_mg", "vitamin b6": "vit_b6_mg",
    "vitamin b12": "vit_b12_ug", "folate": "folate_dfe_ug", "choline": "choline_mg",
}
UNITS = {"mg": "mg", "g": "g", "kcal": "kcal", "µg": "ug", "ug": "ug", "μg": "ug"}


class Food:
    """One food of the library. Figures are {nutrient: (number, unit)}, portions [(words, text without remark)];
    `ranges` is {nutrient: (low, high)} of those that have a range, `recalled` the nutrients whose figure is from memory; `measured` is {nutrient: {words: number}}, `inherent` (best, low, high, source) or None."""

    def __init__(self, name, body, file, line=0):
        self.name, self.file, self.line, self.body = name, file, line, body
        self.names = [name, *(alias.strip() for row in re.findall(r"^ +also ([^\n;#]+)", body, re.M)
                              for alias in row.split(","))]
        self.figures = figures_of(body)
        self.ranges = ranges_of(body)
        self.weights = [Portion(*found) for found in PORTION.findall(body)]
        self.portions = [(portion.words, portion.text) for portion in self.weights]
        self.group = self.word("group")
        self.source = (re.findall(r'^\s*source "([^"]*)"', body, re.M) or [""])[0]
        self.ndb = ndb_number(self.source)
        self.recalled = recalled_in(self.source)
        self.refuse, self.refuse_source = (re.findall(r'^ +refuse ([\d.]+)%[^"\n]*(?:"([^"]*)")?', body, re.M) or [(None, "")])[0]
        self.measured = {nutrient: spread_of(count, block) for nutrient, count, block in MEASURED.findall(body)}
        self.inherent = inherent_of(body)
        self.milder = self.word("milder")
        self.ordered = bool(re.search(r"^ +in this order$", body, re.M))
        self.bases = re.findall(r"^ +(as whole can|as drained|basis not stated)\b", body, re.M)

    def word(self, statement):
        """What stands behind a statement of one name, or nothing."""
        return (re.findall(rf"^ +{statement} ([^\n;#}}]+)", self.body, re.M) or [""])[0].strip()

    def amount(self, nutrient):
        """The number of a figure, or None where it is unknown."""
        return self.figures[nutrient][0] if nutrient in self.figures else None

    def __str__(self):
        return f"{self.name} ({self.file})"


PORTION = re.compile(r"^ +1 ([^\n=]+?) = ([\d.]+) (g|oz)(?: \(([\d.]+) (?:g|oz) to ([\d.]+) (?:g|oz)\))?(?: \"([^\"\n]*)\")?"
                     r" *(?:#+ *([^\n]*))?$", re.M)
MEASURED = re.compile(r"^ +measured (sodium|potassium) (\d+) samples \{([^}]*)\}", re.M)
GRAMS = {"g": 1, "oz": 28.349523125}


class Portion:
    """What one of a measure weighs: words, grams (best, low, high), a source of its own ("": the food's), a remark."""

    def __init__(self, words, number, unit, low, high, source, remark):
        self.words, self.unit, self.source, self.remark = words, unit, source, remark
        self.text = f"{number} {unit}" + (f" ({low} {unit} to {high} {unit})" if low else "")
        self.best, self.low, self.high = (float(part or number) * GRAMS[unit] for part in (number, low, high))


def spread_of(count, block):
    found = {words: float(number) for words, number in re.findall(r"([a-z ]+?) ([\d.]+) mg", block)}
    return {"samples": float(count), **{words.strip(): number for words, number in found.items()}}


def inherent_of(body):
    found = re.search(r'^ +inherent sodium ([\d.]+) mg(?: \(([\d.]+) mg to ([\d.]+) mg\))? "([^"]*)"', body, re.M)
    if not found:
        return None
    best, low, high, source = found.groups()
    return float(best), float(low or best), float(high or best), source


def ndb_number(source):
    found = re.search(r"SR28 NDB (\d{5})", source or "")
    return found.group(1) if found else None


def recalled_in(source):
    """The nutrients of `as F, USDA SR28 NDB N; sodium and potassium from memory`: all others are F's."""
    found = re.search(r"^as [^;]*; ((?:sodium|potassium)(?: and potassium)?) from memory", source)
    return set(found.group(1).split(" and ")) if found else set()


def ranges_of(body):
    block = re.search(r"per 100 g \{(.*?)\}", body, re.S)
    found = re.findall(r"([a-z0-9 ]+?) [\d.]+ \S+ \(([\d.]+) \S+ to ([\d.]+) \S+\)", block.group(1)) if block else []
    return {nutrient.strip(): (float(low), float(high)) for nutrient, low, high in found}


def figures_of(body):
    block = re.search(r"per 100 g \{(.*?)\}", body, re.S)
    text = re.sub(r"#[^\n]*|\([^)]*\)", "", block.group(1)) if block else ""       # a range stands behind its best value
    parts = [part.split() for part in re.split(r"[;\n]", text) if part.strip()]
    return {" ".join(words[:-2]): (float(words[-2]), UNITS[words[-1]]) for words in parts}


@functools.cache
def foods(folder=FOODS):
    """Every food in a folder, stdlib/foods if none is named, in order of file and place."""
    found = []
    for path in sorted(folder.glob("**/*.quern")):
        text = path.read_text(encoding="utf-8")
        for head in re.finditer(r"^food ([^\n{]+?)\s*\{(.*?)^\}", text, re.M | re.S):
            found.append(Food(head.group(1), head.group(2), path.name, text.count("\n", 0, head.start()) + 1))
    return found


class Mixture(Food):
    """A compound or a blend: a food whose figures are computed. `formula` is "" where there is none; `shares` are
    [(lowest, highest, food)] in percent."""

    def __init__(self, kind, name, body, file, line):
        super().__init__(name, body, file, line)
        self.kind, self.formula = kind, self.word("formula")
        self.shares = [(float(low), float(high or low), food.strip())
                       for low, high, food in re.findall(r"^ +([\d.]+)%(?: to ([\d.]+)%)? ([^\n;#]+)", body, re.M)]


@functools.cache
def mixtures(folder=FOODS):
    """Every compound and blend in a folder."""
    found = []
    for path in sorted(folder.glob("**/*.quern")):
        text = path.read_text(encoding="utf-8")
        for head in re.finditer(r"^(compound|blend) ([^\n{]+?)\s*\{(.*?)^\}", text, re.M | re.S):
            found.append(Mixture(*head.groups(), path.name, text.count("\n", 0, head.start()) + 1))
    return found


class Shelf:
    """A plain word that is no food: its kinds, and the remark above or behind it."""

    def __init__(self, remarks, name, kinds, file):
        self.name, self.file, self.body = name, file, remarks
        self.remark = re.sub(r"#![^\n]*", "", remarks).strip(" #\n")      # without the marks of tests
        self.kinds = [kind.strip() for kind in re.split(r"[;\n]", kinds) if kind.strip()]


def shelves(folder=FOODS):
    """Every shelf in a folder."""
    form = re.compile(r"((?:^#[^\n]*\n)*)^shelf ([^\n{]+?) *\{([^}]*)\}([^\n]*)", re.M)
    return [Shelf(above + behind, name, kinds, path.name)
            for path in sorted(folder.glob("**/*.quern"))
            for above, name, kinds, behind in form.findall(path.read_text(encoding="utf-8"))]


def groups():
    """Name of a group -> (the group it stands within or None, its other statements)."""
    text = re.sub(r"#[^\n]*", "", (test.ROOT / "stdlib" / "groups.quern").read_text(encoding="utf-8"))
    found = {}
    for name, body in re.findall(r"^group ([^\n{]+?) *(?:\{([^}]*)\})?$", re.sub(r" +$", "", text, flags=re.M), re.M):
        parts = [part.strip() for part in body.split(";")]
        within = [part.removeprefix("within ") for part in parts if part.startswith("within ")]
        found[name] = (within[0] if within else None, [part for part in parts if part and not part.startswith("within ")])
    return found


@functools.cache
def rows(name):
    with open(SHARED / "data" / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE))


def published():
    """NDB number -> row of the release."""
    return {row["ndb_no"]: row for row in rows("usda_sr28.tsv")}


def figure_faults(food, row):
    """Figures of a food that are not the published ones, cell by cell."""
    wrong = [f"{nutrient} from memory without a range" for nutrient in food.recalled if nutrient not in food.ranges]
    if set(food.ranges) - food.recalled and "range of" not in food.source:
        wrong.append("a range without a source")
    for nutrient, (number, unit) in food.figures.items():
        if nutrient in food.recalled:
            continue
        column = COLUMNS.get(nutrient)
        cell = row.get(column, "") if column else ""
        if not column:
            wrong.append(f"{nutrient} has no published column")
        elif cell == "":
            wrong.append(f"{nutrient} {number} {unit}, published: nothing")
        elif float(cell) != number or not column.endswith("_" + unit):
            wrong.append(f"{nutrient} {number} {unit}, published {cell} {column}")
    return wrong + [f"{nutrient} missing, published {row[column]}" for nutrient, column in COLUMNS.items()
                    if row.get(column, "") != "" and nutrient not in food.figures]


def weights_of_rows():
    """NDB number -> [(unit as the release words it, grams of one)]."""
    found = {}
    for row in rows("usda_sr28_portions.tsv"):
        if float(row["amount"]) > 0:
            found.setdefault(row["ndb_no"], []).append((row["unit_desc"], float(row["grams"]) / float(row["amount"])))
    return found
