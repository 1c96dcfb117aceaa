/* Limits and goals: `limit sodium from cook-added at most 400 mg per serving`. Nutrients are the library's own, so
 * that they are looked up at once. */
#include <string.h>

#include "model/collect.h"

struct reading {
    struct gathering *gathering;
    const struct node *node;
    struct bound bound;
    enum bound_holder holder;
    uint32_t nutrient, over;
};

static const struct library *library_of(const struct reading *reading)
{
    return reading->gathering->kitchen->stdlib;
}

static struct text text_read(const struct reading *reading)
{
    return reading->gathering->parse.text;
}

static struct text written(const struct reading *reading, struct span span)
{
    return collect_written(reading->gathering, span);
}

/* Where `set by clinician` begins at the end of the items, or NULL. */
static const struct item *find_clinician(const struct reading *reading, const struct item *items)
{
    const struct item *set = items_find_word(text_read(reading), items, "set"), *by = set ? set->next : NULL, *whom = by ? by->next : NULL;
    bool said = whom && !whom->next && text_is(written(reading, by->span), "by") && text_is(written(reading, whom->span), "clinician");
    return said ? set : NULL;
}

static bool fail(const struct reading *reading, enum words_code code, struct span span, struct text text)
{
    finding_add(&reading->gathering->findings, code, collect_place(reading->gathering, span), GAPS(text));
    return false;
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
    struct text word = items_between(text_read(reading), from->next, NULL);
    enum origin origin = origin_of(word);
    if (origin == ORIGIN_COUNT)
        return fail(reading, FINDING_UNKNOWN_ORIGIN, from->span, word);
    reading->bound.origin = (uint8_t)origin;
    reading->bound.column = library_of(reading)->origin_column + origin;
    return reading->nutrient == library_of(reading)->traced
        || fail(reading, FINDING_NO_ORIGINS, from->span, written(reading, reading->node->items.first->span));
}

static bool read_subject(struct reading *reading)
{
    const struct item *first = reading->node->items.first;
    const struct item *from = items_find_word(text_read(reading), first, "from"), *to = items_find_word(text_read(reading), first, "to");
    const struct item *end = from ? from : to;
    reading->bound.origin = ORIGIN_COUNT;
    reading->bound.over = NONE_INDEX;
    if (!find_nutrient(reading, items_between(text_read(reading), first, end), first->span, &reading->nutrient))
        return false;
    reading->bound.column = reading->nutrient;
    if (from)
        return read_origin(reading, from);
    if (!to)
        return true;
    if (!find_nutrient(reading, items_between(text_read(reading), to->next, NULL), to->span, &reading->over))
        return false;
    reading->bound.over = reading->over;
    return true;
}

/* ---- the figure ---------------------------------------------------------------------------------------------------- */

double collect_unit_factor(struct gathering *gathering, uint32_t number, struct text words, struct span span, double *divisor)
{
    char key[KEY_BYTES];
    const struct library *library = gathering->kitchen->stdlib, *owner;
    const struct nutrient *nutrient = library_nutrient_at(library, number, &owner);
    const struct unit *unit = library_unit(library, (struct text){ key, name_key_of(words, false, key) }, NULL);
    if (text_equal(words, library_text(owner, nutrient->unit)))
        return 1;
    name_key_of(library_text(owner, nutrient->unit), false, key);
    bool energy = nutrient->unit_factor == 1 && text_is(library_text(owner, nutrient->unit), "kcal");
    if (unit && unit->dimension == (energy ? DIMENSION_ENERGY : DIMENSION_MASS))
        return unit->factor.best / nutrient->unit_factor;
    if (unit && unit->dimension == DIMENSION_SUBSTANCE && nutrient->mole > 0)
        return *divisor = nutrient->mole * unit->factor.best;
    if (unit && unit->dimension == DIMENSION_CHARGE && nutrient->charge > 0)
        return *divisor = nutrient->mole / nutrient->charge * unit->factor.best;
    finding_add(&gathering->findings, words.length ? FINDING_BOUND_UNIT : FINDING_BOUND_WITHOUT_UNIT, collect_place(gathering, span),
                GAPS(words, library_text(owner, nutrient->name)));
    return 0;
}

static bool read_ratio_unit(struct reading *reading, const struct item *unit)
{
    struct text words = items_between(text_read(reading), unit, find_clinician(reading, unit));
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
        struct text words = items_between(text_read(reading), unit, find_clinician(reading, unit));
        struct span span = unit ? unit->span : node->quantity.span;
        factor = collect_unit_factor(reading->gathering, reading->nutrient, words, span, &reading->bound.divisor);
        reading->bound.unit = (struct text){ arena_copy(&reading->gathering->arena, words.bytes, words.length), words.length };
    }
    if (factor > 0 && node->comparison == COMPARE_BETWEEN && amount_compare(low, high) > 0)
        return fail(reading, FINDING_BACKWARD_RANGE, node->span, written(reading, node->span));
    set_bounds(reading, low * factor, high * factor);
    return factor > 0;
}

/* ---- the basis ------------------------------------------------------------------------------------------------------- */

static bool read_measured_basis(struct reading *reading, const struct item *first, const struct item *end)
{
    char key[KEY_BYTES];
    struct text words = items_between(text_read(reading), first->next, end);
    const struct unit *unit = library_unit(library_of(reading), (struct text){ key, name_key_of(words, false, key) }, NULL);
    if (!unit || first->quantity->low <= 0 || (unit->dimension != DIMENSION_MASS && unit->dimension != DIMENSION_ENERGY))
        return fail(reading, FINDING_BOUND_PER, first->span, items_between(text_read(reading), first, end));
    reading->bound.basis = unit->dimension == DIMENSION_MASS ? PER_MASS : PER_ENERGY;
    reading->bound.per = first->quantity->low * unit->factor.best;
    return true;
}

/* What is said behind `per`; false after a finding. */
static bool read_said_basis(struct reading *reading, const struct item *first)
{
    static const char *const said[] = { "serving", "recipe", "day", "meal", "reference amount" };
    static const enum basis meant[] = { PER_SERVING, PER_RECIPE, PER_DAY, PER_MEAL, PER_REFERENCE };
    const struct item *end = find_clinician(reading, first);
    if (first->kind == ITEM_NUMBER && first->next)
        return read_measured_basis(reading, first, end);
    struct text words = items_between(text_read(reading), first, end);
    for (uint32_t i = 0; i < COUNT_OF(said); i++) {
        if (text_is(words, said[i])) {
            reading->bound.basis = meant[i];
            return true;
        }
    }
    return fail(reading, FINDING_BOUND_PER, first->span, words);
}

/* Whether who holds the bound has what it is held per: a recipe has servings, a day has meals. */
static bool basis_fits(const struct reading *reading)
{
    enum basis basis = reading->bound.basis;
    bool of_recipe = basis == PER_SERVING || basis == PER_RECIPE || basis == PER_REFERENCE, of_day = basis == PER_DAY || basis == PER_MEAL;
    switch (reading->holder) {
    case BOUND_OF_RECIPE: return !of_day;
    case BOUND_OF_DAY: return !of_recipe;
    case BOUND_OF_MEAL: return !of_recipe && basis != PER_DAY;
    case BOUND_OF_WEEK: return basis == PER_DAY || basis == PER_ENERGY;
    case BOUND_OF_POLICY: break;
    }
    return true;
}

static bool read_basis(struct reading *reading)
{
    static const enum basis usual[] = { [BOUND_OF_RECIPE] = PER_SERVING, [BOUND_OF_DAY] = PER_DAY,
                                        [BOUND_OF_MEAL] = PER_MEAL, [BOUND_OF_WEEK] = PER_DAY, [BOUND_OF_POLICY] = PER_SERVING };
    static const enum words_code misfits[] = { [BOUND_OF_RECIPE] = FINDING_BOUND_IN_RECIPE, [BOUND_OF_DAY] = FINDING_BOUND_IN_DAY,
                                               [BOUND_OF_MEAL] = FINDING_BOUND_IN_MEAL, [BOUND_OF_WEEK] = FINDING_BOUND_IN_WEEK };
    const struct item *first = reading->node->per.first;
    reading->bound.basis = usual[reading->holder];
    if (first && !read_said_basis(reading, first))
        return false;
    if (basis_fits(reading))
        return true;
    return fail(reading, misfits[reading->holder], first->span, items_between(text_read(reading), first, find_clinician(reading, first)));
}

/* The sums that the bound will be held against. */
static uint64_t columns_of(const struct reading *reading)
{
    const struct bound *bound = &reading->bound;
    uint64_t columns = (uint64_t)1 << bound->column;
    if (bound->origin < ORIGIN_COUNT)               /* it widens the other origins */
        columns |= (uint64_t)1 << (library_of(reading)->origin_column + ORIGIN_UNSEPARATED);
    if (bound->over != NONE_INDEX)
        columns |= (uint64_t)1 << bound->over;
    if (bound->basis == PER_MASS || bound->basis == PER_REFERENCE)
        columns |= (uint64_t)1 << library_of(reading)->mass_column;
    return columns;
}

bool collect_bound(struct gathering *gathering, const struct node *node, enum bound_holder holder, uint32_t meal)
{
    struct reading reading = { .gathering = gathering, .node = node, .holder = holder, .bound.meal = meal };
    if (node->comparison == COMPARE_NONE)
        return fail(&reading, FINDING_NO_COMPARISON, node->span, written(&reading, node->span));
    if (!read_subject(&reading) || !read_figure(&reading) || !read_basis(&reading))
        return false;
    reading.bound.is_goal = node->kind == NODE_GOAL;
    reading.bound.place = collect_place(gathering, node->span);
    reading.bound.by_clinician = find_clinician(&reading, node->unit.first) || find_clinician(&reading, node->per.first);
    if (!array_grow(&gathering->kitchen->allocator, &gathering->bounds, gathering->bounds_count,
                    &gathering->bounds_capacity, sizeof reading.bound)) {
        gathering->failed = true;
        return false;
    }
    gathering->bounds[gathering->bounds_count++] = reading.bound;
    gathering->bound_columns |= columns_of(&reading);
    return true;
}
