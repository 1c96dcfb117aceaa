/* How a spoon or cup was filled: heaped, scant, by a hand that errs, or with a measure that nobody has fixed. The sizes
 * (`heaped`, `scant`) are knowledge: stdlib/units/size.quern. */
#include "model/resolve.h"

static bool is_of_volumes(const struct unit *unit)
{
    return unit && unit->dimension == DIMENSION_SIZE && unit->flags & UNIT_OF_VOLUMES;
}

/* Whether a size says how much there is. A pound of large onions is a pound, and a cup of them a cup; but a large handful
 * is more than a handful. */
static bool size_counts(const struct unit *size, const struct unit *unit, bool before)
{
    if (!unit || is_of_volumes(size))
        return true;
    return unit->dimension != DIMENSION_MASS && (unit->dimension != DIMENSION_VOLUME || before);
}

struct range measure_size_factor(const struct resolving *resolving, const struct unit *unit, uint32_t first, uint32_t end, uint32_t at,
                                 uint32_t length)
{
    struct range factor = range_exact(1);
    uint32_t words;
    for (uint32_t i = first; i < end; i++) {
        bool beside = i < at || i >= at + length;
        const struct unit *size = beside ? measure_size_at(resolving, i, i < at ? at : end, &words) : NULL;
        if (!size)
            continue;
        if (size_counts(size, unit, i < at))
            factor = range_multiply(factor, size->factor);
        i += words - 1;
    }
    return factor;
}

bool measure_refuses_size(struct resolving *resolving, const struct unit *unit, uint32_t first, uint32_t end)
{
    uint32_t at, length;
    const struct library *owner;
    for (uint32_t i = first; i < end; i++) {
        bool by_volume = unit && unit->dimension == DIMENSION_VOLUME;
        if (!is_of_volumes(measure_find_unit(resolving, i, i + 1, &at, &length, &owner)))
            continue;
        if (by_volume && !resolving->filled) {
            resolving->filled = true;
            continue;
        }
        resolve_fail(resolving, by_volume ? FINDING_REPEATED_STATEMENT : FINDING_NOT_BY_VOLUME,
                     resolve_words_span(resolving, i, i + 1), GAPS(resolve_words_text(resolving, i, i + 1)));
        return true;
    }
    return false;
}

static void set_measure(struct resolving *resolving, struct text words, struct range ml)
{
    resolving->rare.measure_words = words;
    resolving->rare.measure_ml = ml;
}

struct range measure_by_spoon(struct resolving *resolving, const struct unit *unit, struct range amount)
{
    double error = resolving->gathering->kitchen->spoon_error;
    if (unit->dimension != DIMENSION_VOLUME || !resolving->tail->is_measured)
        return amount;
    derive_times(resolving, DERIVED_SPOON, text_of(""), range_of(1 - error, 1, 1 + error));
    return range_of(amount.low * (1 - error), amount.best, amount.high * (1 + error));
}

void measure_note_volume(struct resolving *resolving, const struct unit *unit, struct range size, uint32_t first, uint32_t end)
{
    if (unit->dimension != DIMENSION_VOLUME)
        return;
    resolving->resolved->flags |= RESOLVED_BY_VOLUME;
    set_measure(resolving, resolve_words_text(resolving, first, end), range_multiply(unit->factor, size));
}

/* `1 tbsp flour (20 g), heaped`: the weight holds, and the words before it are checked against it as heaped. */
static bool take_size(struct resolving *resolving, struct text words, struct range factor)
{
    struct resolved *resolved = resolving->resolved;
    bool total = resolved->flags & RESOLVED_TOTAL, volume = resolved->flags & RESOLVED_BY_VOLUME;
    if (total ? volume : resolving->rare.measure_ml.high > 0) {
        resolved->scale = range_multiply(resolved->scale, factor);
        derive_times(resolving, DERIVED_SIZE, words, factor);
    }
    else if (resolving->rare.measure_ml.high > 0)
        resolved->expected = range_multiply(resolved->expected, factor);
    else
        return false;
    return true;
}

bool measure_take_size(struct resolving *resolving, const struct phrase *phrase)
{
    char key[KEY_BYTES];
    struct text written = span_text(resolving->tail->text, phrase->span);
    uint32_t length = treat_phrase_key(resolving, phrase->items, key);
    const struct unit *unit = length ? library_unit(resolving->library, (struct text){ key, length }, NULL) : NULL;
    if (!is_of_volumes(unit))
        return false;
    if (resolving->filled)
        resolve_fail(resolving, FINDING_REPEATED_STATEMENT, phrase->span, GAPS(written));
    else if (!take_size(resolving, written, unit->factor))
        resolve_fail(resolving, FINDING_NOT_BY_VOLUME, phrase->span, GAPS(written));
    else
        set_measure(resolving, range_is_exact(resolving->rare.measure_ml) ? written : resolving->rare.measure_words,
                    range_multiply(resolving->rare.measure_ml, unit->factor));
    resolving->filled = true;
    return true;
}
