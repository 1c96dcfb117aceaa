"""Writes published figures in the two forms in which agencies hand out tables, for `quern import` to read.

Columns and codes are those of the releases' documentation, from memory, and written down here a second time: not taken from
stdlib/import.
"""

import csv
import random

# column of the published table -> number of the nutrient in both forms
CODES = {
    "protein_g": 203, "fat_g": 204, "carbohydrate_g": 205, "ash_g": 207, "energy_kcal": 208, "alcohol_g": 221, "water_g": 255,
    "sugars_g": 269, "fibre_g": 291, "calcium_mg": 301, "iron_mg": 303, "magnesium_mg": 304, "phosphorus_mg": 305,
    "potassium_mg": 306, "sodium_mg": 307, "zinc_mg": 309, "copper_mg": 312, "selenium_ug": 317, "vit_a_iu": 318,
    "vit_a_rae_ug": 320, "vit_e_mg": 323, "vit_d_ug": 328, "vit_c_mg": 401, "thiamin_mg": 404, "riboflavin_mg": 405,
    "niacin_mg": 406, "vit_b6_mg": 415, "folate_total_ug": 417, "vit_b12_ug": 418, "choline_mg": 421, "vit_k_ug": 430,
    "folate_dfe_ug": 435, "cholesterol_mg": 601, "trans_fat_g": 605, "sat_fat_g": 606, "mono_fat_g": 645, "poly_fat_g": 646,
}


def unit_of(column):
    return column.rsplit("_", 1)[1]


def amounts(rows):
    """(number of the food, column, figure as it is printed) of every figure that is there."""
    return [(row["ndb_no"], column, row[column]) for row in rows for column in CODES if row[column] != ""]


def release_line(*fields):
    """Texts between ~; numbers, given as tuples of one, without."""
    return "^".join(field[0] if isinstance(field, tuple) else f"~{field}~" for field in fields) + "\r\n"


def write_release(folder, rows, portions):
    def write(name, lines):
        (folder / name).write_bytes("".join(lines).encode("latin-1", "replace"))
    write("FOOD_DES.txt", (release_line(row["ndb_no"], row["group_code"], row["long_desc"], "", "", "", "Y", "",
                                        (row["refuse_pct"],), "", ("",), ("",), ("",), ("",)) for row in rows))
    write("NUTR_DEF.txt", (release_line(code, {"ug": "µg", "iu": "IU"}.get(unit_of(column), unit_of(column)), "", column, 2, ("1",))
                           for column, code in CODES.items()))
    write("NUT_DATA.txt", (release_line(food, CODES[column], (figure,), ("0",), ("",), "1", "", "", "", *[("",)] * 6, "", "", "")
                           for food, column, figure in amounts(rows)))
    write("WEIGHT.txt", (release_line(row["ndb_no"], (row["seq"],), (row["amount"],), row["unit_desc"], (row["grams"],), ("",), ("",))
                         for row in portions))


def write_central(folder, rows, portions):
    """Every cell in quotes; amounts in an order in which no food has its own together."""
    def write(name, head, lines):
        with open(folder / name, "w", newline="", encoding="utf-8") as file:
            csv.writer(file, quoting=csv.QUOTE_ALL, lineterminator="\n").writerows([head.split(), *lines])
    shuffled = amounts(rows)
    random.Random(1).shuffle(shuffled)
    write("food.csv", "fdc_id data_type description food_category_id publication_date",
          ([row["ndb_no"], "sr_legacy_food", row["long_desc"], "", ""] for row in rows))
    write("nutrient.csv", "id name unit_name nutrient_nbr rank",
          ([1000 + code, column, unit_of(column).upper(), code, ""] for column, code in CODES.items()))
    write("measure_unit.csv", "id name", [[1000, "cup"], [9999, "undetermined"]])
    write("food_nutrient.csv", "id fdc_id nutrient_id amount data_points derivation_id footnote",
          ([number, food, 1000 + CODES[column], figure, "", "", ""] for number, (food, column, figure) in enumerate(shuffled)))
    write("food_portion.csv", "id fdc_id seq_num amount measure_unit_id portion_description modifier gram_weight",
          ([number, row["ndb_no"], row["seq"], row["amount"], 9999, "", row["unit_desc"], row["grams"]]
           for number, row in enumerate(portions)))
