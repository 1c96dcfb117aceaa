/* The lines of a recipe in the report, from the largest contributor to the smallest, and what treatments saved. */
#include <stdlib.h>

#include "output/page.h"

struct text page_line(const struct page *page, const struct line *line)
{
    struct sources *sources = &page->showing->sources;
    struct span span = { line->start, line->start };
    if (line->tail != NONE_INDEX)
        span.end = line->tail_start + page->sums->at.gathering->tails[line->tail].text.length;
    if (!sources_load(sources, page->recipe->file) || line->tail == NONE_INDEX)
        return phrase_text(PHRASE_LINE_LOST);
    struct text words = span_text(sources->text, span);
    return sheet_print(page->sheet, "%.*s", (int)words.length, words.bytes);
}

static struct text line_origin(const struct page *page, const struct line_amount *amount)
{
    static const enum report_phrase phrases[] = { PHRASE_LINE_NATURE, PHRASE_LINE_MAKER, PHRASE_LINE_COOK, PHRASE_LINE_UNSEPARATED };
    double total = line_column(amount, page->library, page->library->traced).best;
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        double part = line_column(amount, page->library, page->library->origin_column + i).best;
        if (total > 0 && part > total * 0.9)
            return phrase_text(phrases[i]);
    }
    return phrase_text(total > 0 ? PHRASE_LINE_MIXED : PHRASE_NOTHING);
}

/* ---- contributors ----------------------------------------------------------------------------------------------------- */

/* A share is told where the whole is known: of a sum that nobody knows there is none. */
static void tell_line(struct page *page, const struct line_amount *amount, double total)
{
    struct sheet *sheet = page->sheet;
    uint32_t traced = page->library->traced;
    struct range serving = page_per_serving(page, line_column(amount, page->library, traced));
    bool known = !(amount->incomplete >> traced & 1), whole = amounts_complete(&page->sums->total, traced);
    double share = total > 0 ? line_column(amount, page->library, traced).best / total : 0;
    struct sheet_cell cells[] = { cell_words(page_line(page, amount->line)), cell_words(phrase_text(PHRASE_UNKNOWN)),
                                  cell_words(text_of("")), cell_words(line_origin(page, amount)) };
    if (!known && serving.low > 0)
        cells[1] = page_cell(page, traced, serving, false);
    else if (known)
        cells[1] = cell_figure(sheet_travels(sheet) ? page_amount(page, traced, serving, true) : page_best(page, traced, serving, true), serving.best);
    cells[1].tone = known ? TONE_PLAIN : TONE_DOUBT;
    if (known && whole) {
        cells[2] = cell_words(sheet_say(sheet, PHRASE_SHARE, sheet_fixed(sheet, 0, share * 100)));
        cells[2].bar = share >= 0.005 ? share : 0;      /* as small as it is printed */
    }
    sheet_row(sheet, cells);
}

struct ranked_line {
    double value;
    uint32_t number;
};

/* Largest first; equal values in the order of the recipe. */
static int compare_ranked(const void *left, const void *right)
{
    const struct ranked_line *a = left, *b = right;
    if (a->value != b->value)
        return a->value > b->value ? -1 : 1;
    return a->number < b->number ? -1 : 1;
}

void page_print_ranked(struct page *page, uint32_t part, struct text caption)
{
    const struct sums *sums = page->sums;
    uint32_t traced = page->library->traced, count = 0;
    struct allocator allocator = page->kitchen->allocator;
    const struct sheet_column columns[] = { { phrase_text(PHRASE_COLUMN_LINE), false }, { page_name(page, traced), true },
                                            { phrase_text(PHRASE_COLUMN_SHARE), true }, { phrase_text(PHRASE_COLUMN_ORIGIN), false } };
    if (sums->line_count == 0)
        return;
    struct ranked_line *ranked = allocator.resize(allocator.context, NULL, sums->line_count * sizeof *ranked);
    writer_needs(page->sheet->writer, ranked != NULL);
    if (!ranked)
        return;
    for (uint32_t i = 0; i < sums->line_count; i++) {
        if (!page->recipe->is_day || sums->lines[i].line->part == part)
            ranked[count++] = (struct ranked_line){ line_column(&sums->lines[i], page->library, traced).best, i };
    }
    qsort(ranked, count, sizeof *ranked, compare_ranked);
    sheet_table(page->sheet, caption, columns, 4);
    for (uint32_t i = 0; i < count; i++)
        tell_line(page, &sums->lines[ranked[i].number], sums->total.column[traced].best);
    sheet_table_end(page->sheet);
    allocator.resize(allocator.context, ranked, 0);
}

void page_print_lines(struct page *page)
{
    if (page->sums->line_count == 0 || page->recipe->is_day)
        return;
    struct text title = sheet_say(page->sheet, PHRASE_LINES, page_name(page, page->library->traced), text_of(page_per_head(page)));
    page_section(page, title);
    page_print_ranked(page, NONE_INDEX, title);
}

/* ---- savings ------------------------------------------------------------------------------------------------------------ */

/* What a line would hold untreated, less what it holds. Both grow with the same amount of food, so their corners
 * give the share that stays, and that share tells what went. */
static struct range saved_of(const struct page *page, const struct line_amount *amount)
{
    uint32_t traced = page->library->traced;
    struct range before = range_multiply(amount->as_written, amount->values[traced]);
    struct range after = line_column(amount, page->library, traced);
    double least = before.low > 0 ? after.low / before.low : 0, most = before.high > 0 ? after.high / before.high : 1;
    double low = before.low * amount_larger(0, 1 - amount_larger(least, most)), high = before.high * amount_larger(0, 1 - amount_smaller(least, most));
    double best = amount_smaller(amount_larger(low, before.best - after.best), amount_larger(low, high));
    return range_divide(range_of(low, best, amount_larger(low, high)), page->servings);
}

static struct text evidence_of(struct page *page, const struct line_amount *amount)
{
    uint32_t evidence = amount->resolved->evidence;
    bool undrained = amount->resolved->flags & RESOLVED_WEIGHED_AFTER;
    if (!evidence)
        return phrase_text(undrained ? PHRASE_UNDRAINED : PHRASE_NOTHING);
    struct text words = evidence_for_people(evidence);
    return undrained ? sheet_say(page->sheet, PHRASE_EVIDENCE_UNDRAINED, words) : words;
}

/* What was rinsed off or left behind, against the same amount untreated. What is left of a bath is told of the bath. */
void page_print_saved(struct page *page)
{
    struct sheet *sheet = page->sheet;
    uint32_t traced = page->library->traced;
    const struct sheet_column columns[] = { { phrase_text(PHRASE_COLUMN_LINE), false }, { phrase_text(PHRASE_COLUMN_SAVED), false },
                                            { phrase_text(PHRASE_COLUMN_EVIDENCE), false } };
    bool begun = false;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct line_amount *amount = &page->sums->lines[i];
        if (amount->unknown || amount->incomplete >> traced & 1 || line_stands_in_bath(page->sums, amount->line))
            continue;
        struct range saved = saved_of(page, amount);
        if (saved.best < 0.5)
            continue;
        struct text title = sheet_say(sheet, PHRASE_SAVED, text_of(page_per_head(page)));
        if (!begun) {
            page_section(page, title);
            sheet_table(sheet, title, columns, 3);
        }
        begun = true;
        sheet_row(sheet, (const struct sheet_cell[]){ cell_words(page_line(page, amount->line)),
                  cell_figure(sheet_say(sheet, PHRASE_ABOUT, page_amount(page, traced, saved, true)), saved.best), cell_words(evidence_of(page, amount)) });
    }
    if (begun)
        sheet_table_end(sheet);
}
