/* The index of a folder of reports: every recipe, day and week with what it holds and how it stands to its limits, once in
 * each order that a reader may ask for. Without a program that sorts, there is a page for each order. */
#include <stdlib.h>
#include <string.h>

#include "output/figures.h"
#include "output/held.h"
#include "output/page.h"
#include "output/sheet.h"

enum index_kind { KIND_RECIPE, KIND_DAY, KIND_WEEK, KIND_COUNT };
enum index_order { ORDER_LIMITS, ORDER_NAME, ORDER_TRACED, ORDER_COMPARED, ORDER_COUNT };

struct index_entry {
    struct text name, key, file;
    enum index_kind kind;
    struct standing standing;
    bool whole;                         /* the recipe does not say how many it serves */
    struct text words[2];               /* of the two nutrients */
    double value[2];                    /* the best, or what is known */
    bool open[2];                       /* and nobody knows how much more there is */
};

/* ---- noting ---- */

static struct text keep(struct report_index *index, struct text text)
{
    char *copy = arena_copy(&index->arena, text.length ? text.bytes : "", text.length);
    return copy ? (struct text){ copy, text.length } : text_of("");
}

static void keep_caution(void *context, const struct caution_told *told)
{
    struct telling *telling = context;
    struct report_index *index = &telling->index;
    bool known = false;
    for (uint32_t i = 0; i < index->caution_count && !known; i++)
        known = text_equal(index->cautions[i], told->words);
    if (known)
        return;
    if (!array_grow(&telling->allocator, &index->cautions, index->caution_count, &index->caution_capacity, sizeof *index->cautions))
        index->arena.failed = true;
    else
        index->cautions[index->caution_count++] = keep(index, told->words);
}

static enum status note_week(struct index_entry *entry, struct telling *telling, struct showing *showing, const struct report *report)
{
    struct week_verdicts verdicts = { 0 };
    struct week_cautions said;
    uint32_t beyond = 0;
    enum status status = week_judge(showing->kitchen, *report->week, report->sums, report->week_sum, &verdicts, NULL);
    for (uint32_t i = 0; i < verdicts.averages.count; i++)
        beyond += verdicts.averages.at[i].outcome == OUTCOME_KEPT && verdicts.days[i].day.recipe && verdicts.days[i].verdict.outcome == OUTCOME_BROKEN;
    entry->standing = standing_of(&verdicts.averages, beyond);
    week_verdicts_close(&verdicts, showing->kitchen->allocator);
    if (status != STATUS_OK)
        return status;
    status = week_find_cautions(showing->kitchen, *report->week, report->sums, &said);
    for (uint32_t i = 0; i < said.count; i++)
        keep_caution(telling, &(struct caution_told){ .words = said.at[i].words });
    week_cautions_close(&said, showing->kitchen->allocator);
    return status;
}

static void note_amounts(struct report_index *index, struct index_entry *entry, const struct page *page, const struct report *report)
{
    const struct rules *rules = page->kitchen->rules;
    const uint32_t columns[2] = { page->library->traced, rules ? rules->compare_under : NONE_INDEX };
    for (uint32_t i = 0; i < 2; i++) {
        char words[160];
        if (columns[i] == NONE_INDEX)
            continue;
        bool complete = report->week ? report->week_sum->complete[columns[i]] == report->week_sum->days && report->week_sum->days > 0
                                     : amounts_complete(&report->sums->total, columns[i]);
        struct range amount = report->week ? report->week_sum->average.column[columns[i]]
                                           : page_per_serving(page, report->sums->total.column[columns[i]]);
        page_range(page, words, sizeof words, columns[i], amount, complete);
        entry->words[i] = keep(index, text_of(words));
        entry->value[i] = complete ? amount.best : amount.low;
        entry->open[i] = !complete;
        if (!index->nutrients[i].length)
            index->nutrients[i] = keep(index, page_name(page, columns[i]));
    }
}

static bool is_for_people(const struct telling *telling)
{
    return telling->form == QUERN_AS_HTML || telling->form == QUERN_AS_MARKDOWN;
}

enum status index_note(struct telling *telling, struct showing *showing, const struct report *report, struct text file)
{
    struct report_index *index = &telling->index;
    char key[KEY_BYTES];
    if (!is_for_people(telling))
        return STATUS_OK;
    if (!index->arena.allocator.resize)
        arena_open(&index->arena, telling->allocator);
    if (!array_grow(&telling->allocator, &index->entries, index->count, &index->capacity, sizeof *index->entries))
        return telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL);
    struct index_entry *entry = &index->entries[index->count];
    struct page page = page_of(showing, NULL, report);
    struct text name = report_name(report);
    const struct recipe *recipe = report->week ? NULL : report->sums->at.recipe;
    *entry = (struct index_entry){ .name = keep(index, name), .file = keep(index, file),
                                   .key = keep(index, (struct text){ key, name_key_of(name, true, key) }),
                                   .kind = report->week ? KIND_WEEK : recipe->is_day ? KIND_DAY : KIND_RECIPE,
                                   .whole = recipe && !recipe->is_day && recipe->serves.high <= 0 };
    note_amounts(index, entry, &page, report);
    if (report->week && note_week(entry, telling, showing, report) != STATUS_OK)
        return telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL);
    if (!report->week) {                /* a caution that any of them needs stands beside all of their figures */
        entry->standing = standing_of(report->verdicts, 0);
        report_cautions(showing->kitchen, report, keep_caution, telling);
    }
    index->count++;
    return index->arena.failed ? telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL) : STATUS_OK;
}

void index_close(struct telling *telling)
{
    struct report_index *index = &telling->index;
    telling->allocator.resize(telling->allocator.context, index->entries, 0);
    telling->allocator.resize(telling->allocator.context, index->cautions, 0);
    if (index->arena.allocator.resize)
        arena_close(&index->arena);
    *index = (struct report_index){ 0 };
}

/* ---- orders: recipes, days, weeks; what is equal stands by name, and then by file ---- */

static int compare_text(struct text a, struct text b)
{
    uint32_t shared = a.length < b.length ? a.length : b.length;
    int order = shared ? memcmp(a.bytes, b.bytes, shared) : 0;
    return order ? order : (a.length > b.length) - (a.length < b.length);
}

static int compare_names(const struct index_entry *a, const struct index_entry *b)
{
    int order = compare_text(a->key, b->key);
    return order ? order : compare_text(a->file, b->file);
}

/* What nobody knows may be the most: it never stands among the least. */
static int compare_open(const struct index_entry *a, const struct index_entry *b, uint32_t nutrient)
{
    return a->open[nutrient] != b->open[nutrient] ? (int)b->open[nutrient] - (int)a->open[nutrient] : 0;
}

/* The most first. */
static int compare_values(const struct index_entry *a, const struct index_entry *b, uint32_t nutrient)
{
    if (a->value[nutrient] != b->value[nutrient])
        return a->value[nutrient] > b->value[nutrient] ? -1 : 1;
    return compare_names(a, b);
}

static int by_limits(const void *left, const void *right)
{
    const struct index_entry *a = left, *b = right;
    if (a->kind != b->kind || a->standing.rank != b->standing.rank)
        return a->kind != b->kind ? (int)a->kind - (int)b->kind : (int)a->standing.rank - (int)b->standing.rank;
    return compare_values(a, b, 0);
}

static int by_name(const void *left, const void *right)
{
    const struct index_entry *a = left, *b = right;
    return a->kind != b->kind ? (int)a->kind - (int)b->kind : compare_names(a, b);
}

static int by_traced(const void *left, const void *right)
{
    const struct index_entry *a = left, *b = right;
    int order = a->kind != b->kind ? (int)a->kind - (int)b->kind : compare_open(a, b, 0);
    return order ? order : compare_values(a, b, 0);
}

static int by_compared(const void *left, const void *right)
{
    const struct index_entry *a = left, *b = right;
    int order = a->kind != b->kind ? (int)a->kind - (int)b->kind : compare_open(a, b, 1);
    return order ? order : compare_values(a, b, 1);
}

/* ---- telling ---- */

struct index_page {
    struct telling *telling;
    struct report_index *index;
    enum index_order order;
    struct text files[ORDER_COUNT];     /* of all orders, without endings; no bytes: there is none */
    double largest[2];                  /* of the kind that is told: what the longest bar is */
    enum index_kind kind;
};

static struct text with_ending(struct sheet *sheet, const struct telling *telling, struct text file)
{
    return sheet_print(sheet, "%.*s%s", (int)file.length, file.bytes, telling->form == QUERN_AS_HTML ? ".html" : ".md");
}

void index_link(const struct telling *telling, struct sheet *sheet)
{
    struct sheet_link link = { phrase_text(PHRASE_INDEX_BACK), with_ending(sheet, telling, text_of("index")) };
    if (is_for_people(telling))
        sheet_links(sheet, phrase_text(PHRASE_INDEX_BACK), &link, 1);
}

static void tell_orders(struct sheet *sheet, const struct index_page *page)
{
    struct sheet_link links[ORDER_COUNT];
    uint32_t count = 0;
    for (uint32_t i = 0; i < ORDER_COUNT; i++) {
        if (!page->files[i].length)
            continue;
        struct text nutrient = i >= ORDER_TRACED ? page->index->nutrients[i - ORDER_TRACED] : text_of("");
        struct text words = i == ORDER_LIMITS ? phrase_text(PHRASE_INDEX_BY_LIMITS)
                          : i == ORDER_NAME ? phrase_text(PHRASE_INDEX_BY_NAME)
                          : sheet_say(sheet, PHRASE_INDEX_BY_NUTRIENT, nutrient);
        links[count++] = (struct sheet_link){ words, i == page->order ? text_of("") : with_ending(sheet, page->telling, page->files[i]) };
    }
    sheet_links(sheet, phrase_text(PHRASE_INDEX_ORDERS), links, count);
}

static struct text counted(struct sheet *sheet, uint32_t count, enum report_phrase one, enum report_phrase many)
{
    return count == 1 ? phrase_text(one) : sheet_say(sheet, many, sheet_print(sheet, "%u", count));
}

/* Only figures of the same thing have a bar: not those of a whole recipe among servings. */
static void tell_entry(struct sheet *sheet, const struct index_page *page, const struct index_entry *entry)
{
    struct sheet_cell cells[4] = { { .words = entry->name, .link = with_ending(sheet, page->telling, entry->file) } };
    uint32_t count = 1;
    for (uint32_t i = 0; i < 2; i++) {
        if (!page->index->nutrients[i].length)
            continue;
        struct text amount = entry->words[i];
        struct text words = entry->whole ? sheet_say(sheet, PHRASE_INDEX_WHOLE, amount) : amount;
        cells[count] = cell_figure(words, entry->value[i]);
        cells[count++].bar = entry->whole || page->largest[i] <= 0 ? 0 : entry->value[i] / page->largest[i];
    }
    cells[count] = (struct sheet_cell){ .words = standing_words(sheet, &entry->standing), .tone = standing_tone(&entry->standing) };
    sheet_row(sheet, cells);
}

static void begin_table(struct sheet *sheet, const struct index_page *page, struct text caption)
{
    static const enum report_phrase things[] = { PHRASE_INDEX_RECIPE, PHRASE_INDEX_DAY, PHRASE_INDEX_WEEK };
    static const enum report_phrase amounts[] = { PHRASE_INDEX_PER_SERVING, PHRASE_INDEX_IN_DAY, PHRASE_INDEX_IN_WEEK };
    struct sheet_column columns[4] = { { phrase_text(things[page->kind]), false } };
    uint32_t count = 1;
    for (uint32_t i = 0; i < 2; i++) {
        struct text nutrient = page->index->nutrients[i];
        if (nutrient.length)
            columns[count++] = (struct sheet_column){ sheet_say(sheet, amounts[page->kind], nutrient), true };
    }
    columns[count++] = (struct sheet_column){ phrase_text(PHRASE_INDEX_LIMITS), false };
    sheet_table(sheet, caption, columns, count);
}

/* What entries that stand in one table share: where limits come first the outcome, by a nutrient whether all of it is known. */
static uint32_t table_of(const struct index_page *page, const struct index_entry *entry)
{
    if (page->order == ORDER_LIMITS)
        return entry->kind == KIND_WEEK ? 0 : entry->standing.rank;
    return page->order == ORDER_NAME ? 0 : entry->open[page->order - ORDER_TRACED];
}

static struct text caption_of(const struct index_page *page, const struct index_entry *entry, enum report_phrase kind)
{
    static const enum report_phrase ranks[] = { PHRASE_INDEX_ALL_BROKEN, PHRASE_INDEX_ALL_DOUBT, PHRASE_INDEX_ALL_MISSED,
                                                PHRASE_INDEX_ALL_KEPT, PHRASE_INDEX_ALL_FREE };
    if (page->order == ORDER_LIMITS && entry->kind != KIND_WEEK)
        return phrase_text(ranks[entry->standing.rank]);
    return phrase_text(table_of(page, entry) ? PHRASE_INDEX_OPEN : kind);
}

/* The entries from `first` up to `end` are of one kind. */
static void tell_kind(struct sheet *sheet, struct index_page *page, uint32_t first, uint32_t end)
{
    static const enum report_phrase kinds[] = { PHRASE_INDEX_RECIPES, PHRASE_INDEX_DAYS, PHRASE_INDEX_WEEKS };
    const struct index_entry *entries = page->index->entries;
    page->kind = entries[first].kind;
    page->largest[0] = page->largest[1] = 0;
    for (uint32_t i = first; i < end; i++) {
        for (uint32_t j = 0; j < 2 && !entries[i].whole; j++)
            page->largest[j] = amount_larger(page->largest[j], entries[i].value[j]);
    }
    sheet_heading(sheet, 2, phrase_text(kinds[page->kind]));
    for (uint32_t i = first; i < end; i++) {
        if (i == first || table_of(page, &entries[i]) != table_of(page, &entries[i - 1]))
            begin_table(sheet, page, caption_of(page, &entries[i], kinds[page->kind]));
        tell_entry(sheet, page, &entries[i]);
        if (i + 1 == end || table_of(page, &entries[i]) != table_of(page, &entries[i + 1]))
            sheet_table_end(sheet);
    }
}

static void tell_foot(struct sheet *sheet, const struct index_page *page)
{
    const struct report_index *index = page->index;
    sheet_heading(sheet, 2, phrase_text(PHRASE_INDEX_CAUTIONS));
    for (uint32_t i = 0; i < index->caution_count; i++)
        sheet_paragraph(sheet, MANNER_CAUTION, index->cautions[i]);
    struct text version = text_of(quern_version());
    sheet_paragraph(sheet, MANNER_QUIET, page->telling->day ? sheet_say(sheet, PHRASE_INDEX_DATED, version, text_of(page->telling->day))
                                                            : sheet_say(sheet, PHRASE_INDEX_MADE, version));
}

static enum status fill_index(struct telling *telling, struct writer *writer, void *context)
{
    struct index_page *page = context;
    struct report_index *index = page->index;
    struct sheet sheet;
    sheet_open(&sheet, telling->form == QUERN_AS_HTML ? LOOK_HTML : LOOK_MARKDOWN, writer, telling->allocator);
    sheet_begin(&sheet, phrase_text(PHRASE_INDEX_TITLE));
    tell_orders(&sheet, page);
    sheet_paragraph(&sheet, MANNER_PLAIN, counted(&sheet, index->count, PHRASE_INDEX_LEAD_ONE, PHRASE_INDEX_LEAD));
    for (uint32_t first = 0; first < index->count;) {
        uint32_t end = first;
        while (end < index->count && index->entries[end].kind == index->entries[first].kind)
            end++;
        tell_kind(&sheet, page, first, end);
        first = end;
    }
    tell_foot(&sheet, page);
    sheet_end(&sheet);
    sheet_close(&sheet);
    return STATUS_OK;
}

/* A name of a file for the order by a nutrient: `index-by-vitamin-c`. */
static struct text order_file(struct report_index *index, struct text nutrient)
{
    char *name = nutrient.length ? arena_print(&index->arena, "index-by-%.*s", (int)nutrient.length, nutrient.bytes) : NULL;
    for (char *at = name; at && *at; at++) {
        bool letter = (*at >= 'a' && *at <= 'z') || (*at >= '0' && *at <= '9');
        *at = letter ? *at : '-';
    }
    return text_of(name ? name : "");
}

enum status index_write(struct telling *telling)
{
    static int (*const compare[ORDER_COUNT])(const void *, const void *) = { by_limits, by_name, by_traced, by_compared };
    struct report_index *index = &telling->index;
    struct index_page page = { .telling = telling, .index = index };
    enum status status = STATUS_OK;
    if (!is_for_people(telling) || index->count == 0)
        return STATUS_OK;
    page.files[ORDER_LIMITS] = text_of("index");
    page.files[ORDER_NAME] = text_of("index-by-name");
    page.files[ORDER_TRACED] = order_file(index, index->nutrients[0]);
    page.files[ORDER_COMPARED] = order_file(index, index->nutrients[1]);
    for (uint32_t i = 0; i < ORDER_COUNT && status == STATUS_OK; i++) {
        page.order = (enum index_order)i;
        if (!page.files[i].length)
            continue;
        qsort(index->entries, index->count, sizeof *index->entries, compare[i]);
        status = folder_file_write(telling, page.files[i], fill_index, &page);
    }
    return status;
}
