"""Does the sum of a trace again, from its leaves: what is written, what a measure weighs, what a food holds, what a
treatment keeps. Written from docs/method.md; nothing of it is taken from the program but the leaves. `redo` gives what
differs; a figure that cannot be had from the trace is a fault.

A range is (low, best, high). Of a dish the shares that rest on weights and waters (how much of a bath is taken, is eaten,
is thrown away) are leaves here: the traces of `weight` and of water hold those sums.
"""

import math

NOISE = 1e-9
ENDS = ("low", "best", "high")
ONE, NOTHING = (1.0, 1.0, 1.0), (0.0, 0.0, 0.0)
LOW, BEST, HIGH = range(3)


def of(found):
    return tuple(0.0 if found[end] is None else found[end] for end in ENDS)


def agrees(ours, found, known):
    """Whether ours is what is told; an end that is told as unknown is right where the line, or what it stands in, is not known."""
    if known and any(found[end] is None for end in ENDS):
        return False
    return all(found[end] is None or math.isclose(x, found[end], rel_tol=NOISE, abs_tol=NOISE) for end, x in zip(ENDS, ours))


def times(a, b):
    return tuple(x * y for x, y in zip(a, b))


def plus(a, b):
    return tuple(x + y for x, y in zip(a, b))


def over(a, b):
    return a[LOW] / b[HIGH], a[BEST] / b[BEST], a[HIGH] / b[LOW]


def scaled(a, factor):
    return tuple(x * factor for x in a)


def joined(a, b):
    return min(a[LOW], b[LOW]), (a[BEST] + b[BEST]) / 2, max(a[HIGH], b[HIGH])


def floored(a):
    return tuple(max(0.0, x) for x in a)


def close(a, b):
    return all(math.isclose(x, y, rel_tol=NOISE, abs_tol=NOISE) for x, y in zip(a, b))


# --- a line ---

def product(steps):
    result = ONE
    for step in steps:
        result = over(times(result, of(step["factor"])), of(step["per"]))
    return result


class Stage:
    """What is done to 100 g, one treatment after the other."""

    def __init__(self):
        self.keeps, self.adds, self.mass = ONE, NOTHING, ONE

    def step(self, step):
        what, factor = step["step"], of(step["factor"])
        if what == "keeps":
            self.keeps, self.adds = times(self.keeps, factor), times(self.adds, factor)
        elif what == "lost":
            self.keeps = self.adds = NOTHING
        elif what == "replaced":
            self.keeps, self.adds = times(self.keeps, factor), NOTHING
        elif what == "adds":
            self.adds = plus(self.adds, factor)
        elif what == "mass":
            self.mass = times(self.mass, factor)
        elif what == "without liquid":
            self.keeps, self.mass = times(self.keeps, factor), times(self.mass, factor)
        elif what == "with liquid":
            self.keeps = times(self.keeps, factor)

    def join(self, other):
        self.keeps, self.adds, self.mass = joined(self.keeps, other.keeps), joined(self.adds, other.adds), joined(self.mass, other.mass)

    def of(self, held, grams, column, by_weight):
        if column == "weight":
            return times(held, self.mass)
        result = times(held, self.keeps)
        if column == "water" and by_weight:
            return floored(plus(result, times((self.mass[LOW] - 1, self.mass[BEST] - 1, self.mass[HIGH] - 1), grams)))
        return plus(result, scaled(times(self.adds, grams), 0.01))


def stages(steps):
    """The stage before the first bath, and one after each bath."""
    result, first = [Stage()], None
    for step in steps:
        if step["step"] == "second reading":
            first, result = result[0], [Stage()]
        elif step["step"] == "joined":
            result[0].join(first)
        elif step["step"] == "bath":
            result.append(Stage())
        else:
            result[-1].step(step)
    return result


def went_in(line, recipes):
    """Hundreds of grams, servings of a label, or batches."""
    one = product(step for step in line["measure"] if step["step"] != "spoon error")
    for step in line["measure"]:
        if step["step"] == "spoon error":
            one = times(one, of(step["factor"]))
    amount = times(of(line["amount"]), one) if line["amount_counts"] else one
    if line["amount"] is None and not any(step["step"] == "some" for step in line["measure"]):
        amount = NOTHING                                        # nobody says how much it may be
    if line["of"] == "100 g":
        amount = scaled(amount, 0.01)
    elif line["of"] == "batch":
        amount = over(amount, of(line["batch"]))
    if line["optional"]:
        amount = (0.0, *amount[1:])
    return plus(amount, of(line["more"]))


def kept(steps):
    """What the line says that stays; of two readings the second tells it once more."""
    result = ONE
    for step in steps:
        if step["step"] == "second reading":
            break
        if step["step"] == "kept":
            result = times(result, of(step["factor"]))
    return result


def counts(line, amount, goes_whole):
    must_be(line, kept(line["treatments"]), "kept")
    if goes_whole:
        return amount
    amount = times(amount, of(line["kept"]))
    if "thrown_away" in line:
        left = product(line["thrown_away_measure"])
        left = scaled(left, 0.01) if line["of"] == "100 g" else left
        if line["thrown_away_measure"]:
            must_be(line, left, "thrown_away")
        left = of(line["thrown_away"])
        amount = floored((amount[LOW] - left[HIGH], amount[BEST] - left[BEST], amount[HIGH] - left[LOW]))
    for part in line["parts"]:
        amount = times(amount, of(part["kept"]))
        if part["optional"]:
            amount = (0.0, *amount[1:])
    return amount


class Wrong(Exception):
    pass


def all_said(line):
    """Whether amount, food and treatments are told. A line may be known without: it holds none, or a bath is thrown away."""
    holds = line["holds"]
    return line["amount"] is not None and all(holds[end] is not None for end in ENDS) and of(holds) != NOTHING \
        and not any(step["step"] in ("lost", "unknown") for step in line["treatments"])


def must_be(line, ours, key):
    if not agrees(ours, line[key], line["known"] and all_said(line)):
        raise Wrong(f"{line['text']}: {key} is {line[key]}, by hand {ours}")


def redo_line(line, totals, column, recipes, begins):
    """What the line holds in all of the recipe, before baths."""
    amount = went_in(line, recipes)
    must_be(line, amount, "went_in")
    goes_whole = begins and any(step["step"] == "bath" for step in line["treatments"])
    driver = counts(line, amount, goes_whole)
    must_be(line, driver, "counts")
    if line["of"] == "bath":
        return NOTHING
    holds = of(line["holds"])
    if "recipe" in line and line["recipe"] in totals:
        holds = totals[line["recipe"]]                          # of one that is not all known, what is known of it
        must_be(line, holds, "holds")
    elif "recipe" in line and line["known"]:
        raise Wrong(f"{line['text']}: known, and made from itself")
    rate = stages(line["treatments"])[0].of(holds, of(line["holds_grams"]), column, line["weight_is_water"])
    must_be(line, rate, "holds_then")
    return times(driver, rate)


# --- baths ---

CORNERS = ((LOW, LOW), (HIGH, HIGH), (LOW, HIGH), (HIGH, LOW), (BEST, BEST))     # amounts, and shares that a food takes


def uptake(visit):
    takes, mass = of(visit["uptake"]), of(visit["grams_before"])
    return (takes[LOW] * mass[HIGH if takes[LOW] < 0 else LOW], takes[BEST] * mass[BEST],
            takes[HIGH] * mass[LOW if takes[HIGH] < 0 else HIGH])


def shares_of_water(visits):
    """Of all water there is, what each food comes out with."""
    everything = of(visits[0]["bath_water_before"])
    for visit in visits:
        everything = plus(everything, of(visit["water_before"]))
    for visit in visits:
        own = of(visit["water_before"])
        after = floored(plus(own, uptake(visit)))
        most, least = everything[HIGH] - own[HIGH] + own[LOW], everything[LOW] - own[LOW] + own[HIGH]
        yield (min(1, after[LOW] / most) if most > 0 else 0, min(1, after[BEST] / everything[BEST]) if everything[BEST] > 0 else 0,
               min(1, after[HIGH] / least) if least > 0 else 1)


def exchange(visits, held, bath, shrinks):
    """What foods and bath hold afterwards. `shrinks`: gains together are at most what is given."""
    corners, left = [], []
    for amounts, takes in CORNERS:
        turned = {LOW: HIGH, HIGH: LOW, BEST: BEST}[takes]
        given, offers, kept, gained = [], [], [], []
        for visit, own in zip(visits, held):
            reach, keeps, water = of(visit["reaches"]), of(visit["keeps"]), of(visit["share_of_water"])
            gives = min(1, reach[takes]) if visit["balanced"] else max(0, 1 - keeps[turned])
            stays = max(0, 1 - reach[turned] * (1 - water[takes])) if visit["balanced"] else keeps[takes]
            given.append(gives * own[amounts])
            kept.append(stays * own[amounts])
        for visit, gives in zip(visits, given):
            offered = max(0, bath[amounts] + sum(given) - gives)
            gained.append(of(visit["reaches"])[takes] * of(visit["share_of_water"])[takes] * offered)
        there = bath[amounts] + sum(own[amounts] - stays for own, stays in zip(held, kept))
        shrink = max(0, there) / sum(gained) if shrinks and sum(gained) > there and sum(gained) > 0 else 1
        corners.append([stays + shrink * gain for stays, gain in zip(kept, gained)])
        left.append(max(0, there - shrink * sum(gained)))
    foods = [around(corners[0][i], corners[4][i], corners[1][i]) for i in range(len(visits))]
    return foods, around(left[2], left[4], left[3])


def around(low, best, high):
    return min(low, best), best, max(high, best)


class Dish:
    """The lines and baths of a recipe as things happen to them, one after the other."""

    def __init__(self, recipe, column, lines):
        self.recipe, self.column, self.state = recipe, column, list(lines)
        self.members = {}
        for move in recipe["dish"]:
            if move["what"] == "shared out":
                self.members.setdefault(move["bath"], []).append(move["line"])
        self.bath = {bath: self.sum_of(lines) for bath, lines in self.members.items()}
        self.filled = dict(self.bath)
        self.filled_line = list(lines)
        self.eaten, self.visits, self.weight = {}, {}, {}
        self.ceiling = sum(line[HIGH] for line in lines)
        self.capped = False

    def sum_of(self, lines):
        result = NOTHING
        for line in lines:
            result = plus(result, self.state[line])
        return result

    def cap(self, value, told):
        """No more than there is in all. Where the whole nutrient is capped, an origin gets what there is of it; elsewhere it
        stays: told says which, and it must be one of the two."""
        most = max(self.ceiling, value[BEST])
        if " from " not in self.column:
            return value[LOW], value[BEST], min(value[HIGH], most)
        return (value[LOW], value[BEST], most) if math.isclose(most, of(told)[HIGH], rel_tol=NOISE, abs_tol=NOISE) else value

    def meet(self, visits):
        """One round of foods that share a bath at once."""
        held, bath = [self.state[visit["line"]] for visit in visits], self.bath.setdefault(visits[0]["bath"], NOTHING)
        for visit, water in zip(visits, shares_of_water(visits)):
            self.expect("share of water", water, visit["share_of_water"])
            self.expect("held before", self.state[visit["line"]], visit["before"])
            self.expect("held by the bath", bath, visit["bath_before"])
        if self.column in ("weight", "water"):
            taken = [uptake(visit) for visit in visits]
            foods = [floored(plus(own, take)) for own, take in zip(held, taken)]
            lost = NOTHING
            for take in taken:
                lost = plus(lost, take)
            bath = floored((bath[LOW] - lost[HIGH], bath[BEST] - lost[BEST], bath[HIGH] - lost[LOW]))
        else:
            foods, bath = exchange(visits, held, bath, True)
        for visit, food in zip(visits, foods):
            self.state[visit["line"]] = food
            self.weight[visit["line"]] = floored(plus(of(visit["grams_before"]), uptake(visit)))
            self.visits[visit["line"]] = self.visits.get(visit["line"], 0) + 1
            self.expect("came out with", food, visit["after"])
        self.bath[visits[0]["bath"]] = bath
        self.expect("left in the bath", bath, visits[0]["bath_after"])

    def happen(self, move):
        what, line = move["what"], move.get("line")
        if what == "treated":
            steps, before = stages(self.recipe["lines"][line]["treatments"]), self.state[line]
            self.state[line] = steps[self.visits[line]].of(before, self.weight[line], self.column, self.recipe["lines"][line]["weight_is_water"])
            self.ceiling += max(0, self.state[line][HIGH] - before[HIGH])
        elif what == "taken":
            left = self.cap(self.bath[move["bath"]], move["bath_after"])
            self.expect("left to take of", left, move["bath_after"])
            self.state[line] = times(times(left, of(move["share"])), of(self.recipe["lines"][line]["kept"]))
            if self.column == "weight":                         # so much as is written: a leaf
                self.state[line] = of(move["after"])
        elif what == "bath ends":
            self.eaten[move["bath"]] = times(self.cap(self.bath[move["bath"]], move["before"]), of(move["share"]))
        elif what == "shared out":
            first = self.members[move["bath"]][0]
            whole = self.filled[move["bath"]][BEST]
            share = self.filled_line[line][BEST] / whole if whole > 0 else float(line == first)
            self.state[line] = scaled(self.eaten[move["bath"]], share)
        elif what == "whole":
            self.state[line] = times(self.state[line], of(move["share"]))
        elif what == "capped":
            self.state[line] = self.cap(self.state[line], move["after"])
        elif what == "lost":
            self.state[line] = NOTHING
        if line is not None:
            self.expect(f"{what}, line {line + 1}", self.state[line], move["after"])

    def expect(self, what, ours, told):
        if not agrees(ours, told, all(line["known"] for line in self.recipe["lines"])):
            raise Wrong(f"{self.recipe['name']}: {what} is {told}, by hand {ours}")

    def run(self):
        moves = [move for move in self.recipe["dish"] if move["what"] != "begins"]
        while moves:
            if moves[0]["what"] != "bath":
                self.happen(moves.pop(0))
                continue
            together = [move for move in moves if move["what"] == "bath" and move["round"] == moves[0]["round"]]
            moves = moves[len(together):]
            self.meet(together)
        return self.state


# --- a recipe ---

def reduces(recipe):
    """Whether water boils away: its weight is what the cook says, a leaf."""
    return any(move["what"] in ("whole", "bath ends") and not close(times(of(move["before"]), of(move["share"])), of(move["after"]))
               for move in recipe["dish"])


def redo_recipe(recipe, totals, column, recipes):
    lines = [redo_line(line, totals, column, recipes, bool(recipe["dish"])) if "of" in line else NOTHING for line in recipe["lines"]]
    dish = None
    if recipe["dish"]:
        dish = Dish(recipe, column, lines)
        for move in recipe["dish"]:
            if move["what"] == "begins":
                dish.expect(f"line {move['line'] + 1} begins with", lines[move["line"]], move["after"])
        lines = dish.run()
        for bath, told in enumerate(recipe["baths"]):
            if bath in dish.filled and told["left"]["best"] is not None:
                dish.expect(f"bath {bath + 1} is filled with", dish.filled[bath], told["went_in"])
                dish.expect(f"bath {bath + 1} at the end", dish.cap(dish.bath[bath], told["left"]), told["left"])
        if recipe["baths"] and not math.isclose(recipe["most_there_is"], dish.ceiling, rel_tol=NOISE, abs_tol=NOISE):
            raise Wrong(f"{recipe['name']}: most there is is {recipe['most_there_is']}, by hand {dish.ceiling}")
    whole = NOTHING
    for line, told in zip(lines, recipe["lines"]):
        if told["known"]:
            must_be(told, line, "total")
        if told["known"] and recipe["servings"]:
            must_be(told, over(line, of(recipe["servings"])), "per_serving")
        whole = plus(whole, line)
    for line, told in zip(lines, recipe["lines"]):
        if told["share"] is not None and not math.isclose(told["share"], line[BEST] / whole[BEST], rel_tol=NOISE):
            raise Wrong(f"{told['text']}: share is {told['share']}, by hand {line[BEST] / whole[BEST]}")
    if ends_differ(recipe["sum_of_lines"], whole, recipe["complete"]):
        raise Wrong(f"{recipe['name']}: the sum of lines is {recipe['sum_of_lines']}, by hand {whole}")
    if dish:
        moved = of(recipe["moved_twice"])
        whole = (min(whole[LOW] + moved[LOW], whole[BEST]), whole[BEST], max(whole[HIGH] + moved[HIGH], whole[BEST]))
        if recipe["baths"]:
            whole = dish.cap(whole, recipe["total"])
    return whole


def order(recipes):
    """Numbers of the recipes, each behind those that it is made from."""
    done, seen = [], set()

    def visit(number):
        seen.add(number)
        for line in recipes[number]["lines"]:
            if "recipe" in line and line["recipe"] not in seen:
                visit(line["recipe"])
        done.append(number)
    for number in range(len(recipes)):
        if number not in seen:
            visit(number)
    return done


def ends_differ(told, ours, complete):
    return [end for end, mine in zip(ENDS, ours) if (end == "low" or complete) and not math.isclose(told[end], mine, rel_tol=NOISE, abs_tol=NOISE)]


def redo(trace):
    """(per serving or in all of the first recipe, by hand; what differs)."""
    recipes, column, totals, faults = trace["recipes"], trace["of"], {}, []
    result = None
    for number in order(recipes):
        recipe = recipes[number]
        if column in ("weight", "water") and reduces(recipe):
            totals[number] = of(recipe["total"])
            continue
        try:
            totals[number] = redo_recipe(recipe, totals, column, recipes)
        except Wrong as wrong:
            return None, [f"{column}: {wrong}"]
        if ends_differ(recipe["total"], totals[number], recipe["complete"]):
            faults.append(f"{column} of {recipe['name']}: total is {recipe['total']}, by hand {totals[number]}")
        result, whole = totals[number], totals[number]
        if column == "weight" and not recipe["batch_is_estimated"]:
            totals[number] = of(recipe["batch_grams"])          # the recipe says what it weighs
        if recipe["servings"]:
            result = over(result, of(recipe["servings"]))
            if ends_differ(recipe["per_serving"], result, recipe["complete"]):
                faults.append(f"{column} of {recipe['name']}: a serving is {recipe['per_serving']}, by hand {result}")
        faults += [f"{limit['what']} is {limit['value']}, by hand {result}" for limit in recipe["limits"]
                   if limit["what"] == f"{column} per serving" and ends_differ(limit["value"], result, recipe["complete"])]
        if recipe["per_100_g"] and not recipe["batch_is_estimated"]:
            hundred = scaled(over(whole, of(recipe["batch_grams"])), 100)
            if ends_differ(recipe["per_100_g"], hundred, recipe["complete"]):
                faults.append(f"{column} of {recipe['name']}: 100 g are {recipe['per_100_g']}, by hand {hundred}")
    return result, faults
