"""What a bath does to foods, written from the model alone and apart from the program.

Every amount is (low, best, high). A state is {"mass", "water", "sodium", "potassium"} of such amounts, in g and mg.
One visit of foods f to a bath, for one nutrient, with S_f in the food, S_b in the bath, W_f and V their water in g:

    u_f   = (takes up) x mass            what gives off is negative
    x_f   = (W_f + u_f) / (V + all W)    the share of the water that ends up in f
    S'_f  = max(0, 1-e+e x_f) S_f + e x_f (S_b + what the others give)   reaches e
    S'_f  = k S_f + e x_f (S_b + what the others give)                   keeps k, reaches e
    what f gives: min(1, e) S_f, or (1-k) S_f where it keeps k
    S'_b  = all - what the foods hold                                             never below 0

Where ranges of weight are in play, the model fixes a bound up to how far it sees that two of its figures hang together:
a food's weight and its water, its water above and below the line, a share that is kept here and let go there. `wide`
sees none of that, else all of it is seen. A bound of the program lies between the two; mostly they are the same.
"""

NUTRIENTS = ("sodium", "potassium")
COLUMNS = ("mass", "water", *NUTRIENTS)
LOW, BEST, HIGH = range(3)


def exactly(value):
    return (value, value, value)


def plus(one, other):
    return tuple(a + b for a, b in zip(one, other))


def total(amounts):
    return tuple(map(sum, zip(*amounts))) if amounts else exactly(0.0)


def times(one, other):
    return tuple(a * b for a, b in zip(one, other))


def over(one, other):
    return (one[LOW] / other[HIGH], one[BEST] / other[BEST], one[HIGH] / other[LOW])


def added(states):
    return {column: total([state[column] for state in states]) for column in COLUMNS}


def shared(share, state):
    """A share of everything in a state."""
    return {column: times(share, state[column]) for column in COLUMNS}


class Effects:
    """What a treatment does in a bath. `takes` is the share of the food's weight that it takes up, below 0 if it gives
    off; `reaches` and `keeps` are by nutrient; one that is not in `keeps` is reached for only."""

    def __init__(self, reaches, takes=exactly(0.0), keeps=None):
        self.reaches, self.takes, self.keeps = reaches, takes, keeps or {}


# --- water ---

def uptake(mass, takes):
    """What a food takes up, with the food's weight at whichever end makes it least and most."""
    return (takes[LOW] * mass[LOW if takes[LOW] >= 0 else HIGH], takes[BEST] * mass[BEST],
            takes[HIGH] * mass[HIGH if takes[HIGH] >= 0 else LOW])


def after_uptake(before, mass, takes, wide):
    """Weight or water of a food after the visit."""
    taken = uptake(mass, takes) if wide else times(takes, mass)
    return tuple(max(0.0, value) for value in plus(before, taken))


def water_shares(foods, effects, bath, wide):
    """x_f of every food."""
    shares = []
    for at, (food, effect) in enumerate(zip(foods, effects)):
        others = total([bath["water"]] + [other["water"] for i, other in enumerate(foods) if i != at])
        own, after = food["water"], after_uptake(food["water"], food["mass"], effect.takes, wide)
        below = own[HIGH if wide else LOW], own[BEST], own[LOW if wide else HIGH]
        shares.append((after[LOW] / (others[HIGH] + below[LOW]), after[BEST] / (others[BEST] + below[BEST]),
                       after[HIGH] / (others[LOW] + below[HIGH])))
    return shares


# --- one nutrient ---

def own_share(reach, x):
    return max(0.0, 1 - reach + reach * x)


def others_give(held, effects, nutrient, at, end):
    """What a food finds in the bath besides its own: of those that reach as much as they come to equilibrium, of those
    that keep what they let go. `held` is in the bath and then in each food; `end` says at which end the shares kept
    stand: where most is kept least is reached."""
    given, reached = held[0], HIGH - end
    for other, effect in enumerate(effects):
        if other != at:
            given += held[other + 1] * (1 - effect.keeps[nutrient][end] if nutrient in effect.keeps
                                        else min(1.0, effect.reaches[nutrient][reached]))
    return given


def best_of(held, effects, shares, nutrient):
    """Best of every food, and what is left in the bath. Gains shrink where they would take more than there is."""
    own, gain = [], []
    for at, (effect, x) in enumerate(zip(effects, shares)):
        reach = effect.reaches[nutrient][BEST]
        kept = effect.keeps[nutrient][BEST] if nutrient in effect.keeps else own_share(reach, x[BEST])
        own.append(kept * held[at + 1])
        gain.append(reach * x[BEST] * others_give(held, effects, nutrient, at, BEST))
    there = sum(held) - sum(own)
    factor = min(1.0, there / sum(gain)) if sum(gain) > 0 else 1.0
    after = [a + factor * b for a, b in zip(own, gain)]
    return after, max(0.0, sum(held) - sum(after))


def end_of(held, effects, shares, nutrient, at, kept_end, end):
    """The least (LOW) or most (HIGH) that a food can hold: it loses at one end of `reaches`, and gains at the other."""
    effect, x, reaches = effects[at], shares[at][end], effects[at].reaches[nutrient]
    given = others_give(held, effects, nutrient, at, kept_end)
    kept = effect.keeps[nutrient][end] if nutrient in effect.keeps else own_share(reaches[HIGH - end], x)
    return min(kept * held[at + 1] + reaches[end] * x * given, sum(held))


def after_of(foods, effects, bath, shares, nutrient, wide):
    """The nutrient in every food after the visit, and in the bath."""
    held = [[state[nutrient][end] for state in (bath, *foods)] for end in (LOW, BEST, HIGH)]
    best, left = best_of(held[BEST], effects, shares, nutrient)
    every = range(len(foods))
    low = [end_of(held[LOW], effects, shares, nutrient, at, HIGH, LOW) for at in every]
    high = [end_of(held[HIGH], effects, shares, nutrient, at, LOW, HIGH) for at in every]
    taken = sum(end_of(held[LOW], effects, shares, nutrient, at, LOW if wide else HIGH, HIGH) for at in every)
    given = sum(end_of(held[HIGH], effects, shares, nutrient, at, HIGH if wide else LOW, LOW) for at in every)
    left = (max(0.0, sum(held[LOW]) - taken), left, max(0.0, sum(held[HIGH]) - given))
    return list(zip(low, best, high)), left


# --- visits ---

def visit(foods, effects, bath, wide=False):
    """All foods of one bath at once: their states and the bath's, after it."""
    shares = water_shares(foods, effects, bath, wide)
    after = [{column: after_uptake(food[column], food["mass"], effect.takes, wide) for column in ("mass", "water")}
             for food, effect in zip(foods, effects)]
    taken = total([uptake(food["mass"], effect.takes) for food, effect in zip(foods, effects)])
    left = {column: (max(0.0, bath[column][LOW] - taken[HIGH]), bath[column][BEST] - taken[BEST],
                     bath[column][HIGH] - taken[LOW]) for column in ("mass", "water")}
    for nutrient in NUTRIENTS:
        values, left[nutrient] = after_of(foods, effects, bath, shares, nutrient, wide)
        for food, value in zip(after, values):
            food[nutrient] = value
    return after, left


def simulate(foods, steps, baths, in_turn, wide=False):
    """A whole recipe. `foods`: states in order of lines; `steps`: for each food its [(bath, effects)] in order;
    `baths`: name -> state, in the order in which they are declared; `in_turn`: names of those that take one food after
    the other. The first baths of all foods come first, then the second ones. Gives foods and baths as they are left."""
    foods, baths = list(foods), dict(baths)
    for turn in range(max(map(len, steps), default=0)):
        for name in baths:
            here = [at for at, visits in enumerate(steps) if len(visits) > turn and visits[turn][0] == name]
            for group in ([[at] for at in here] if name in in_turn else [here] if here else []):
                after, baths[name] = visit([foods[at] for at in group], [steps[at][turn][1] for at in group],
                                           baths[name], wide)
                for at, food in zip(group, after):
                    foods[at] = food
    return foods, baths
