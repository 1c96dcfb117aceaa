"""Reads the food declarations of stdlib/ and the published tables that their figures come from.

This is a second, independent reader: it knows only the regular form in which the library is written.
"""

import csv
import os
import re
from pathlib import Path

import quern_test as test

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
    """One food of the library: name, group, figures {nutrient: (number, unit)}, portions [(words, text)]."""

    def __init__(self, name, body, file):
        self.name, self.file = name, file
        self.figures = figures_of(body)
        self.portions = re.findall(r"^\s*1 ([a-z ]+?) = ([^\n]+)", body, re.M)
        self.group = (re.findall(r"^\s*group ([^\n;#}]+)", body, re.M) or [""])[0].strip()
        self.source = (re.findall(r'^\s*source "([^"]*)"', body, re.M) or [""])[0]
        self.ndb = ndb_number(self.source)

    def __str__(self):
        return f"{self.name} ({self.file})"


def ndb_number(source):
    found = re.search(r"SR28 NDB (\d{5})", source or "")
    return found.group(1) if found else None


def figures_of(body):
    block = re.search(r"per 100 g \{(.*?)\}", body, re.S)
    text = re.sub(r"#[^\n]*", "", block.group(1)) if block else ""
    parts = [part.split() for part in re.split(r"[;\n]", text) if part.strip()]
    return {" ".join(words[:-2]): (float(words[-2]), UNITS[words[-1]]) for words in parts}


def foods(folder=test.ROOT / "stdlib" / "foods"):
    """Every food under a folder, in order of file and place."""
    found = []
    for path in sorted(folder.glob("**/*.quern")):
        text = path.read_text(encoding="utf-8")
        for head in re.finditer(r"^food ([^\n{]+?)\s*\{(.*?)^\}", text, re.M | re.S):
            found.append(Food(head.group(1), head.group(2), path.name))
    return found


def rows(name):
    with open(SHARED / "data" / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE))


def published():
    """NDB number -> row of the release."""
    return {row["ndb_no"]: row for row in rows("usda_sr28.tsv")}


def figure_faults(food, row):
    """Figures of a food that are not the published ones, cell by cell."""
    wrong = []
    for nutrient, (number, unit) in food.figures.items():
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


def portion_rows(unit):
    """NDB number -> grams that the release gives for one `unit`, whatever the words after it."""
    found = {}
    for row in rows("usda_sr28_portions.tsv"):
        if re.match(rf"{unit}\b", row["unit_desc"]) and float(row["amount"]) > 0:
            found.setdefault(row["ndb_no"], []).append(float(row["grams"]) / float(row["amount"]))
    return found
