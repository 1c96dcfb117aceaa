/* The lines of a recipe in the text report, from the largest contributor to the smallest, and what treatments saved. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "output/page.h"

static struct text line_text_of(const struct page *page, const struct line *line)
{
    struct sources *sources = &page->showing->sources;
    struct span span = { line->start, line->start };
    if (line->tail != NONE_INDEX)
        span.end = line->tail_start + page->sums->at.gathering->tails[line->tail].text.length;
    if (!sources_load(sources, page->recipe->file) || line->tail == NONE_INDEX)
        return text_of("a line that a finding speaks of");
    return span_text(sources->text, span);
}

static const char *line_origin(const struct page *page, const struct line_amount *amount)
{
    static const char *const words[] = { "nature", "maker", "cook", "not separable" };
    double total = line_column(amount, page->library, page->library->traced).best;
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        double part = line_column(amount, page->library, page->library->origin_column + i).best;
        if (total > 0 && part > total * 0.9)
            return words[i];
    }
    return total > 0 ? "mixed" : "";
}

#define LINE_COLUMNS 44
#define BAR_COLUMNS 20

void page_line(struct page *page, const struct line *line)
{
    writer_cut(page->writer, line_text_of(page, line), LINE_COLUMNS);
}

static void print_line(struct page *page, const struct line_amount *amount, double total)
{
    uint32_t traced = page->library->traced;
    struct range serving = page_per_serving(page, line_column(amount, page->library, traced));
    bool known = !(amount->incomplete >> traced & 1), whole = amounts_complete(&page->sums->total, traced);
    double share = total > 0 ? line_column(amount, page->library, traced).best / total : 0;
    struct text unit = page_unit(page, traced);
    uint32_t bar = (uint32_t)(share * BAR_COLUMNS + 0.5);
    writer_add(page->writer, text_of("  "));
    page_line(page, amount->line);
    if (!known)
        writer_print(page->writer, " %9s", "unknown");
    else
        writer_print(page->writer, " %6.6g %.*s", page_rounded(page, traced, serving.best, ROUND_NEAREST), (int)unit.length, unit.bytes);
    if (known && whole)
        writer_print(page->writer, " %3.0f%% ", share * 100);
    else
        writer_add(page->writer, text_of("      "));
    bar = whole ? bar : 0;              /* no share of a sum that nobody knows */
    for (uint32_t i = 0; i < bar && i < BAR_COLUMNS; i++)
        writer_add(page->writer, text_of("#"));
    const char *origin = line_origin(page, amount);
    writer_print(page->writer, "%*s%s\n", *origin ? (int)(BAR_COLUMNS - (bar < BAR_COLUMNS ? bar : BAR_COLUMNS)) + 1 : 0, "", origin);
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

void page_print_ranked(struct page *page, uint32_t part)
{
    const struct sums *sums = page->sums;
    uint32_t traced = page->library->traced, count = 0;
    struct allocator allocator = page->kitchen->allocator;
    if (sums->line_count == 0)
        return;
    struct ranked_line *ranked = allocator.resize(allocator.context, NULL, sums->line_count * sizeof *ranked);
    writer_needs(page->writer, ranked != NULL);
    if (!ranked)
        return;
    for (uint32_t i = 0; i < sums->line_count; i++) {
        if (!page->recipe->is_day || sums->lines[i].line->part == part)
            ranked[count++] = (struct ranked_line){ line_column(&sums->lines[i], page->library, traced).best, i };
    }
    qsort(ranked, count, sizeof *ranked, compare_ranked);
    for (uint32_t i = 0; i < count; i++)
        print_line(page, &sums->lines[ranked[i].number], sums->total.column[traced].best);
    allocator.resize(allocator.context, ranked, 0);
}

void page_print_lines(struct page *page)
{
    struct text name = page_name(page, page->library->traced);
    if (page->sums->line_count == 0 || page->recipe->is_day)
        return;
    writer_print(page->writer, "\nWhere the %.*s comes from%s\n", (int)name.length, name.bytes, page_per_head(page));
    page_print_ranked(page, NONE_INDEX);
}

/* What a line would hold untreated, less what it holds. Both grow with the same amount of food, so their corners
 * give the share that stays, and that share tells what went. */
static struct range saved_of(const struct page *page, const struct line_amount *amount)
{
    uint32_t traced = page->library->traced;
    struct range before = range_multiply(amount->as_written, amount->values[traced]);
    struct range after = line_column(amount, page->library, traced);
    double least = before.low > 0 ? after.low / before.low : 0, most = before.high > 0 ? after.high / before.high : 1;
    struct range saved = { before.low * amount_larger(0, 1 - most), before.best - after.best, before.high * amount_larger(0, 1 - least) };
    if (saved.best < 0)
        saved.best = 0;
    return range_divide(saved, page->servings);
}

/* What was rinsed off or left behind, against the same amount untreated. What is left of a bath is told of the bath. */
void page_print_saved(struct page *page)
{
    uint32_t traced = page->library->traced;
    bool head = false;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct line_amount *amount = &page->sums->lines[i];
        if (amount->unknown || amount->incomplete >> traced & 1 || line_stands_in_bath(page->sums, amount->line))
            continue;
        char words[160];
        struct range saved = saved_of(page, amount);
        if (saved.best < 0.5)
            continue;
        if (!head)
            writer_print(page->writer, "\nWhat draining, rinsing and leaving behind saved%s\n",
                         page_per_head(page));
        head = true;
        page_range(page, words, sizeof words, traced, saved, true);
        writer_add(page->writer, text_of("  "));
        page_line(page, amount->line);
        writer_print(page->writer, " about %s", words);
        if (amount->resolved->grade)
            writer_print(page->writer, "%s, evidence %c", amount->resolved->grade >= 'C' ? ", estimated" : "",
                         (int)amount->resolved->grade);
        writer_print(page->writer, "%s\n", amount->resolved->flags & RESOLVED_WEIGHED_AFTER ? ", against the same weight undrained" : "");
    }
}
