/* From a written amount to nutrients. All ranges are 0 or more, so the product of low ends is the low end. */
#include <math.h>
#include <string.h>

#include "amount/amount.h"

static const struct library *library_of(const struct gathering *gathering)
{
    return gathering->kitchen->library;
}

/* ---- the driver ------------------------------------------------------------------------------------------------ */

static struct range batch_grams(const struct recipe *recipe, const struct library *library)
{
    bool estimated, known;
    return recipe->total ? recipe_grams(recipe, recipe->total, library, &estimated, &known) : range_exact(0);
}

static struct range batch_ml(const struct recipe *recipe)
{
    return recipe->yields->makes_ml.high > 0 ? recipe->yields->makes_ml : range_multiply(recipe->yields->serving_ml, recipe->serves);
}

struct range recipe_whole(const struct resolved *resolved, const struct library *library)
{
    const struct recipe *recipe = resolved->recipe.recipe;
    if (resolved->measure == RECIPE_SERVINGS)
        return recipe->serves;
    if (resolved->measure == RECIPE_GRAMS)
        return batch_grams(recipe, library);
    return resolved->measure == RECIPE_ML ? batch_ml(recipe) : range_exact(1);
}

/* How many batches one of the recipe's measures is; high 0 when nobody knows. */
static struct range batches(const struct resolved *resolved, struct range amount, const struct library *library)
{
    struct range whole = recipe_whole(resolved, library);
    return whole.low > 0 ? range_divide(amount, whole) : range_exact(0);
}

/* The written amount, and whether it has an upper end. */
static struct range written_amount(const struct line *line, const struct resolved *resolved, bool *open)
{
    *open = false;
    switch (line->quantity) {
    case QUANTITY_NUMBER:
    case QUANTITY_RANGE:
        return range_between(line->low, line->high);
    }
    *open = resolved->some.high <= 0;
    return resolved->some;
}

#define DISAGREEMENT 2              /* spoons and sizes differ; by more than this one of the two is a slip */

static void check_total(struct line_amount *amount, struct range expected)
{
    struct range total = amount->resolved->scale;
    amount->disagrees = total.high * DISAGREEMENT < expected.low || total.low > expected.high * DISAGREEMENT;
    amount->unknown = amount->unknown || amount->disagrees;
}

/* By weight, a recipe without a yield is measured against the sum of what went in; simmering makes it stronger. */
static bool is_estimated(const struct resolved *resolved)
{
    const struct recipe *recipe = resolved->recipe.recipe;
    bool weighed = recipe->yields->makes_grams.high > 0 || (recipe->yields->serving_grams.high > 0 && recipe->serves.high > 0);
    return recipe->is_estimated || (resolved->measure == RECIPE_GRAMS && !weighed);
}

/* What is weighed and thrown away comes off the amount, corner against corner: least stays of the least. */
static void throw_away(struct line_amount *amount, struct range thrown)
{
    struct range *driver = &amount->driver;
    amount->thrown_too_much = amount_compare(thrown.low, driver->high) > 0;
    amount->unknown = amount->unknown || amount->thrown_too_much;
    *driver = range_without(*driver, thrown);
}

struct range line_more(const struct resolved *resolved)
{
    return range_of(0, 0, resolved->flags & RESOLVED_NO_UPPER ? resolved->some.high : 0);
}

static void set_driver(struct line_amount *amount, const struct library *library)
{
    const struct resolved *resolved = amount->resolved;
    struct range written = written_amount(amount->line, resolved, &amount->unmeasured);
    bool some = amount->line->quantity != QUANTITY_NUMBER && amount->line->quantity != QUANTITY_RANGE;
    struct range driver = some ? written : resolved->flags & RESOLVED_TOTAL ? resolved->scale
                                                                           : range_multiply(written, resolved->scale);
    if (resolved->expected.high > 0 && !some)
        check_total(amount, range_multiply(written, resolved->expected));
    if (resolved->subject == SUBJECT_RECIPE) {
        amount->estimated = is_estimated(resolved);
        driver = batches(resolved, driver, library);
        amount->unknown = driver.high <= 0 && !(amount->line->low == 0);
    }
    if (resolved->flags & RESOLVED_OPTIONAL)
        driver.low = 0;
    driver = range_add(driver, line_more(resolved));
    if (resolved->flags & RESOLVED_NO_UPPER && resolved->some.high <= 0)
        amount->unmeasured = true;
    amount->as_written = driver;
    amount->driver = range_multiply(driver, resolved->kept);
    if (resolved->rare->thrown)
        throw_away(amount, range_scale(*resolved->rare->thrown, 0.01));
}

/* The parts around the line keep their share of it. */
static void apply_parts(const struct gathering *gathering, struct line_amount *amount)
{
    for (uint32_t part = amount->line->part; part != NONE_INDEX; part = gathering->parts[part].parent) {
        uint32_t tail = gathering->parts[part].tail;
        const struct resolved *resolved = tail == NONE_INDEX ? NULL : gathering->tails[tail].resolved;
        if (!resolved)
            continue;
        if (!(resolved->flags & RESOLVED_MOVES) && !gathering->parts[part].is_bath)    /* else: dish.c */
            amount->driver = range_multiply(amount->driver, resolved->kept);
        if (resolved->flags & RESOLVED_OPTIONAL)
            amount->driver.low = 0;
        if (resolved->flags & (RESOLVED_BAD | RESOLVED_NOT_COMPUTED))
            amount->unknown = true;
        if (resolved->flags & RESOLVED_NO_UPPER)
            amount->unmeasured = true;
    }
}

/* ---- what is not known -------------------------------------------------------------------------------------------- */

static uint64_t all_columns(const struct library *library)
{
    return library->column_count == 64 ? UINT64_MAX : ((uint64_t)1 << library->column_count) - 1;
}

/* Of an amount without upper end every column is open, but those of which the food holds none. */
static uint64_t open_columns(const struct line_amount *amount, const struct library *library)
{
    uint64_t open = 0;
    for (uint32_t i = 0; i < library->column_count; i++)
        open |= (uint64_t)(amount->values[i].high > 0) << i;
    return open;
}

static const struct range nothing[LIMIT_COLUMNS];

/* What is added goes by the weight that goes in. */
static uint64_t added_columns(const struct stage *stage, const struct library *library)
{
    uint64_t added = 0;
    for (uint32_t i = 0; stage->adds && i < library->mass_column; i++)
        added |= (uint64_t)(stage->adds[i].high > 0) << i;
    return added;
}

static void set_values(struct line_amount *amount, const struct library *library)
{
    const struct resolved *resolved = amount->resolved;
    if (resolved->subject == SUBJECT_RECIPE) {
        const struct amounts *total = resolved->recipe.recipe->total;
        amount->values = total ? total->column : NULL;
        amount->incomplete = total ? total->incomplete : 0;
    } else if (resolved->subject == SUBJECT_BATH) {
        amount->values = nothing;           /* dish.c knows what it holds */
    } else {
        amount->values = resolved->values;
        amount->incomplete = resolved->unknown;
    }
    amount->unknown = amount->unknown || !amount->values;
    if (amount->incomplete >> library->mass_column & 1)
        amount->incomplete |= added_columns(&resolved->done, library);
    amount->incomplete |= resolved->done.lost;
    if (amount->unmeasured && amount->values)
        amount->incomplete |= open_columns(amount, library);
    amount->incomplete &= all_columns(library);
    amount->mass_known = !(amount->incomplete >> library->mass_column & 1);
}

/* Recipes of recipes of a thousand million batches each leave the numbers behind. */
static bool overflows(const struct line_amount *amount, const struct library *library)
{
    bool too_large = false;
    for (uint32_t i = 0; i < library->column_count && amount->resolved->subject == SUBJECT_RECIPE && !amount->unknown; i++)
        too_large = too_large || !(amount->driver.high * amount->values[i].high < LIMIT_AMOUNT);
    return too_large;
}

void line_compute(const struct gathering *gathering, const struct line *line, const struct resolved *resolved,
                  struct line_amount *amount)
{
    const struct library *library = library_of(gathering);
    *amount = (struct line_amount){ .line = line, .resolved = resolved, .values = nothing };
    bool known = resolved && resolved->subject != SUBJECT_NONE
              && !(line->flags & (LINE_BROKEN | LINE_NOT_COMPUTED))
              && !(resolved->flags & (RESOLVED_BAD | RESOLVED_NOT_COMPUTED));
    amount->unknown = !known;
    if (known) {
        set_driver(amount, library);
        apply_parts(gathering, amount);
        set_values(amount, library);
    }
    amount->too_large = known && (!(amount->driver.high < LIMIT_DRIVER) || overflows(amount, library));
    amount->unknown = amount->unknown || amount->too_large;
    if (!amount->unknown)
        return;
    amount->values = nothing;
    amount->driver = amount->as_written = range_exact(0);
    amount->incomplete = all_columns(library);
    amount->mass_known = false;
}

/* ---- columns --------------------------------------------------------------------------------------------------------- */

/* Water that went with the weight, and never more than there was. */
static struct range water_left(const struct stage *stage, struct range water, struct range grams)
{
    return range_of(amount_larger(0, water.low + (stage->mass.low - 1) * grams.low),
                    amount_larger(0, water.best + (stage->mass.best - 1) * grams.best),
                    amount_larger(0, water.high + (stage->mass.high - 1) * grams.high));
}

struct range stage_rate(const struct stage *stage, struct range rate, struct range grams, const struct library *library, uint32_t column)
{
    if (column == library->mass_column)
        return range_multiply(rate, stage->mass);
    if (stage->keeps)
        rate = range_multiply(rate, stage->keeps[column]);
    if (column == library->solvent && stage->weight_is_water)
        return water_left(stage, rate, grams);
    return stage->adds ? range_add(rate, range_scale(range_multiply(stage->adds[column], grams), 0.01)) : rate;
}

struct range line_rate(const struct line_amount *amount, const struct library *library, uint32_t column)
{
    struct range rate = amount->values[column];
    const struct resolved *resolved = amount->resolved;
    if (amount->unknown)
        return range_exact(0);
    if (amount->own)
        return amount->own[column];
    return stage_rate(&resolved->done, rate, amount->values[library->mass_column], library, column);
}

struct range line_column(const struct line_amount *amount, const struct library *library, uint32_t column)
{
    return range_multiply(amount->driver, line_rate(amount, library, column));
}

bool line_known_before(const struct line_amount *amount, uint32_t column)
{
    const struct resolved *resolved = amount->resolved;
    if (amount->unknown || amount->unmeasured || resolved->subject == SUBJECT_BATH)
        return false;
    uint64_t unknown = resolved->subject == SUBJECT_RECIPE ? resolved->recipe.recipe->total->incomplete : resolved->unknown;
    return !(unknown >> column & 1);
}

struct range line_grams(const struct line_amount *amount, const struct library *library)
{
    if (amount->unknown)
        return range_exact(0);
    if (amount->resolved->subject == SUBJECT_FOOD && amount->resolved->food.food->basis == FOOD_PER_100_G)
        return range_scale(amount->as_written, 100);
    return amount->mass_known ? range_multiply(amount->as_written, amount->values[library->mass_column]) : range_exact(0);
}

void amounts_clear(struct amounts *amounts, uint32_t columns)
{
    amounts->incomplete = 0;
    memset(amounts->column, 0, columns * sizeof *amounts->column);
}

static void add_products(struct range *sums, struct range driver, const struct range *values, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        sums[i].low += driver.low * values[i].low;
        sums[i].best += driver.best * values[i].best;
        sums[i].high += driver.high * values[i].high;
    }
}

static void add_treated(struct range *sums, struct range driver, const struct range *values,
                        const struct range *keeps, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        sums[i].low += driver.low * (values[i].low * keeps[i].low);
        sums[i].best += driver.best * (values[i].best * keeps[i].best);
        sums[i].high += driver.high * (values[i].high * keeps[i].high);
    }
}

static void add_columns(struct amounts *amounts, const struct line_amount *line, const struct library *library,
                        uint32_t first, uint32_t end)
{
    for (uint32_t i = first; i < end; i++)
        amounts->column[i] = range_add(amounts->column[i], line_column(line, library, i));
}

/* The inner loops of the whole program: three products and sums a column. Mass stands behind the nutrients and has a
 * factor of its own; water goes with it. */
void amounts_add(struct amounts *amounts, const struct line_amount *line, const struct library *library)
{
    uint32_t mass = library->mass_column, water = library->solvent < mass ? library->solvent : mass;
    const struct range *keeps = line->resolved && !line->unknown ? line->resolved->done.keeps : NULL;
    amounts->incomplete |= line->incomplete;
    if (line->unknown)
        return;
    if (line->own || line->resolved->done.adds) {
        add_columns(amounts, line, library, 0, mass + 1);
    } else if (keeps) {
        add_treated(amounts->column, line->driver, line->values, keeps, water);
        add_columns(amounts, line, library, water, water + 1);
        add_treated(amounts->column + water + 1, line->driver, line->values + water + 1, keeps + water + 1,
                    mass > water ? mass - water - 1 : 0);
        if (mass > water)
            add_columns(amounts, line, library, mass, mass + 1);
    } else {
        add_products(amounts->column, line->driver, line->values, mass);
        add_columns(amounts, line, library, mass, mass + 1);
    }
}

void amounts_add_some(struct amounts *amounts, const struct line_amount *line, const struct library *library,
                      const uint8_t *columns, uint32_t count)
{
    amounts->incomplete |= line->incomplete;
    for (uint32_t i = 0; i < count && !line->unknown; i++) {
        struct range *sum = &amounts->column[columns[i]];
        *sum = range_add(*sum, line_column(line, library, columns[i]));
    }
}

uint32_t unseparated_beside(const struct library *library, uint32_t column)
{
    uint32_t unseparated = library->origin_column + ORIGIN_UNSEPARATED;
    bool parted = library->traced != NONE_INDEX && column >= library->origin_column && column < unseparated;
    return parted ? unseparated : NONE_INDEX;
}

struct range amounts_widened(const struct amounts *amounts, const struct library *library, uint32_t column, bool *complete)
{
    uint32_t beside = unseparated_beside(library, column);
    struct range amount = amounts->column[column];
    *complete = amounts_complete(amounts, column) && (beside == NONE_INDEX || amounts_complete(amounts, beside));
    return beside == NONE_INDEX ? amount : range_of(amount.low, amount.best, amount.high + amounts->column[beside].high);
}

struct range recipe_grams(const struct recipe *recipe, const struct amounts *total, const struct library *library,
                          bool *estimated, bool *known)
{
    struct range serving = recipe->yields->serving_grams;
    *estimated = false;
    *known = true;
    if (recipe->yields->makes_grams.high > 0)
        return recipe->yields->makes_grams;
    if (serving.high > 0 && recipe->serves.high > 0)
        return range_multiply(serving, recipe->serves);
    *estimated = true;
    *known = amounts_complete(total, library->mass_column);
    return total->column[library->mass_column];
}
