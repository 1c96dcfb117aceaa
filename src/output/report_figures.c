/* The figures of a report: one nutrient with what it is compared with, how the traced one came in, the balance of two, and all
 * the others. */
#include <math.h>

#include "output/figures.h"
#include "output/held.h"
#include "output/page.h"

uint32_t page_unknown_lines(const struct page *page, uint32_t column)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < page->sums->line_count; i++)
        count += (uint32_t)(page->sums->lines[i].incomplete >> column & 1);
    return count;
}

/* ---- one figure ----------------------------------------------------------------------------------------------------- */

static const struct daily_value *daily_value_of(const struct page *page, uint32_t nutrient)
{
    return recipe_daily_value(page->kitchen, page->recipe, page->verdicts, nutrient);
}

bool page_daily_share(const struct page *page, uint32_t nutrient, struct range amount, bool complete, double *share, double *value)
{
    const struct library *owner = page->kitchen->rules_owner;
    const struct daily_value *daily = daily_value_of(page, nutrient);
    const struct rounding *rounding = rules_rounding(owner, page->kitchen->rules, nutrient, true);
    if (!daily)
        return false;
    *value = daily->amount;
    *share = (complete ? amount.best : amount.low) / daily->amount * 100;
    if (complete)
        *share = rounding ? rounding_print(owner, rounding, *share) : *share;
    else
        *share = floor(*share + 1e-9);
    return true;
}

static void tell_daily_value(struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    double share, value;
    struct sheet *sheet = page->sheet;
    if (!page_daily_share(page, nutrient, amount, complete, &share, &value))
        return;
    sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, complete ? PHRASE_DAILY_VALUE : PHRASE_DAILY_VALUE_LEAST,
                    sheet_fixed(sheet, 0, share), sheet_print(sheet, "%.6g", value), page_unit(page, nutrient), kitchen_daily_name(page->kitchen)));
}

/* So much of the nutrient as spoons of the foods that the rules name. */
static void tell_equivalent(struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    struct spoonful spoon;
    for (uint32_t i = 0; spoon_of(page->kitchen, nutrient, i, &spoon); i++) {
        if ((complete ? amount.best : amount.low) / spoon.holds < 0.005)
            continue;                           /* it would print as none */
        sheet_paragraph(page->sheet, MANNER_PLAIN, sheet_say(page->sheet, complete ? PHRASE_EQUIVALENT : PHRASE_EQUIVALENT_LEAST,
                        sheet_fixed(page->sheet, 2, (complete ? amount.best : amount.low) / spoon.holds), spoon.unit, spoon.food));
    }
}

#define MARKS 8                         /* on one scale, at most */

/* Limits and goals of the nutrient alone, for a serving or for the day, and its daily value. */
static uint32_t find_marks(struct page *page, uint32_t nutrient, const struct verdicts *verdicts, struct sheet_mark *marks)
{
    const struct daily_value *daily = daily_value_of(page, nutrient);
    enum basis basis = page->recipe->is_day ? PER_DAY : PER_SERVING;
    struct sheet *sheet = page->sheet;
    uint32_t count = 0;
    for (uint32_t i = 0; i < verdicts->count && count < MARKS - 1; i++) {
        const struct verdict *verdict = &verdicts->at[i];
        const struct bound *bound = verdict->bound;
        if (bound->column != nutrient || bound->over != NONE_INDEX || bound->origin < ORIGIN_COUNT || bound->basis != basis || verdict->meal)
            continue;
        double at = bound->has_most ? bound->most : bound->least;
        marks[count++] = (struct sheet_mark){ sheet_say(sheet, bound->is_goal ? PHRASE_MARK_GOAL : PHRASE_MARK_LIMIT, held_bound(sheet, page->library, bound)), at, held_tone(verdict) };
    }
    if (daily)
        marks[count++] = (struct sheet_mark){ sheet_say(sheet, PHRASE_MARK_DAILY_VALUE, kitchen_daily_name(page->kitchen), sheet_print(sheet, "%.6g", daily->amount), page_unit(page, nutrient)),
                                              daily->amount, TONE_PLAIN };
    return count;
}

/* The picture of what the lines above it say. */
static void tell_scale(struct page *page, uint32_t nutrient, struct range amount, bool complete, const struct verdicts *verdicts)
{
    struct sheet_mark marks[MARKS];
    struct sheet *sheet = page->sheet;
    uint32_t count = sheet_travels(sheet) ? find_marks(page, nutrient, verdicts, marks) : 0;
    if (count)
        sheet_scale(sheet, sheet_say(sheet, PHRASE_SCALE, page_name(page, nutrient), text_of(page_per(page))), amount, complete,
                    page_amount(page, nutrient, amount, complete), marks, count);
}

void page_print_figure(struct page *page, uint32_t nutrient, const struct verdicts *verdicts)
{
    struct sheet *sheet = page->sheet;
    bool complete = amounts_complete(&page->sums->total, nutrient);
    struct range serving = page_per_serving(page, page->sums->total.column[nutrient]);
    struct text words = page_amount(page, nutrient, serving, complete);
    uint32_t lines = page_unknown_lines(page, nutrient);
    if (!complete && lines == 1)
        words = sheet_say(sheet, PHRASE_FIGURE_UNKNOWN_ONE, words);
    else if (!complete)
        words = sheet_say(sheet, PHRASE_FIGURE_UNKNOWN, words, sheet_print(sheet, "%u", lines));
    sheet_paragraph(sheet, MANNER_LEAD, sheet_say(sheet, PHRASE_FIGURE, page_name(page, nutrient), text_of(page_per(page)), words));
    tell_daily_value(page, nutrient, serving, complete);
    tell_equivalent(page, nutrient, serving, complete);
    tell_scale(page, nutrient, serving, complete, verdicts);
}

/* ---- origins ---------------------------------------------------------------------------------------------------------- */

static const enum report_phrase origin_phrases[] = { PHRASE_ORIGIN_NATURE, PHRASE_ORIGIN_MAKER, PHRASE_ORIGIN_COOK, PHRASE_ORIGIN_UNSEPARATED };

/* What is known of each: no bar, since nobody knows how long it would be. */
static void tell_known_origins(struct page *page, struct text title, const struct sheet_piece *pieces, uint32_t count)
{
    struct sheet_column columns[] = { { phrase_text(PHRASE_COLUMN_ORIGIN), false }, { phrase_text(PHRASE_COLUMN_AMOUNT), false } };
    sheet_table(page->sheet, title, columns, 2);
    for (uint32_t i = 0; i < count; i++)
        sheet_row(page->sheet, (const struct sheet_cell[]){ cell_words(pieces[i].label), cell_figure(pieces[i].words, pieces[i].value) });
    sheet_table_end(page->sheet);
}

void page_print_origins(struct page *page)
{
    struct sheet_piece pieces[ORIGIN_COUNT];
    uint32_t count = 0, traced = page->library->traced;
    bool all = amounts_complete(&page->sums->total, traced);
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        uint32_t column = page->library->origin_column + i;
        bool complete = amounts_complete(&page->sums->total, column);
        struct range serving = page_per_serving(page, page->sums->total.column[column]);
        all = all && complete;
        if (!complete || serving.high > 0)
            pieces[count++] = (struct sheet_piece){ phrase_text(origin_phrases[i]), page_amount(page, traced, serving, complete),
                                                    complete ? serving.best : serving.low, i };
    }
    if (!count)
        return;
    struct text title = sheet_say(page->sheet, PHRASE_ORIGINS, page_name(page, traced), text_of(page_per_head(page)));
    page_section(page, title);
    if (all)
        sheet_bar(page->sheet, title, pieces, count);
    else
        tell_known_origins(page, title, pieces, count);
}

/* ---- ratio, other nutrients ------------------------------------------------------------------------------------------- */

struct text page_ratio(const struct page *page, struct text low, struct text best, struct text high)
{
    bool is_one = text_equal(low, best) && text_equal(high, best);
    return is_one ? best : sheet_say(page->sheet, PHRASE_RATIO_FIGURES, best, low, high);
}

struct text page_no_ratio(const struct page *page, bool known, uint32_t under)
{
    return known ? sheet_say(page->sheet, PHRASE_RATIO_NONE, page_name(page, under)) : phrase_text(PHRASE_RATIO_UNKNOWN);
}

void page_print_ratio(struct page *page, uint32_t over, uint32_t under)
{
    struct sheet *sheet = page->sheet;
    const struct amounts *total = &page->sums->total;
    bool known = amounts_complete(total, over) && amounts_complete(total, under);
    struct range ratio = ratio_of_lines(page->sums->lines, page->sums->line_count, page->library, over, under,
                                        amounts_complete(total, over), amounts_complete(total, under));
    struct text words = page_no_ratio(page, known, under);
    if (known && isfinite(ratio.high))
        words = page_ratio(page, sheet_fixed(sheet, 2, ratio.low), sheet_fixed(sheet, 2, ratio.best), sheet_fixed(sheet, 2, ratio.high));
    sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, PHRASE_RATIO, page_name(page, over), page_name(page, under), words));
}

static struct text unknown_lines(struct page *page, uint32_t nutrient)
{
    uint32_t lines = page_unknown_lines(page, nutrient);
    return lines == 1 ? phrase_text(PHRASE_LINES_UNKNOWN_ONE) : sheet_say(page->sheet, PHRASE_LINES_UNKNOWN, sheet_print(page->sheet, "%u", lines));
}

static void tell_nutrient(struct page *page, uint32_t nutrient)
{
    struct sheet *sheet = page->sheet;
    bool complete = amounts_complete(&page->sums->total, nutrient);
    struct range serving = page_per_serving(page, page->sums->total.column[nutrient]);
    double share, value;
    struct sheet_cell cells[] = { cell_words(page_name(page, nutrient)),
                                  cell_figure(page_best(page, nutrient, serving, complete), complete ? serving.best : serving.low),
                                  cell_words(complete ? page_spread(page, nutrient, serving, true) : unknown_lines(page, nutrient)),
                                  cell_words(text_of("")) };
    cells[1].tone = complete ? TONE_PLAIN : TONE_DOUBT;
    if (page_daily_share(page, nutrient, serving, complete, &share, &value) && (complete || share > 0))
        cells[3].words = sheet_say(sheet, complete ? PHRASE_SHARE : PHRASE_SHARE_LEAST, sheet_fixed(sheet, 0, share));
    sheet_row(sheet, cells);
}

void page_print_nutrients(struct page *page, uint32_t shown_apart)
{
    const struct sheet_column columns[] = { { phrase_text(PHRASE_COLUMN_NUTRIENT), false }, { phrase_text(PHRASE_COLUMN_AMOUNT), true },
                                            { phrase_text(PHRASE_COLUMN_RANGE), true }, { kitchen_daily_name(page->kitchen), true } };
    struct text title = sheet_say(page->sheet, PHRASE_NUTRIENTS, text_of(page_per_head(page)));
    page_section(page, title);
    sheet_table(page->sheet, title, columns, 4);
    for (uint32_t i = 0; i < page->library->nutrient_total; i++) {
        if (i != page->library->traced && i != shown_apart)
            tell_nutrient(page, i);
    }
    sheet_table_end(page->sheet);
}
