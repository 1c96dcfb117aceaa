"""Outside checks of evidence: whether a treatment that says `measured` was measured on the foods it is for.

R6, USDA's Table of Nutrient Retention Factors, is told by the descriptions of its rows: which kind of food each names, and
which way of cooking. The other sources are told by what was read of them (stdlib/treatments/*.quern).
"""

import re

import foods as library
import quern_test as test

# --- what the descriptions of R6 call the foods of a group. No row is for the foods of any other group ---

NAMED = {
    "cheeses": r"CHEESE", "eggs": r"EGGS", "fresh fruit": r"FRUITS,(FRESH|CITRUS)", "dried fruit": r"FRUITS\(DRIED\)",
    "treated dried fruit": r"FRUITS\(DRIED\)", "flours": r"FLOUR", "oats": r"OATMEAL", "dry pasta": r"PASTA", "fresh pasta": r"PASTA",
    "rice": r"RICE", "dry legumes": r"LEGUMES", "beef": r"BEEF", "pork": r"PORK,FRE?SH", "lamb": r"LAMB", "veal": r"VEAL",
    "chicken": r"CHICKEN", "turkey": r"TURKEY", "offal": r"LIVER|ORGAN MEATS", "sausages": r"SAUSAGE", "fresh fish": r"FINFISH",
    "shellfish": r"SHELLFISH", "leafy vegetables": r"VEG,GREENS", "root vegetables": r"VEG,ROOTS", "potatoes": r"POTATOES,(?!CANNED)",
    "sweet potatoes": r"SWEETPOTA", "plain nuts": r"NUTS", "milks": r"MILK", "wines": r"ALC BEV", "beers and spirits": r"ALC BEV",
    "salted cooking wines": r"ALC BEV",
}

# --- how R6 says what is done, by the words of a treatment; `microwaved` and grilled vegetables it does not know ---

LIQUID = r"COOKED|CKD|SIMM|SIMR|BOIL|BLD|STEW|BRAISED|HEATED|POACHED"
WAYS = {
    "roasted": r"ROASTED|BAKED|CKD,WO", "baked": r"BAKED", "grilled": r"BROIL", "fried": r"FRIED|SAUTE|STIR FRY",
    "fried in butter": r"FRIED|SAUTE|STIR FRY", "fried until crisp": r"FRIED", "toasted": r"TOASTED", "steamed": r"STEAM",
    "microwaved": r"MICROWAVE", "flamed": r"FLAMED", "stirred into hot liquid": r"STIRRED INTO HOT", "boiled in their skins": r"BOILED IN SKIN",
    "boiled, baked": r"(BLD|BOILED).*(BKD|BAKED)", "boiled, fried": r"(BLD|BOILED).*(FRIED|BROWNED)", "fried, simmered": r"SAUTEED\+SIMMERED",
    "reheated": r"REHEATED", "boiled": LIQUID, "boiled, drained": LIQUID, "poached": LIQUID, "simmered": LIQUID, "simmered, drained": LIQUID,
    "simmered in broth": LIQUID, "liquid kept": LIQUID, "browned, braised": LIQUID,
}

# --- measured on these foods in other sources, each read as stdlib/treatments says ---

ELSEWHERE = {
    ("cubed, boiled", "potatoes"), ("shredded, boiled", "potatoes"), ("soaked", "potatoes"),            # Bethke & Jansky 2008
    ("rinsed", "pasta boiled in salted water"),                                                         # Albrecht, Asp & Buzzard 1987
    ("rinsed", "canned tuna"), ("rinsed", "cottage cheeses"),                                           # Vermeulen et al. 1983
    ("left broth", "salts"),                                                                            # Mizutani et al. 1997
    ("on fish for grilling", "salts"),                                                                  # the coefficients of 1984
    ("skin removed", "chicken with skin"), ("skin removed", "turkey with skin"),                        # SR28, meat, skin and both
}
TREATMENT = re.compile(r"(?m)^treatment ([^{\n]+)\{\n(.*?)^\}", re.S)


def treatments():
    """(file, name, groups, evidence, R6 codes, source) of every treatment of the library that says its evidence."""
    for path in sorted((test.ROOT / "stdlib" / "treatments").glob("*.quern")):
        for name, body in TREATMENT.findall(path.read_text(encoding="utf-8")):
            evidence = re.search(r"^ *evidence (.*)$", body, re.M)
            groups = [group.strip() for line in re.findall(r"^ *for (.*)$", body, re.M) for group in line.split(",")]
            source = re.search(r'source "([^"]*)"', body)
            cited = re.search(r"R6 codes? ([\d, to]+)", source.group(1) if source else "")
            if evidence:
                yield path.name, name.strip(), groups, evidence.group(1), re.findall(r"\d{4}", cited.group(1)) if cited else []


def is_named(group, descriptions):
    return group in NAMED and any(re.match(NAMED[group], description) for description in descriptions)


def check_evidence(tally):
    described = {row["retn_code"]: row["description"] for row in library.rows("retention_r6.tsv")}
    found = {}
    for file, name, groups, evidence, codes in treatments():
        where = f"{file}: {name} of {', '.join(groups) or 'any food'}"
        found[evidence] = found.get(evidence, 0) + 1
        descriptions = [described[code] for code in codes]
        of_the_food = bool(groups) and all(is_named(group, descriptions) for group in groups)
        so_cooked = name in WAYS and any(re.search(WAYS[name], description) for description in descriptions)
        if evidence == "measured":
            good = all((name, group) in ELSEWHERE for group in groups) and groups if not codes else of_the_food and so_cooked
            tally.check(f"{where}: measured on them", good, f"{descriptions}")
        elif evidence == "measured on a like food":
            tally.check(f"{where}: measured on others", not of_the_food and (so_cooked or not codes or name == "rinsed"), f"{descriptions}")
    tally.check("evidence: treatments of every word are read", set(found) == {"measured", "measured on a like food", "one kitchen test",
                                                                              "estimated", "from memory"}, f"{found}")
