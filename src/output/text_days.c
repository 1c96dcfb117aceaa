/* Days in the text report: who eats, what each meal holds, how many servings that is, what is published for the eater. */
#include <math.h>
#include <string.h>

#include "output/page.h"

void page_print_eater(struct page *page)
{
    const struct eater *eater = page->recipe->eater;
    if (!eater) {
        writer_print(page->writer, "The day does not say who eats it: it is held to no published intake.\n");
        return;
    }
    writer_print(page->writer, "A day ");
    writer_visible(page->writer, eater->written);
    writer_print(page->writer, "\n");
}

/* ---- meals --------------------------------------------------------------------------------------------------------- */

static void print_amount_of(struct page *page, const char *words, uint32_t nutrient, uint32_t column, const struct amounts *amounts)
{
    char amount[160];
    page_range(page, amount, sizeof amount, nutrient, amounts->column[column], amounts_complete(amounts, column));
    writer_print(page->writer, "    %-22s %s\n", words, amount);
}

static void print_meal(struct page *page, struct text name, uint32_t part, const struct amounts *amounts)
{
    static const char *const origins[] = { "by nature", "by makers", "by the cook", "not told apart" };
    char words[64];
    const struct rules *rules = page->kitchen->rules;
    uint32_t traced = page->library->traced, under = rules ? rules->compare_under : NONE_INDEX;
    struct text traced_name = page_name(page, traced);
    writer_add(page->writer, text_of("\n"));
    writer_visible(page->writer, name);
    writer_add(page->writer, text_of("\n"));
    snprintf(words, sizeof words, "%.*s", (int)traced_name.length, traced_name.bytes);
    print_amount_of(page, words, traced, traced, amounts);
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        uint32_t column = page->library->origin_column + i;
        snprintf(words, sizeof words, "  %s", origins[i]);
        if (!amounts_complete(amounts, column) || amounts->column[column].high > 0)
            print_amount_of(page, words, traced, column, amounts);
    }
    if (under != NONE_INDEX) {
        struct text other = page_name(page, under);
        snprintf(words, sizeof words, "%.*s", (int)other.length, other.bytes);
        print_amount_of(page, words, under, under, amounts);
    }
    page_print_ranked(page, part);
}

void page_print_meals(struct page *page)
{
    struct amounts amounts;
    const struct recipe *recipe = page->recipe;
    struct text name = page_name(page, page->library->traced);
    if (!recipe->is_day)
        return;
    writer_print(page->writer, "\nWhere the %.*s comes from, by meal; shares are of the day\n", (int)name.length, name.bytes);
    for (uint32_t i = recipe->first_part; i < recipe->first_part + recipe->part_count; i++) {
        uint32_t first, end;
        const struct part *part = &page->sums->at.gathering->parts[i];
        meal_lines(page->sums, part, &first, &end);
        meal_total(page->sums, first, end, &amounts);
        print_meal(page, part->name, i, &amounts);
    }
    if (meal_outside(page->sums, &amounts))
        print_meal(page, text_of("In no meal"), NONE_INDEX, &amounts);
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

static void print_serving(struct page *page, const struct line_amount *amount, struct range servings)
{
    struct range size;
    const char *unit;
    bool label = amount->resolved->food.food != NULL;
    writer_add(page->writer, text_of("  "));
    page_line(page, amount->line);
    if (range_is_exact(servings))
        writer_print(page->writer, " %.3g", servings.best);
    else
        writer_print(page->writer, " %.3g to %.3g", servings.low, servings.high);
    writer_print(page->writer, " of the %s's servings", label ? "label" : "recipe");
    if (serving_size(amount, &size, &unit)) {
        double low = servings.low * size.best, best = servings.best * size.best, high = servings.high * size.best;
        bool is_range = amount->line->quantity == QUANTITY_RANGE;       /* else it is only as wide as a printed figure */
        if (!is_range)
            writer_print(page->writer, ": %.3g %s, where one is %.3g %s", best, unit, size.best, unit);
        else
            writer_print(page->writer, ": %.3g to %.3g %s, where one is %.3g %s", low, high, unit, size.best, unit);
    }
    writer_add(page->writer, text_of("\n"));
}

void page_print_servings(struct page *page)
{
    bool head = false;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        struct range servings;
        if (!line_servings(page->sums, &page->sums->lines[i], page->servings, &servings))
            continue;
        if (!head)
            writer_print(page->writer, "\nServings as they are eaten%s\n", page_per_head(page));
        head = true;
        print_serving(page, &page->sums->lines[i], servings);
    }
}

/* ---- ratios ----------------------------------------------------------------------------------------------------------- */

static void print_figures(struct page *page, struct range figures)
{
    char low[48], best[48], high[48];
    struct text plain = text_of("1");
    print_amount(low, sizeof low, figures.low, plain);
    print_amount(best, sizeof best, figures.best, plain);
    print_amount(high, sizeof high, figures.high, plain);
    if (strcmp(low, best) == 0 && strcmp(high, best) == 0)
        writer_print(page->writer, "%s\n", best);
    else
        writer_print(page->writer, "%s (%s to %s)\n", best, low, high);
}

static void print_ratio(struct page *page, uint32_t over, uint32_t under, double factor, const char *words)
{
    const struct amounts *total = &page->sums->total;
    bool known = amounts_complete(total, over) && amounts_complete(total, under);
    struct range ratio = range_scale(ratio_of_lines(page->sums->lines, page->sums->line_count, page->library, over, under, known, known), factor);
    struct text above = page_name(page, over);
    writer_print(page->writer, "%.*s %s: ", (int)above.length, above.bytes, words);
    if (!known || !isfinite(ratio.high))
        writer_print(page->writer, "unknown, since one of them is\n");
    else
        print_figures(page, ratio);
}

void page_print_day_ratios(struct page *page, uint32_t over, uint32_t under)
{
    char words[80];
    struct text below = page_name(page, under), unit = page_unit(page, over);
    uint32_t energy = energy_column(page->library);
    double factor = mole_factor(page->library, over, under);
    if (!page->recipe->is_day)
        return;
    snprintf(words, sizeof words, "to %.*s, by moles", (int)below.length, below.bytes);
    if (factor > 0)
        print_ratio(page, over, under, factor, words);
    snprintf(words, sizeof words, "in %.*s per 1000 kcal", (int)unit.length, unit.bytes);
    if (energy != NONE_INDEX)
        print_ratio(page, over, energy, 1000, words);
}

/* ---- what is published -------------------------------------------------------------------------------------------------- */

static const char *use_words(const struct published *published)
{
    switch (published->use) {
    case PUBLISHED_JUDGED: return published->bound.is_aim ? "an aim of this day" : "a limit of this day";
    case PUBLISHED_CLINICIAN: return "not held: the clinician's figure stands in its place";
    case PUBLISHED_UNDER_CARE: return "not held: who is under care follows the clinician's figure";
    case PUBLISHED_SHOWN: break;
    }
    return "shown, not held";
}

static void print_published(struct page *page, const struct published *published)
{
    static const char *const kinds[] = { "adequate intake", "at most", "at least" };
    const struct intake_figure *figure = published->figure;
    struct text name = page_name(page, figure->nutrient), unit = page_unit(page, figure->nutrient);
    const char *kind = figure->strict ? figure->kind == INTAKE_AT_MOST ? "under" : "over" : kinds[figure->kind];
    writer_print(page->writer, "  %.*s, %s %g", (int)name.length, name.bytes, kind, published->least);
    if (published->most > published->least)
        writer_print(page->writer, " to %g", published->most);
    writer_print(page->writer, " %.*s: %s\n", (int)unit.length, unit.bytes, use_words(published));
    writer_print(page->writer, "      ");
    writer_visible(page->writer, library_text(published->owner, published->intake->title));
    writer_print(page->writer, "; ");
    writer_visible(page->writer, library_text(published->owner, figure->source));
    writer_print(page->writer, "\n");
}

void page_print_published(struct page *page, const struct verdicts *verdicts)
{
    const struct published_set *set = &verdicts->published;
    if (!page->recipe->is_day || !set->count)
        return;
    writer_print(page->writer, "\nPublished ");
    writer_visible(page->writer, page->recipe->eater->written);
    writer_print(page->writer, ", a day\n");
    for (uint32_t i = 0; i < set->count; i++)
        print_published(page, &set->at[i]);
}

void page_print_day_cautions(struct page *page, const struct verdicts *verdicts)
{
    struct eater_caution cautions[EATER_CAUTIONS];
    uint32_t count = page->recipe->is_day ? eater_cautions(page->recipe, verdicts, cautions) : 0;
    for (uint32_t i = 0; i < count; i++)
        writer_wrapped(page->writer, cautions[i].words);
}
