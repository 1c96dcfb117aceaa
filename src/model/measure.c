/* How much: units, portions and densities turn one of the written amount into hundreds of grams, into servings
 * of a label, or into a share of a recipe. Sources of the factors: stdlib/units; the rule for volumes stands in
 * docs/method.md ("Volume and pieces"). */
#include <math.h>
#include <string.h>

#include "model/resolve.h"

/* ---- units -------------------------------------------------------------------------------------------------- */

static const struct unit *find_unit_run(const struct resolving *resolving, uint32_t first, uint32_t length,
                                        const struct library **owner)
{
    char key[KEY_BYTES] = "!";
    struct text words[4];
    const struct tail_word *word = &resolving->words[first];
    if (length == 1 && word->text.length == 1) {            /* `T` and `t` are told apart */
        key[1] = word->text.bytes[0];
        const struct unit *unit = library_unit(resolving->library, (struct text){ key, 2 }, owner);
        if (unit)
            return unit;
    }
    for (uint32_t i = 0; i < length; i++)
        words[i] = resolving->words[first + i].text;
    return library_unit(resolving->library, (struct text){ key, name_key(words, length, false, key) }, owner);
}

const struct unit *measure_find_unit(const struct resolving *resolving, uint32_t first, uint32_t end, uint32_t *at,
                                     uint32_t *length, const struct library **owner)
{
    const struct unit *size = NULL;
    for (uint32_t run = end - first < 4 ? end - first : 4; run > 0; run--) {
        for (uint32_t start = first; start + run <= end; start++) {
            const struct library *found;
            const struct unit *unit = find_unit_run(resolving, start, run, &found);
            if (!unit || (unit->dimension == DIMENSION_SIZE && size))
                continue;
            *at = start;
            *length = run;
            *owner = found;
            if (unit->dimension != DIMENSION_SIZE)
                return unit;
            size = unit;
        }
    }
    return size;
}

const struct unit *measure_size_at(const struct resolving *resolving, uint32_t first, uint32_t end, uint32_t *length)
{
    const struct library *owner;
    for (*length = end - first < 2 ? end - first : 2; *length > 0; --*length) {
        const struct unit *unit = find_unit_run(resolving, first, *length, &owner);
        if (unit && unit->dimension == DIMENSION_SIZE)
            return unit;
    }
    return NULL;
}

/* ---- foods ------------------------------------------------------------------------------------------------------------ */

static struct text food_name(struct food_at food)
{
    return library_text(food.library, food.food->name);
}

/* A size before the food's own piece: `1 large clove`. Grams scaled by what the size declares. */
static bool sized_piece_grams(const struct resolving *resolving, struct food_at food, uint32_t first, uint32_t end,
                              struct range *grams, bool *joined)
{
    uint32_t length;
    const struct unit *size = measure_size_at(resolving, first, end, &length);
    if (!size || first + length == end || !portion_piece(resolving, food, first + length, end, grams, joined))
        return false;
    *grams = range_multiply(*grams, size->factor);
    derive_times(resolving, DERIVED_SIZE, resolve_words_text(resolving, first, first + length), size->factor);
    return true;
}

/* Beside a unit sizes may stand, and beside a weight the package that it fills: `2 large cups`, `400 g tin`. */
static bool fits_beside(const struct unit *word, const struct unit *unit)
{
    bool weighed = unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_VOLUME;
    return word == unit || (weighed && word->dimension == DIMENSION_PACKAGE);
}

bool measure_fits(const struct resolving *resolving, struct food_at food, uint32_t first, uint32_t end)
{
    struct range grams;
    bool joined;
    uint32_t at, length;
    const struct library *owner;
    if (first == end)
        return true;
    const struct unit *unit = measure_find_unit(resolving, first, end, &at, &length, &owner);
    if (portion_piece(resolving, food, first, end, &grams, &joined)
        || sized_piece_grams(resolving, food, first, end, &grams, &joined))
        return true;
    if (!unit || unit->dimension == DIMENSION_TIME || unit->dimension == DIMENSION_LENGTH
        || unit->dimension == DIMENSION_SIZE)
        return false;
    for (uint32_t i = first, size; i < end; i++) {
        if (measure_size_at(resolving, i, end, &size)) {
            i += size - 1;
            continue;
        }
        const struct unit *word = i >= at && i < at + length ? unit : find_unit_run(resolving, i, 1, &owner);
        if (!word || !fits_beside(word, unit))
            return false;
    }
    return true;
}

static void set_grams(struct resolving *resolving, struct range grams)
{
    resolving->resolved->scale = range_scale(grams, 0.01);
    resolving->resolved->flags |= RESOLVED_MASS_KNOWN;
}

static void say_joined(struct resolving *resolving, struct food_at food, bool joined)
{
    if (joined)
        resolve_say(resolving, FINDING_PORTIONS_JOINED, resolve_whole_span(resolving), GAPS(food_name(food)));
}

/* A measure in parentheses or before the name, as grams. */
bool measure_amount(struct resolving *resolving, struct food_at food, const struct unit *unit, struct range amount,
                    struct range *grams)
{
    bool joined = false;
    if (unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_VOLUME) {
        derive_times(resolving, DERIVED_AMOUNT, text_of(""), amount);
        derive_unit(resolving, unit);
    }
    if (unit->dimension == DIMENSION_MASS) {
        *grams = range_multiply(amount, unit->factor);
        return true;
    }
    if (unit->dimension != DIMENSION_VOLUME || !portion_volume(resolving, food, range_multiply(amount, unit->factor), grams, &joined))
        return false;
    resolving->resolved->flags |= RESOLVED_BY_VOLUME;
    say_joined(resolving, food, joined);
    return true;
}

/* Where some portion is a volume, it is of the other state. */
static void fail_volume(struct resolving *resolving, struct food_at food, struct text measure, struct span span)
{
    bool liquid = resolving->measured == MEASURED_WITH_LIQUID;
    if (portion_has_volume(food))
        resolve_fail(resolving, FINDING_NO_WEIGHT_SO, span, GAPS(measure, food_name(food), text_of(liquid ? "with the liquid of its can" : "drained"),
                                                                 text_of(liquid ? "drained" : "with its liquid (`as canned`)")));
    else
        resolve_fail(resolving, FINDING_NO_DENSITY, span, GAPS(measure, food_name(food)));
}

#define TEASPOON_ML 4.92892159375      /* for people: in this the grains are compared */

static void warn_of_vague_salt(struct resolving *resolving, struct food_at food)
{
    if (food.food->grain_count == 0 || resolving->derivation)
        return;
    char low[32] = "", high[32] = "";
    struct range spoon;
    bool joined;
    if (portion_volume(resolving, food, range_exact(TEASPOON_ML), &spoon, &joined)) {
        snprintf(low, sizeof low, "%.1f", spoon.low);
        snprintf(high, sizeof high, "%.1f", spoon.high);
    }
    struct finding *finding = resolve_say(resolving, FINDING_VAGUE_SALT, resolve_whole_span(resolving),
                                          GAPS(food_name(food), text_of(low), text_of(high)));
    for (uint32_t i = 0; i < food.food->grain_count; i++) {
        char key[KEY_BYTES], grams[64];
        struct text name = library_text(food.library, food.library->texts[food.food->first_grain + i]);
        struct food_at grain = library_food(resolving->library, (struct text){ key, name_key_of(name, false, key) });
        struct range weight;
        if (!finding || !grain.food || !portion_volume(resolving, grain, range_exact(TEASPOON_ML), &weight, &joined))
            continue;
        snprintf(grams, sizeof grams, "%.1f to %.1f", weight.low, weight.high);
        finding_note(resolving->voice.findings, finding, WORDS_GRAIN, GAPS(name, text_of(grams)));
    }
}

/* The parenthesis: the size of each package, else the total of the line. True when it settled the measure. */
static bool use_aside(struct resolving *resolving, struct food_at food)
{
    struct range grams;
    const struct aside *aside = &resolving->aside;
    bool each = aside->each || (resolving->package && !aside->total && !aside->after);
    if (!aside->found)
        return false;
    if (!measure_amount(resolving, food, aside->unit, range_between(aside->low, aside->high), &grams)) {
        fail_volume(resolving, food, text_of("the measure in parentheses"), aside->span);
        return true;
    }
    bool all = each && package_read_part(resolving, food, &grams);
    set_grams(resolving, resolving->package ? grams : measure_by_spoon(resolving, aside->unit, grams));    /* a can's size is printed */
    if (!each || all)
        resolving->resolved->flags |= RESOLVED_TOTAL;
    return true;
}

static void measure_pieces(struct resolving *resolving, struct food_at food)
{
    struct range grams;
    resolving->resolved->flags |= RESOLVED_BY_COUNT;
    if (!portion_bare(food, &grams)) {
        resolve_fail(resolving, FINDING_NO_PORTION, resolve_whole_span(resolving), GAPS(text_of("piece"), food_name(food)));
        return;
    }
    set_grams(resolving, grams);
    const struct portion *const sizes[] = { portion_named(food, "small"), portion_named(food, "medium"), portion_named(food, "large") },
                         *const piece[] = { portion_named(food, "piece") };
    if (sizes[0] || sizes[1] || sizes[2])
        derive_pieces(resolving, food, "sizes", sizes, COUNT_OF(sizes), grams);
    else
        derive_pieces(resolving, food, "", piece, COUNT_OF(piece), grams);
}

static void measure_by_unit(struct resolving *resolving, struct food_at food, const struct unit *unit, uint32_t first,
                            uint32_t end, struct range size)
{
    struct range grams;
    switch (unit->dimension) {
    case DIMENSION_MASS:
    case DIMENSION_VOLUME:
        if (!measure_amount(resolving, food, unit, size, &grams)) {
            fail_volume(resolving, food, resolve_words_text(resolving, first, end), resolve_words_span(resolving, first, end));
            return;
        }
        measure_note_volume(resolving, unit, size, first, end);
        set_grams(resolving, resolving->package ? grams : measure_by_spoon(resolving, unit, grams));
        if (unit->dimension == DIMENSION_VOLUME)
            warn_of_vague_salt(resolving, food);
        return;
    case DIMENSION_COUNT:
        measure_pieces(resolving, food);
        resolving->resolved->scale = range_multiply(resolving->resolved->scale, range_multiply(unit->factor, size));
        derive_unit(resolving, unit);
        derive_times(resolving, DERIVED_SIZE, resolve_words_text(resolving, first, end), size);
        return;
    case DIMENSION_PACKAGE:
        resolve_fail(resolving, FINDING_NO_PACKAGE_SIZE, resolve_words_span(resolving, first, end),
                     GAPS(resolving->package_word, food_name(food)));
        return;
    default:
        resolve_fail(resolving, FINDING_UNKNOWN_UNIT, resolve_words_span(resolving, first, end),
                     GAPS(resolve_words_text(resolving, first, end), food_name(food)));
    }
}

static void fail_ambiguous(struct resolving *resolving, const struct unit *unit, const struct library *owner,
                           uint32_t first, uint32_t end)
{
    struct text meanings[2] = { { "", 0 }, { "", 0 } };
    for (uint32_t i = 0; i < unit->between_count && i < 2; i++)
        meanings[i] = library_text(owner, owner->texts[unit->first_between + i]);
    resolve_fail(resolving, FINDING_AMBIGUOUS_UNIT, resolve_words_span(resolving, first, end),
                 GAPS(resolve_words_text(resolving, first, end), meanings[0], meanings[1]));
}

/* What the words before the name come to, beside a total in parentheses: the two must not disagree. */
static void expect_words(struct resolving *resolving, struct food_at food, uint32_t first, uint32_t end)
{
    struct resolved probe = { 0 };
    struct resolving other = *resolving;
    if (!(resolving->resolved->flags & RESOLVED_TOTAL) || resolving->aside.total || first == end)
        return;
    other.resolved = &probe;
    other.voice.findings = NULL;
    other.derivation = NULL;
    other.aside.found = false;
    measure_food(&other, food, first, end);
    if (probe.flags & RESOLVED_BAD)
        return;
    resolving->resolved->expected = probe.scale;
    resolving->rare.measure_words = other.rare.measure_words;
    resolving->rare.measure_ml = other.rare.measure_ml;
}

void measure_food(struct resolving *resolving, struct food_at food, uint32_t first, uint32_t end)
{
    struct range grams, size;
    bool joined;
    uint32_t at = first, length = 0;
    const struct library *owner = NULL;
    const struct unit *unit = measure_find_unit(resolving, first, end, &at, &length, &owner);
    derive_restart(resolving->derivation);
    if (unit && unit->dimension == DIMENSION_AMBIGUOUS) {
        fail_ambiguous(resolving, unit, owner, first, end);
        return;
    }
    if (measure_refuses_size(resolving, unit, first, end))
        return;
    if (use_aside(resolving, food)) {
        expect_words(resolving, food, first, end);
        return;
    }
    if (first == end) {
        measure_pieces(resolving, food);
        return;
    }
    bool measured = unit && (unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_VOLUME);
    if (!measured && (portion_piece(resolving, food, first, end, &grams, &joined)
                      || sized_piece_grams(resolving, food, first, end, &grams, &joined))) {
        resolving->resolved->flags |= RESOLVED_BY_COUNT;
        set_grams(resolving, grams);
        say_joined(resolving, food, joined);
        return;
    }
    size = measure_size_factor(resolving, unit, first, end, at, length);
    if (unit)
        measure_by_unit(resolving, food, unit, first, end, size);
    else
        resolve_fail(resolving, FINDING_UNKNOWN_UNIT, resolve_words_span(resolving, first, end),
                     GAPS(resolve_words_text(resolving, first, end), food_name(food)));
}
