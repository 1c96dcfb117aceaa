/* A traced line as a table: its amount, the measure, what the food holds, what was done to it, what it comes to. */
#include "output/trace_rows.h"

static const struct text none = { "", 0 };

#define SAY(symbol, ...) sheet_say(rows->sheet, PHRASE_##symbol, __VA_ARGS__)
#define WORDS(symbol) phrase_text(PHRASE_##symbol)

static bool is_label(const struct traced_line *line)
{
    const struct resolved *resolved = line->amount->resolved;
    return resolved->subject == SUBJECT_FOOD && resolved->food.food->basis == FOOD_PER_SERVING;
}

/* ---- how much ------------------------------------------------------------------------------------------------------------ */

static void add_amount(struct trace_rows *rows, const struct traced_line *line)
{
    const struct line *written = line->amount->line;
    bool total = line->amount->resolved->flags & RESOLVED_TOTAL;
    if (written->quantity == QUANTITY_NUMBER || written->quantity == QUANTITY_RANGE)
        rows_add(rows, 0, total ? WORDS(TRACE_AMOUNT_NOT_USED) : WORDS(TRACE_AMOUNT), range_between(written->low, written->high), true, none);
}

static void add_portion(struct trace_rows *rows, const struct traced_line *line, const struct derived_step *step)
{
    rows_add(rows, 1, is_label(line) ? SAY(TRACE_PORTION_SERVINGS, step->words) : SAY(TRACE_PORTION, step->words), step->factor, true, step->source);
    if (step->per.best != 1)
        rows_add(rows, 1, WORDS(TRACE_PORTION_ML), step->per, true, none);
}

static void add_measure(struct trace_rows *rows, const struct traced_line *line, const struct derived_step *step)
{
    switch (step->kind) {
    case DERIVED_SOME: rows_add(rows, 1, WORDS(TRACE_SOME), step->factor, true, step->source); return;
    case DERIVED_AMOUNT: rows_add(rows, 1, WORDS(TRACE_IN_PARENTHESES), step->factor, true, none); return;
    case DERIVED_UNIT:
        rows_add(rows, 1, step->in ? SAY(TRACE_UNIT, step->words, text_of(step->in)) : SAY(TRACE_UNIT_PIECES, step->words), step->factor, true, step->source);
        return;
    case DERIVED_SIZE: rows_add(rows, 1, SAY(TRACE_SIZE, step->words), step->factor, true, step->source); return;
    case DERIVED_PORTION: add_portion(rows, line, step); return;
    case DERIVED_DENSITY: rows_add(rows, 1, WORDS(TRACE_DENSITY), step->factor, true, step->source); return;
    case DERIVED_PIECE: rows_add(rows, 1, step->words.length ? WORDS(TRACE_PIECE_SIZES) : WORDS(TRACE_PIECE), step->factor, true, step->source); return;
    case DERIVED_SERVING: rows_add(rows, 1, SAY(TRACE_SERVING, step->words), step->per, true, step->source); return;
    case DERIVED_PACKAGE: rows_add(rows, 1, WORDS(TRACE_PACKAGE), step->factor, true, step->source); return;
    case DERIVED_MADE: rows_add(rows, 1, SAY(TRACE_MADE, step->words), step->factor, true, none); return;
    case DERIVED_SPOON: rows_add(rows, 1, WORDS(TRACE_SPOON), step->factor, true, none); return;
    case DERIVED_EDIBLE: rows_add(rows, 1, WORDS(TRACE_EDIBLE), step->factor, true, step->source); return;
    default: return;
    }
}

static void add_measures(struct trace_rows *rows, const struct traced_line *line, bool of_thrown)
{
    for (uint32_t i = 0; i < line->how.count; i++) {
        if (line->how.steps[i].of_thrown == of_thrown)
            add_measure(rows, line, &line->how.steps[i]);
    }
}

static void add_whole(struct trace_rows *rows, const struct traced_line *line)
{
    const struct resolved *resolved = line->amount->resolved;
    struct text words = resolved->measure == RECIPE_SERVINGS ? WORDS(TRACE_WHOLE_SERVINGS)
                      : resolved->measure == RECIPE_GRAMS ? WORDS(TRACE_WHOLE_GRAMS) : WORDS(TRACE_WHOLE_ML);
    if (resolved->measure != RECIPE_BATCHES)
        rows_add(rows, 1, words, line->whole, true, none);
    rows_add(rows, 0, SAY(TRACE_IS_BATCHES, resolved->recipe.recipe->name), line->amount->as_written, line->amount_known, none);
}

static void add_shares(struct trace_rows *rows, const struct traced_recipe *recipe, const struct traced_line *line)
{
    const struct gathering *gathering = recipe->at.gathering;
    const struct resolved *resolved = line->amount->resolved;
    bool optional = resolved->flags & RESOLVED_OPTIONAL, second = false;
    for (uint32_t i = 0; i < line->how.count; i++) {
        const struct derived_step *step = &line->how.steps[i];
        second = second || step->kind == DERIVED_SECOND;
        if (step->kind == DERIVED_KEPT && !second)
            rows_add(rows, 1, SAY(TRACE_KEPT, step->words), step->factor, true, step->source);
    }
    if (resolved->rare->thrown) {
        rows_add(rows, 1, is_label(line) ? SAY(TRACE_LEFT_SERVINGS, none) : SAY(TRACE_LEFT, none),
                 range_scale(*resolved->rare->thrown, is_label(line) ? 0.01 : 1), true, none);
        add_measures(rows, line, true);
    }
    for (uint32_t part = line->amount->line->part; part != NONE_INDEX; part = gathering->parts[part].parent) {
        uint32_t tail = gathering->parts[part].tail;
        const struct resolved *around = tail == NONE_INDEX ? NULL : gathering->tails[tail].resolved;
        if (!around)
            continue;
        if (!(around->flags & RESOLVED_MOVES) && !gathering->parts[part].is_bath && !(range_is_exact(around->kept) && around->kept.best == 1))
            rows_add(rows, 1, SAY(TRACE_PART_KEPT, gathering->parts[part].name), around->kept, true, none);
        optional = optional || around->flags & RESOLVED_OPTIONAL;
    }
    if (optional)
        rows_say(rows, 1, WORDS(TRACE_OPTIONAL), none);
}

static void add_driver(struct trace_rows *rows, const struct traced_recipe *recipe, const struct traced_line *line)
{
    const struct resolved *resolved = line->amount->resolved;
    bool label = is_label(line), food = resolved->subject == SUBJECT_FOOD;
    add_amount(rows, line);
    add_measures(rows, line, false);
    if (line_more(resolved).high > 0)
        rows_add(rows, 1, WORDS(TRACE_MORE), range_scale(line_more(resolved), 100), true, none);
    if (resolved->subject == SUBJECT_RECIPE)
        add_whole(rows, line);
    else if (label)
        rows_add(rows, 0, WORDS(TRACE_IS_SERVINGS), line->amount->as_written, line->amount_known, none);
    else
        rows_add(rows, 0, WORDS(TRACE_IS_GRAMS), range_scale(line->amount->as_written, food ? 100 : 1), line->amount_known, none);
    add_shares(rows, recipe, line);
    if (food)
        rows_add(rows, 0, label ? WORDS(TRACE_COUNTED) : WORDS(TRACE_HUNDREDS), line->driver, line->amount_known, none);
}

/* ---- what it holds, and what was done ---------------------------------------------------------------------------------------- */

static void add_value(struct trace_rows *rows, const struct traced_line *line)
{
    const struct resolved *resolved = line->amount->resolved;
    const struct kitchen *kitchen = rows->trace->kitchen;
    if (resolved->subject == SUBJECT_RECIPE) {
        rows_add(rows, 0, SAY(TRACE_VALUE_BATCH, resolved->recipe.recipe->name, rows->unit), line->value, line->value_known, none);
        return;
    }
    const struct food *food = resolved->food.food;
    uint32_t nutrient = rows->trace->column < rows->trace->library->nutrient_total ? rows->trace->column : rows->trace->library->traced;
    struct text name = library_text(resolved->food.library, food->name), source = library_text(resolved->food.library, food->source);
    rows_add(rows, 0, is_label(line) ? SAY(TRACE_VALUE_SERVING, name, rows->unit) : SAY(TRACE_VALUE_100, name, rows->unit), line->value, line->value_known, source);
    bool tolerated = kitchen->tolerance && food->flags & FOOD_IS_LABEL && food->tolerated != food->values;
    if (tolerated)
        rows_say(rows, 1, WORDS(TRACE_TOLERATED), kitchen_tolerance_source(kitchen, nutrient));
    else if (kitchen->variation && food->varied != food->values)
        rows_say(rows, 1, WORDS(TRACE_VARIED), none);
    else if (food->flags & FOOD_IS_LABEL && !range_is_exact(line->value))
        rows_say(rows, 1, WORDS(TRACE_PRINTED), none);
}

static void add_effect(struct trace_rows *rows, const struct derived_step *step)
{
    switch (step->kind) {
    case DERIVED_KEEPS: rows_add(rows, 2, WORDS(TRACE_KEEPS), step->factor, true, none); return;
    case DERIVED_LOST:
    case DERIVED_UNKNOWN: rows_say(rows, 2, WORDS(TRACE_LOST), none); return;
    case DERIVED_REPLACED: rows_say(rows, 2, WORDS(TRACE_REPLACED), none); return;
    case DERIVED_ADDS: rows_add(rows, 2, SAY(TRACE_ADDS, rows->unit), step->factor, true, none); return;
    case DERIVED_MASS: rows_add(rows, 2, WORDS(TRACE_MASS), step->factor, true, none); return;
    case DERIVED_WATER: rows_say(rows, 2, WORDS(TRACE_WATER), none); return;
    case DERIVED_LIQUID: rows_add(rows, 2, WORDS(TRACE_LIQUID), step->factor, true, none); return;
    case DERIVED_STRONGER: rows_add(rows, 2, WORDS(TRACE_STRONGER), step->factor, true, none); return;
    case DERIVED_VISIT: rows_say(rows, 2, SAY(TRACE_VISIT, step->words), none); return;
    case DERIVED_SECOND: rows_say(rows, 1, WORDS(TRACE_SECOND), none); return;
    case DERIVED_JOINED: rows_say(rows, 1, WORDS(TRACE_JOINED), none); return;
    default: return;
    }
}

static void add_treatment(struct trace_rows *rows, const struct traced_line *line, uint32_t number)
{
    const struct derived_step *step = &line->how.steps[number];
    bool last = number + 1 == line->how.count || step[1].kind == DERIVED_TREATMENT;
    rows_say(rows, 1, step->evidence ? SAY(TRACE_TREATMENT_EVIDENCE, step->words, evidence_word(step->evidence)) : step->words, step->source);
    if (last)
        rows_say(rows, 2, WORDS(TRACE_NO_EFFECT), none);
}

bool rows_treatments(struct trace_rows *rows, const struct traced_line *line, uint32_t baths)
{
    bool changed = false;
    uint32_t passed = 0;
    for (uint32_t i = 0; i < line->how.count; i++) {
        const struct derived_step *step = &line->how.steps[i];
        if (step->kind == DERIVED_SECOND || step->kind == DERIVED_JOINED)
            passed = 0;
        if (passed == baths && !step->of_thrown && step->kind == DERIVED_TREATMENT)
            add_treatment(rows, line, i);
        else if (passed == baths && !step->of_thrown)
            add_effect(rows, step);
        changed = changed || (passed == baths && step->kind > DERIVED_TREATMENT && step->kind < DERIVED_KEPT);
        passed += step->kind == DERIVED_VISIT;
    }
    return changed;
}

/* ---- a line ------------------------------------------------------------------------------------------------------------------- */

static void add_figures(struct trace_rows *rows, const struct traced_recipe *recipe, uint32_t number)
{
    const struct traced_line *line = &recipe->lines[number];
    const struct resolved *resolved = line->amount->resolved;
    add_driver(rows, recipe, line);
    if (resolved->subject != SUBJECT_BATH) {
        add_value(rows, line);
        if (rows_treatments(rows, line, 0))
            rows_add(rows, 0, resolved->subject == SUBJECT_RECIPE ? SAY(TRACE_RATE_BATCH, rows->unit)
                              : is_label(line) ? SAY(TRACE_RATE_SERVING, rows->unit) : SAY(TRACE_RATE, rows->unit), line->rate, line->rate_known, none);
    }
    if (recipe->moves)
        rows_moves(rows, recipe, number);
}

void rows_line(struct trace_rows *rows, const struct traced_recipe *recipe, uint32_t number)
{
    const struct traced_line *line = &recipe->lines[number];
    struct range serves = recipe->at.recipe->serves;
    rows_table(rows, SAY(TRACE_LINE, sheet_print(rows->sheet, "%u", number + 1), line->words));
    if (line->is_measured)
        add_figures(rows, recipe, number);
    rows_add(rows, 0, SAY(TRACE_IS_LINE, rows->unit), line->total, line->known, none);
    if (serves.low > 0)
        rows_add(rows, 0, SAY(TRACE_PER_SERVING, rows->unit), range_divide(line->total, serves), line->known, none);
    if (recipe->complete && recipe->total.best > 0)
        rows_add(rows, 0, WORDS(TRACE_SHARE), range_exact(100 * line->total.best / recipe->total.best), true, none);
    sheet_table_end(rows->sheet);
    if (!line->known)
        sheet_paragraph(rows->sheet, MANNER_DOUBT, SAY(TRACE_LINE_UNKNOWN, rows->name));
}
