/* Days in the report: who eats, what each meal holds, how many servings that is, what is published for the eater. */
#include <math.h>
#include <string.h>

#include "output/page.h"

void page_print_eater(struct page *page)
{
    const struct eater *eater = page->recipe->eater;
    bool is_day = page->recipe->is_day;
    if (eater)
        sheet_paragraph(page->sheet, MANNER_PLAIN, sheet_say(page->sheet, is_day ? PHRASE_DAY_EATER : PHRASE_RECIPE_EATER, eater->written));
    else if (is_day)
        sheet_paragraph(page->sheet, MANNER_PLAIN, phrase_text(PHRASE_DAY_EATER_UNSAID));
}

/* ---- meals --------------------------------------------------------------------------------------------------------- */

static void tell_amount(struct page *page, struct text words, uint32_t nutrient, uint32_t column, const struct amounts *amounts, uint32_t depth)
{
    struct sheet_cell cells[] = { cell_words(words), page_cell(page, nutrient, amounts->column[column], amounts_complete(amounts, column)) };
    cells[0].depth = depth;
    sheet_row(page->sheet, cells);
}

static void tell_meal(struct page *page, struct text name, uint32_t part, const struct amounts *amounts)
{
    static const enum report_phrase origins[] = { PHRASE_DAY_NATURE, PHRASE_DAY_MAKER, PHRASE_DAY_COOK, PHRASE_DAY_UNSEPARATED };
    static const struct sheet_column columns[] = { { { "", 0 }, false }, { { "", 0 }, false } };
    const struct rules *rules = page->kitchen->rules;
    uint32_t traced = page->library->traced, under = rules ? rules->compare_under : NONE_INDEX;
    page_subsection(page, name);
    sheet_table(page->sheet, name, columns, 2);
    tell_amount(page, page_name(page, traced), traced, traced, amounts, 0);
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        uint32_t column = page->library->origin_column + i;
        if (!amounts_complete(amounts, column) || amounts->column[column].high > 0)
            tell_amount(page, phrase_text(origins[i]), traced, column, amounts, 1);
    }
    if (under != NONE_INDEX)
        tell_amount(page, page_name(page, under), under, under, amounts, 0);
    sheet_table_end(page->sheet);
    page_print_ranked(page, part, sheet_say(page->sheet, PHRASE_DAY_LINES, name));
}

void page_print_meals(struct page *page)
{
    struct amounts amounts;
    const struct recipe *recipe = page->recipe;
    if (!recipe->is_day)
        return;
    page_section(page, sheet_say(page->sheet, PHRASE_DAY_MEALS, page_name(page, page->library->traced)));
    for (uint32_t i = recipe->first_part; i < recipe->first_part + recipe->part_count; i++) {
        uint32_t first, end;
        const struct part *part = &page->sums->at.gathering->parts[i];
        meal_lines(page->sums, part, &first, &end);
        meal_total(page->sums, first, end, &amounts);
        tell_meal(page, part->name, i, &amounts);
    }
    if (meal_outside(page->sums, &amounts))
        tell_meal(page, phrase_text(PHRASE_DAY_NO_MEAL), NONE_INDEX, &amounts);
}

/* ---- servings ------------------------------------------------------------------------------------------------------- */

/* The size of a serving, or its share of the batch; high 0: nobody says either. */
static struct range share_of(const struct recipe *recipe, struct range serving, struct range batch)
{
    return serving.high > 0 || batch.high <= 0 ? serving : range_divide(batch, recipe->serves);
}

/* How large a serving is, as it is said; false where nobody says it. */
static bool serving_size(const struct line_amount *amount, struct range *size, const char **unit)
{
    const struct food *label = amount->resolved->food.food;
    const struct recipe *recipe = amount->resolved->recipe.recipe;
    const struct yields *yields = label ? NULL : recipe->yields;
    struct range ml = label ? label->serving_ml : share_of(recipe, yields->serving_ml, yields->makes_ml);
    struct range grams = label ? label->serving_grams : share_of(recipe, yields->serving_grams, yields->makes_grams);
    *size = ml.high > 0 ? ml : grams;
    *unit = ml.high > 0 ? "ml" : "g";
    return size->high > 0;
}

bool line_servings(const struct sums *sums, const struct line_amount *amount, struct range servings, struct range *eaten)
{
    const struct resolved *resolved = amount->resolved;
    if (amount->unknown || amount->own || amount->unmeasured || !resolved)
        return false;
    *eaten = range_divide(amount->driver, servings);
    if (resolved->subject == SUBJECT_FOOD && resolved->food.food)
        return resolved->food.food->basis == FOOD_PER_SERVING;
    if (resolved->subject != SUBJECT_RECIPE || !sums->at.recipe->is_day || resolved->recipe.recipe->serves.high <= 0)
        return false;
    if (resolved->measure == RECIPE_SERVINGS)           /* they were divided by as many */
        *eaten = range_between(amount->line->low, amount->line->high);
    else
        *eaten = range_multiply(*eaten, resolved->recipe.recipe->serves);
    return true;
}

static void tell_serving(struct page *page, const struct line_amount *amount, struct range servings)
{
    struct range size;
    const char *unit;
    struct sheet *sheet = page->sheet;
    struct text count = page_number(page, servings.low), sized = text_of("");
    if (!range_is_exact(servings))
        count = sheet_say(sheet, PHRASE_ENDS, count, page_number(page, servings.high));
    if (serving_size(amount, &size, &unit)) {
        struct text eaten = page_number(page, servings.best * size.best);
        if (amount->line->quantity == QUANTITY_RANGE)       /* else it is only as wide as a printed figure */
            eaten = sheet_say(sheet, PHRASE_ENDS, page_number(page, servings.low * size.best), page_number(page, servings.high * size.best));
        sized = sheet_say(sheet, PHRASE_SERVINGS_SIZE, eaten, text_of(unit), page_number(page, size.best));
    }
    sheet_row(sheet, (const struct sheet_cell[]){ cell_words(page_line(page, amount->line)),
              cell_words(sheet_say(sheet, amount->resolved->food.food ? PHRASE_SERVINGS_LABEL : PHRASE_SERVINGS_RECIPE, count)), cell_words(sized) });
}

void page_print_servings(struct page *page)
{
    const struct sheet_column columns[] = { { phrase_text(PHRASE_COLUMN_LINE), false }, { phrase_text(PHRASE_COLUMN_SERVINGS), false },
                                            { phrase_text(PHRASE_COLUMN_SIZE), false } };
    bool begun = false;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        struct range servings;
        if (!line_servings(page->sums, &page->sums->lines[i], page->servings, &servings))
            continue;
        struct text title = sheet_say(page->sheet, PHRASE_SERVINGS, text_of(page_per_head(page)));
        if (!begun) {
            page_section(page, title);
            sheet_table(page->sheet, title, columns, 3);
        }
        begun = true;
        tell_serving(page, &page->sums->lines[i], servings);
    }
    if (begun)
        sheet_table_end(page->sheet);
}

/* ---- ratios ----------------------------------------------------------------------------------------------------------- */

static struct text print_figure(struct sheet *sheet, double figure)
{
    char storage[48];
    struct text words = print_amount(storage, sizeof storage, figure, text_of("1"));
    return sheet_print(sheet, "%.*s", (int)words.length, words.bytes);
}

static void tell_ratio(struct page *page, uint32_t over, uint32_t under, double factor, enum report_phrase phrase, struct text second)
{
    struct sheet *sheet = page->sheet;
    const struct amounts *total = &page->sums->total;
    bool known = amounts_complete(total, over) && amounts_complete(total, under);
    struct range ratio = range_scale(ratio_of_lines(page->sums->lines, page->sums->line_count, page->library, over, under, known, known), factor);
    struct text words = page_no_ratio(page, known, under);
    if (known && isfinite(ratio.high))
        words = page_ratio(page, print_figure(sheet, ratio.low), print_figure(sheet, ratio.best), print_figure(sheet, ratio.high));
    sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, phrase, page_name(page, over), second, words));
}

void page_print_day_ratios(struct page *page, uint32_t over, uint32_t under)
{
    uint32_t energy = energy_column(page->library);
    double factor = mole_factor(page->library, over, under);
    if (!page->recipe->is_day)
        return;
    if (factor > 0)
        tell_ratio(page, over, under, factor, PHRASE_RATIO_MOLES, page_name(page, under));
    if (energy != NONE_INDEX)
        tell_ratio(page, over, energy, 1000, PHRASE_RATIO_ENERGY, page_unit(page, over));
}

/* ---- what is published -------------------------------------------------------------------------------------------------- */

static enum report_phrase use_phrase(const struct published *published)
{
    switch (published->use) {
    case PUBLISHED_JUDGED: return published->bound.is_goal ? PHRASE_PUBLISHED_GOAL : PHRASE_PUBLISHED_LIMIT;
    case PUBLISHED_CLINICIAN: return PHRASE_PUBLISHED_NOT_CLINICIAN;
    case PUBLISHED_UNDER_CARE: return PHRASE_PUBLISHED_NOT_CARE;
    case PUBLISHED_SHOWN: break;
    }
    return PHRASE_PUBLISHED_NOT_HELD;
}

static void tell_published(struct page *page, const struct published *published)
{
    static const enum report_phrase kinds[] = { PHRASE_PUBLISHED_ADEQUATE, PHRASE_SIDE_AT_MOST, PHRASE_SIDE_AT_LEAST };
    struct sheet *sheet = page->sheet;
    const struct intake_figure *figure = published->figure;
    enum report_phrase kind = figure->strict ? figure->kind == INTAKE_AT_MOST ? PHRASE_SIDE_UNDER : PHRASE_SIDE_OVER : kinds[figure->kind];
    struct text amount = sheet_print(sheet, "%g", published->least);
    if (published->most > published->least)
        amount = sheet_say(sheet, PHRASE_ENDS, amount, sheet_print(sheet, "%g", published->most));
    struct text words = sheet_say(sheet, PHRASE_PUBLISHED_FIGURE, page_name(page, figure->nutrient), phrase_text(kind), amount, page_unit(page, figure->nutrient));
    sheet_item(sheet, sheet_say(sheet, PHRASE_PUBLISHED_ONE, words, phrase_text(use_phrase(published)),
                                library_text(published->owner, published->intake->title), sheet_source(sheet, library_text(published->owner, figure->source), false)));
}

void page_print_published(struct page *page, const struct verdicts *verdicts)
{
    const struct published_set *set = &verdicts->published;
    if (!page->recipe->is_day || !set->count)
        return;
    page_section(page, sheet_say(page->sheet, PHRASE_PUBLISHED, page->recipe->eater->written));
    sheet_list(page->sheet, false);
    for (uint32_t i = 0; i < set->count; i++)
        tell_published(page, &set->at[i]);
    sheet_list_end(page->sheet);
}
