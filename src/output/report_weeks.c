/* A week in the report: its days side by side, their average, and the highest of them. */
#include "output/held.h"
#include "output/page.h"

/* How a day that was added up stands to its own limits and goals. */
static enum status standing_cell(struct page *page, const struct sums *sums, struct sheet_cell *cell)
{
    struct verdicts verdicts = { 0 };
    enum status status = recipe_judge(sums, &verdicts, NULL);
    struct standing standing = standing_of(&verdicts, 0);
    *cell = (struct sheet_cell){ .words = standing_words(page->sheet, &standing), .tone = standing_tone(&standing) };
    verdicts_close(&verdicts, page->kitchen->allocator);
    return status;
}

static enum status tell_days(struct page *page, struct week_at at, struct sums *sums, uint32_t under)
{
    struct sheet *sheet = page->sheet;
    uint32_t traced = page->library->traced;
    uint32_t last = under != NONE_INDEX ? 3 : 2;
    struct sheet_column columns[4] = { { phrase_text(PHRASE_COLUMN_DAY), false }, { page_name(page, traced), false },
                                       { under != NONE_INDEX ? page_name(page, under) : text_of(""), false } };
    enum status status = STATUS_OK;
    columns[last] = (struct sheet_column){ phrase_text(PHRASE_INDEX_LIMITS), false };
    page_section(page, phrase_text(PHRASE_WEEK_DAYS));
    sheet_table(sheet, phrase_text(PHRASE_WEEK_DAYS), columns, last + 1);
    for (uint32_t i = 0; i < at.week->day_count && status == STATUS_OK; i++) {
        struct recipe_at day = week_day(page->kitchen, at, i);
        struct sheet_cell cells[4] = { cell_words(at.gathering->week_days[at.week->first_day + i].name), cell_words(phrase_text(PHRASE_WEEK_NO_DAY)),
                                       cell_words(text_of("")), cell_words(text_of("")) };
        cells[1].tone = TONE_DOUBT;
        if (day.recipe) {
            status = sums_compute(sums, day);
            cells[1] = page_cell(page, traced, sums->total.column[traced], amounts_complete(&sums->total, traced));
            if (under != NONE_INDEX)
                cells[2] = page_cell(page, under, sums->total.column[under], amounts_complete(&sums->total, under));
            if (status == STATUS_OK)
                status = standing_cell(page, sums, &cells[last]);
        }
        sheet_row(sheet, cells);
    }
    sheet_table_end(sheet);
    return status;
}

static struct text days_words(struct page *page, enum report_phrase one, enum report_phrase many, uint32_t days)
{
    return days == 1 ? phrase_text(one) : sheet_say(page->sheet, many, sheet_print(page->sheet, "%u", days));
}

/* One incomplete day leaves the average open: what is known is that of the others, and said to be of them alone. */
static void tell_average(struct page *page, const struct week_sum *week, uint32_t nutrient)
{
    struct sheet *sheet = page->sheet;
    struct text name = page_name(page, nutrient);
    uint32_t complete = week->complete[nutrient];
    bool all = complete == week->days && week->days > 0;
    sheet_paragraph(sheet, MANNER_LEAD, sheet_say(sheet, PHRASE_FIGURE, days_words(page, PHRASE_WEEK_AVERAGE_ONE, PHRASE_WEEK_AVERAGE, week->days), text_of(""),
                    sheet_say(sheet, PHRASE_AMOUNT, name, page_amount(page, nutrient, week->average.column[nutrient], all))));
    if (!all && complete)
        sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, complete == 1 ? PHRASE_WEEK_OF_COMPLETE_ONE : PHRASE_WEEK_OF_COMPLETE, name,
                        page_amount(page, nutrient, week->of_complete[nutrient], true), sheet_print(sheet, "%u", complete)));
    if (week->highest[nutrient].recipe)
        sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, all ? PHRASE_WEEK_HIGHEST : PHRASE_WEEK_HIGHEST_OPEN, week->highest[nutrient].recipe->name, name,
                        page_amount(page, nutrient, week->highest_value[nutrient], week->highest_complete[nutrient])));
}

static void tell_others(struct page *page, const struct week_sum *week, uint32_t under)
{
    struct sheet *sheet = page->sheet;
    const struct sheet_column columns[] = { { phrase_text(PHRASE_COLUMN_NUTRIENT), false }, { phrase_text(PHRASE_COLUMN_AMOUNT), true },
                                            { phrase_text(PHRASE_COLUMN_RANGE), true } };
    struct text title = days_words(page, PHRASE_WEEK_NUTRIENTS_ONE, PHRASE_WEEK_NUTRIENTS, week->days);
    page_section(page, title);
    sheet_table(sheet, title, columns, 3);
    for (uint32_t i = 0; i < page->library->nutrient_total; i++) {
        bool all = week->complete[i] == week->days && week->days > 0;
        struct range average = week->average.column[i];
        if (i == page->library->traced || i == under)
            continue;
        struct text spread = all ? page_spread(page, i, average, true)
                                 : sheet_say(sheet, PHRASE_WEEK_COMPLETE, sheet_print(sheet, "%u", week->complete[i]), sheet_print(sheet, "%u", week->days));
        sheet_row(sheet, (const struct sheet_cell[]){ cell_words(page_name(page, i)),
                  cell_figure(page_best(page, i, average, all), all ? average.best : average.low), cell_words(spread) });
    }
    sheet_table_end(sheet);
}

/* Each bound by the average, and the day that goes furthest. */
static void tell_limits(struct page *page, const struct week_verdicts *verdicts)
{
    struct sheet *sheet = page->sheet;
    const struct sheet_column columns[] = { { phrase_text(PHRASE_COLUMN_LIMIT), false }, { phrase_text(PHRASE_COLUMN_OUTCOME), false },
                                            { phrase_text(PHRASE_COLUMN_AVERAGE), false }, { phrase_text(PHRASE_COLUMN_FURTHEST), false } };
    if (!verdicts->averages.count)
        return;
    page_section(page, phrase_text(PHRASE_LIMITS));
    sheet_table(sheet, phrase_text(PHRASE_LIMITS), columns, LIMIT_CELLS + 1);
    for (uint32_t i = 0; i < verdicts->averages.count; i++) {
        char value[200];
        struct sheet_cell cells[LIMIT_CELLS + 1] = { { .has_value = false } };
        const struct week_furthest *furthest = &verdicts->days[i];
        page_limit_cells(page, &verdicts->averages.at[i], cells);
        if (furthest->day.recipe)
            cells[LIMIT_CELLS] = cell_words(sheet_say(sheet, PHRASE_WEEK_FURTHEST, furthest->day.recipe->name,
                                            verdict_value(page->library, &furthest->verdict, bound_against(&furthest->verdict), value, sizeof value)));
        sheet_row(sheet, cells);
    }
    sheet_table_end(sheet);
}

static enum status judge(struct page *page, struct week_at at, const struct week_sum *week, struct sums *sums)
{
    struct week_verdicts verdicts = { 0 };
    enum status status = week_judge(page->kitchen, at, sums, week, &verdicts, NULL);
    tell_limits(page, &verdicts);
    week_verdicts_close(&verdicts, page->kitchen->allocator);
    return status;
}

/* Cautions stand where figures stand. */
static enum status tell_cautions(struct page *page, struct week_at at, struct sums *sums)
{
    struct week_cautions said;
    enum status status = week_find_cautions(page->kitchen, at, sums, &said);
    if (said.count)
        page_section(page, phrase_text(PHRASE_CAUTIONS));
    for (uint32_t i = 0; i < said.count; i++)
        page_print_caution(page, said.at[i].words, text_of(said.at[i].because));
    week_cautions_close(&said, page->kitchen->allocator);
    return status;
}

enum status report_tell_week(struct showing *showing, struct sheet *sheet, const struct report *report)
{
    struct page page = page_of(showing, sheet, report);
    const struct rules *rules = page.kitchen->rules;
    const struct week_at at = *report->week;
    uint32_t under = rules ? rules->compare_under : NONE_INDEX, traced = page.library->traced;
    enum status status = STATUS_OK;
    page_print_place(&page, (struct place){ at.week->file, at.week->title });
    if (traced != NONE_INDEX) {
        status = tell_days(&page, at, report->sums, under);
        tell_average(&page, report->week_sum, traced);
    }
    if (under != NONE_INDEX)
        tell_average(&page, report->week_sum, under);
    tell_others(&page, report->week_sum, under);
    if (status == STATUS_OK)
        status = judge(&page, at, report->week_sum, report->sums);
    if (status == STATUS_OK)
        status = tell_cautions(&page, at, report->sums);
    page_print_provenance(&page);
    return status;
}
