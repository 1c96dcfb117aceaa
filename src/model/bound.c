/* Limits and aims: `limit sodium from cook-added at most 400 mg per serving`. Nutrients are the library's own, so
 * that they are looked up at once. */
#include <string.h>

#include "model/collect.h"

struct reading {
    struct gathering *gathering;
    const struct node *node;
    struct bound bound;
    uint32_t nutrient, over;
};

static const struct library *library_of(const struct reading *reading)
{
    return reading->gathering->kitchen->stdlib;
}

static struct text written(const struct reading *reading, struct span span)
{
    return collect_written(reading->gathering, span);
}

/* The words from `first` up to, not including, `end`. */
static struct text words_between(const struct reading *reading, const struct item *first, const struct item *end)
{
    const struct item *last = first;
    if (!first || first == end)
        return (struct text){ "", 0 };
    while (last->next && last->next != end)
        last = last->next;
    return written(reading, (struct span){ first->span.start, last->span.end });
}

static bool fail(const struct reading *reading, enum words_code code, struct span span, struct text text)
{
    finding_add(&reading->gathering->findings, code, collect_place(reading->gathering, span), GAPS(text));
    return false;
}

static const struct item *find_word(const struct reading *reading, const struct item *items, const char *word)
{
    while (items && !text_is(written(reading, items->span), word))
        items = items->next;
    return items;
}

static bool find_nutrient(const struct reading *reading, struct text name, struct span span, uint32_t *nutrient)
{
    char key[KEY_BYTES];
    struct text found = { key, name_key_of(name, false, key) };
    return library_nutrient(library_of(reading), found, nutrient)
        || fail(reading, FINDING_BOUND_SUBJECT, span, name);
}

static bool read_origin(struct reading *reading, const struct item *from)
{
    static const char *const names[] = { "inherent", "maker-added", "cook-added", "unseparated" };
    struct text word = words_between(reading, from->next, NULL);
    for (uint32_t i = 0; i < COUNT_OF(names); i++) {
        if (text_is(word, names[i])) {
            reading->bound.origin = (uint8_t)i;
            reading->bound.column = library_of(reading)->origin_column + i;
            return reading->nutrient == library_of(reading)->traced
                || fail(reading, FINDING_NO_ORIGINS, from->span, written(reading, reading->node->items.first->span));
        }
    }
    return fail(reading, FINDING_UNKNOWN_ORIGIN, from->span, word);
}

static bool read_subject(struct reading *reading)
{
    const struct item *first = reading->node->items.first;
    const struct item *from = find_word(reading, first, "from"), *to = find_word(reading, first, "to");
    const struct item *end = from ? from : to;
    reading->bound.origin = ORIGIN_COUNT;
    reading->bound.over = NONE_INDEX;
    if (!find_nutrient(reading, words_between(reading, first, end), first->span, &reading->nutrient))
        return false;
    reading->bound.column = reading->nutrient;
    if (from)
        return read_origin(reading, from);
    if (!to)
        return true;
    if (!find_nutrient(reading, words_between(reading, to->next, NULL), to->span, &reading->over))
        return false;
    reading->bound.over = reading->over;
    return true;
}

/* ---- the figure ---------------------------------------------------------------------------------------------------- */

/* The nutrient's units in one of the written unit; 0 after a finding. */
static double unit_factor(struct reading *reading, struct text words, struct span span)
{
    char key[KEY_BYTES];
    const struct library *library = library_of(reading), *owner;
    const struct nutrient *nutrient = library_nutrient_at(library, reading->nutrient, &owner);
    const struct unit *unit = library_unit(library, (struct text){ key, name_key_of(words, false, key) }, NULL);
    if (text_equal(words, library_text(owner, nutrient->unit)))
        return 1;
    name_key_of(library_text(owner, nutrient->unit), false, key);
    bool energy = nutrient->unit_factor == 1 && text_is(library_text(owner, nutrient->unit), "kcal");
    if (unit && unit->dimension == (energy ? DIMENSION_ENERGY : DIMENSION_MASS))
        return unit->factor.best / nutrient->unit_factor;
    if (unit && unit->dimension == DIMENSION_SUBSTANCE && nutrient->mole > 0)
        return reading->bound.divisor = nutrient->mole * unit->factor.best;
    if (unit && unit->dimension == DIMENSION_CHARGE && nutrient->charge > 0)
        return reading->bound.divisor = nutrient->mole / nutrient->charge * unit->factor.best;
    finding_add(&reading->gathering->findings, words.length ? FINDING_BOUND_UNIT : FINDING_BOUND_WITHOUT_UNIT, collect_place(reading->gathering, span),
                GAPS(words, library_text(owner, nutrient->name)));
    return 0;
}

static bool read_ratio_unit(struct reading *reading, const struct item *unit)
{
    struct text words = words_between(reading, unit, NULL);
    reading->bound.by_moles = text_is(words, "by moles");
    reading->bound.unit = text_of("1");
    bool moles = !reading->bound.by_moles
              || (library_nutrient_at(library_of(reading), reading->nutrient, NULL)->mole > 0
                  && library_nutrient_at(library_of(reading), reading->over, NULL)->mole > 0);
    if (moles && (words.length == 0 || reading->bound.by_moles || text_is(words, "by mass")))
        return true;
    return fail(reading, FINDING_RATIO_UNIT, unit->span, words);
}

static void set_bounds(struct reading *reading, double low, double high)
{
    struct bound *bound = &reading->bound;
    enum comparison comparison = reading->node->comparison;
    bound->strict = comparison == COMPARE_UNDER || comparison == COMPARE_OVER;
    bound->has_most = comparison == COMPARE_AT_MOST || comparison == COMPARE_UNDER || comparison == COMPARE_BETWEEN;
    bound->has_least = comparison == COMPARE_AT_LEAST || comparison == COMPARE_OVER || comparison == COMPARE_BETWEEN;
    bound->least = low;
    bound->most = comparison == COMPARE_BETWEEN ? high : low;
}

static bool read_figure(struct reading *reading)
{
    const struct node *node = reading->node;
    const struct item *unit = node->unit.first;
    double factor = 1, low = node->quantity.low, high = node->second.low;
    bool number = node->quantity.kind == QUANTITY_NUMBER && !node->quantity.is_percent
               && (node->comparison != COMPARE_BETWEEN || node->second.kind == QUANTITY_NUMBER);
    reading->bound.divisor = 1;
    if (!number)
        return node->quantity.kind == QUANTITY_BAD || node->second.kind == QUANTITY_BAD ? false
             : fail(reading, FINDING_BOUND_FIGURE, node->quantity.span, written(reading, node->quantity.span));
    if (reading->bound.over != NONE_INDEX) {
        if (unit && !read_ratio_unit(reading, unit))
            return false;
        reading->bound.unit = text_of("1");
    } else {
        struct text words = words_between(reading, unit, NULL);
        struct span span = unit ? unit->span : node->quantity.span;
        factor = unit_factor(reading, words, span);
        reading->bound.unit = (struct text){ arena_copy(&reading->gathering->arena, words.bytes, words.length), words.length };
    }
    if (factor > 0 && node->comparison == COMPARE_BETWEEN && amount_compare(low, high) > 0)
        return fail(reading, FINDING_BACKWARD_RANGE, node->span, written(reading, node->span));
    set_bounds(reading, low * factor, high * factor);
    return factor > 0;
}

/* ---- the basis ------------------------------------------------------------------------------------------------------- */

static bool read_measured_basis(struct reading *reading, const struct item *first)
{
    char key[KEY_BYTES];
    struct text words = words_between(reading, first->next, NULL);
    const struct unit *unit = library_unit(library_of(reading), (struct text){ key, name_key_of(words, false, key) }, NULL);
    if (!unit || first->quantity->low <= 0 || (unit->dimension != DIMENSION_MASS && unit->dimension != DIMENSION_ENERGY))
        return fail(reading, FINDING_BOUND_PER, first->span, words_between(reading, first, NULL));
    reading->bound.basis = unit->dimension == DIMENSION_MASS ? PER_MASS : PER_ENERGY;
    reading->bound.per = first->quantity->low * unit->factor.best;
    return true;
}

static bool read_basis(struct reading *reading)
{
    const struct item *first = reading->node->per.first;
    reading->bound.basis = PER_SERVING;
    if (!first)
        return true;
    if (first->kind == ITEM_NUMBER && first->next)
        return read_measured_basis(reading, first);
    struct text words = words_between(reading, first, NULL);
    if (text_is(words, "serving"))
        return true;
    if (text_is(words, "recipe")) {
        reading->bound.basis = PER_RECIPE;
        return true;
    }
    if (text_is(words, "reference amount")) {
        reading->bound.basis = PER_REFERENCE;
        return true;
    }
    if (text_is(words, "meal") || text_is(words, "day")) {
        finding_add(&reading->gathering->findings, FINDING_NOT_COMPUTED_ASIDE,
                    collect_place(reading->gathering, reading->node->span), GAPS(text_of("a limit per meal or day")));
        return false;
    }
    return fail(reading, FINDING_BOUND_PER, first->span, words);
}

/* The sums that the bound will be held against. */
static uint64_t columns_of(const struct reading *reading)
{
    const struct bound *bound = &reading->bound;
    uint64_t columns = (uint64_t)1 << bound->column;
    if (bound->over != NONE_INDEX)
        columns |= (uint64_t)1 << bound->over;
    if (bound->basis == PER_MASS || bound->basis == PER_REFERENCE)
        columns |= (uint64_t)1 << library_of(reading)->mass_column;
    return columns;
}

bool collect_bound(struct gathering *gathering, const struct node *node)
{
    struct reading reading = { .gathering = gathering, .node = node };
    if (node->comparison == COMPARE_NONE)
        return fail(&reading, FINDING_NO_COMPARISON, node->span, written(&reading, node->span));
    if (!read_subject(&reading) || !read_figure(&reading) || !read_basis(&reading))
        return false;
    reading.bound.is_aim = node->kind == NODE_AIM;
    reading.bound.place = collect_place(gathering, node->span);
    if (!array_grow(&gathering->kitchen->allocator, &gathering->bounds, gathering->bounds_count,
                    &gathering->bounds_capacity, sizeof reading.bound)) {
        gathering->failed = true;
        return false;
    }
    gathering->bounds[gathering->bounds_count++] = reading.bound;
    gathering->bound_columns |= columns_of(&reading);
    return true;
}
