/* A trace on a sheet: its lines, what they come to, what it is held against, the sources. */
#include <math.h>

#include "output/figures.h"
#include "output/held.h"
#include "output/page.h"
#include "output/trace_rows.h"

static const struct text none = { "", 0 };

#define SAY(symbol, ...) sheet_say(rows->sheet, PHRASE_##symbol, __VA_ARGS__)
#define WORDS(symbol) phrase_text(PHRASE_##symbol)

/* ---- rows ---------------------------------------------------------------------------------------------------------------- */

void rows_table(struct trace_rows *rows, struct text caption)
{
    const struct sheet_column columns[] = { { WORDS(TRACE_COLUMN_STEP), false }, { WORDS(TRACE_COLUMN_LOW), true }, { WORDS(TRACE_COLUMN_BEST), true },
                                            { WORDS(TRACE_COLUMN_HIGH), true }, { WORDS(TRACE_COLUMN_SOURCE), false } };
    sheet_table(rows->sheet, caption, columns, COUNT_OF(columns));
}

struct text rows_source(struct trace_rows *rows, struct text source)
{
    struct allocator allocator = rows->trace->kitchen->allocator;
    uint32_t number = 0;
    if (source.length == 0)
        return none;
    while (number < rows->source_count && !text_equal(rows->sources[number], source))
        number++;
    if (number == rows->source_count) {
        bool grown = array_grow(&allocator, &rows->sources, rows->source_count, &rows->source_capacity, sizeof *rows->sources);
        writer_needs(rows->sheet->writer, grown);
        if (!grown)
            return none;
        rows->sources[rows->source_count++] = source;
    }
    return SAY(TRACE_SOURCE_NUMBER, sheet_print(rows->sheet, "%u", number + 1));
}

static struct sheet_cell figure(struct trace_rows *rows, double value)
{
    return isfinite(value) ? cell_figure(sheet_print(rows->sheet, "%.6g", value), value) : cell_words(WORDS(TRACE_UNKNOWN));
}

void rows_add(struct trace_rows *rows, uint32_t depth, struct text words, struct range range, bool known, struct text source)
{
    struct sheet_cell cells[5] = { cell_words(words), figure(rows, range.low), figure(rows, known ? range.best : NAN),
                                   figure(rows, known ? range.high : NAN), cell_words(rows_source(rows, source)) };
    cells[0].depth = depth;
    sheet_row(rows->sheet, cells);
}

void rows_say(struct trace_rows *rows, uint32_t depth, struct text words, struct text source)
{
    struct sheet_cell cells[5] = { cell_words(words), cell_words(none), cell_words(none), cell_words(none), cell_words(rows_source(rows, source)) };
    cells[0].depth = depth;
    sheet_row(rows->sheet, cells);
}

/* ---- what the lines come to ------------------------------------------------------------------------------------------------ */

static bool is_nutrient(const struct trace *trace)
{
    return trace->column != trace->library->mass_column;
}

static void add_printed(struct trace_rows *rows, const struct page *page, struct range amount, bool complete, const struct trace_result *result)
{
    const struct library *owner = rows->trace->kitchen->rules_owner;
    uint32_t nutrient = rows->trace->column < rows->trace->library->nutrient_total ? rows->trace->column : rows->trace->library->traced;
    rows_add(rows, 0, WORDS(TRACE_ROUNDED), page_printed(page, nutrient, amount), complete, result->rounding ? library_text(owner, result->rounding->source) : none);
    if (result->day) {
        struct text day = sheet_print(rows->sheet, "%g %.*s", result->day->amount, (int)rows->unit.length, rows->unit.bytes);
        rows_add(rows, 0, SAY(TRACE_DAILY_VALUE, day, kitchen_daily_name(rows->trace->kitchen)), range_scale(amount, 100 / result->day->amount), complete, library_text(owner, result->day->source));
    }
}

static void add_hundred(struct trace_rows *rows, const struct traced_recipe *recipe, const struct trace_result *result)
{
    bool estimated, known;
    struct range grams = recipe_grams(recipe->at.recipe, &recipe->sums.total, rows->trace->library, &estimated, &known);
    if (!result->has_hundred || !is_nutrient(rows->trace) || recipe->at.recipe->is_day)
        return;
    if (!estimated)
        rows_add(rows, 0, WORDS(TRACE_BATCH_GRAMS), grams, known, none);
    rows_add(rows, 0, estimated ? SAY(TRACE_HUNDRED_LINES, rows->unit) : SAY(TRACE_HUNDRED, rows->unit), result->hundred, recipe->complete, none);
}

static bool has_slack(const struct traced_recipe *recipe)
{
    return amount_compare(recipe->sum.low, recipe->total.low) != 0 || amount_compare(recipe->sum.high, recipe->total.high) != 0;
}

/* What may be of the traced origin, too. */
static void add_beside(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    const struct amounts *total = &recipe->sums.total;
    uint32_t beside = unseparated_beside(rows->trace->library, rows->trace->column);
    if (beside != NONE_INDEX && (!amounts_complete(total, beside) || total->column[beside].high > 0))
        rows_add(rows, 1, SAY(TRACE_BESIDE, rows->unit), total->column[beside], amounts_complete(total, beside), none);
}

static void add_result(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    struct trace_result result;
    struct report report = { .sums = (struct sums *)&recipe->sums, .verdicts = &recipe->verdicts };
    struct page page = page_of(rows->trace->showing, rows->sheet, &report);
    trace_result(rows->trace, recipe, &result);
    rows_table(rows, WORDS(TRACE_RESULT));
    rows_add(rows, 0, WORDS(TRACE_SUM), recipe->sum, recipe->complete, none);
    if (has_slack(recipe))
        rows_say(rows, 1, WORDS(TRACE_SLACK), none);
    rows_add(rows, 0, recipe->at.recipe->is_day ? SAY(TRACE_TOTAL_DAY, rows->unit) : SAY(TRACE_TOTAL, rows->unit), recipe->total, recipe->complete, none);
    add_beside(rows, recipe);
    if (result.has_serving) {
        rows_add(rows, 0, WORDS(TRACE_SERVES), recipe->at.recipe->serves, true, none);
        rows_add(rows, 0, SAY(TRACE_PER_SERVING, rows->unit), result.serving, recipe->complete, none);
    }
    if (is_nutrient(rows->trace))
        add_printed(rows, &page, result.has_serving ? result.serving : recipe->total, recipe->complete, &result);
    add_hundred(rows, recipe, &result);
    sheet_table_end(rows->sheet);
}

/* ---- limits ------------------------------------------------------------------------------------------------------------------- */

void rows_limits(struct trace_rows *rows, const struct traced_recipe *recipe, uint32_t level, bool all)
{
    bool begun = false;
    for (uint32_t i = 0; i < recipe->verdicts.count; i++) {
        if (!all && !trace_is_about(rows->trace, &recipe->verdicts.at[i]))
            continue;
        if (!begun) {
            sheet_heading(rows->sheet, level, WORDS(TRACE_LIMITS));
            sheet_list(rows->sheet, false);
        }
        begun = true;
        sheet_item(rows->sheet, held_words(rows->sheet, rows->trace->library, &recipe->verdicts.at[i]));
    }
    if (begun)
        sheet_list_end(rows->sheet);
}

/* ---- the whole ---------------------------------------------------------------------------------------------------------------- */

void rows_program(struct trace_rows *rows)
{
    const struct kitchen *kitchen = rows->trace->kitchen;
    struct text rules = kitchen->rules ? library_text(kitchen->rules_owner, kitchen->rules->title) : none;
    struct text library = sheet_print(rows->sheet, "%016llx", (unsigned long long)kitchen->stdlib->checksum);
    sheet_paragraph(rows->sheet, MANNER_QUIET, SAY(TRACE_PROGRAM, text_of(quern_version()), library, rules));
}

void rows_sources(struct trace_rows *rows)
{
    if (rows->source_count == 0)
        return;
    sheet_heading(rows->sheet, 2, WORDS(TRACE_SOURCES));
    sheet_list(rows->sheet, true);
    for (uint32_t i = 0; i < rows->source_count; i++)
        sheet_item(rows->sheet, rows->sources[i]);
    sheet_list_end(rows->sheet);
}

static void add_caution(void *context, const struct caution_told *told)
{
    struct trace_rows *rows = context;
    sheet_paragraph(rows->sheet, MANNER_CAUTION, told->because.length ? SAY(TRACE_CAUTION_BECAUSE, told->because, told->words) : told->words);
}

void rows_cautions(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    struct report report = { .sums = (struct sums *)&recipe->sums, .verdicts = &recipe->verdicts };
    sheet_heading(rows->sheet, 2, WORDS(TRACE_CAUTIONS));
    report_cautions(rows->trace->kitchen, &report, add_caution, rows);
}

static void add_recipe(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    const char *path = sources_path(&rows->trace->showing->sources, recipe->at.recipe->file);
    sheet_paragraph(rows->sheet, MANNER_QUIET, SAY(TRACE_AT, text_of(path), sheet_print(rows->sheet, "%u", recipe->position.line)));
    for (uint32_t i = 0; i < recipe->line_count; i++)
        rows_line(rows, recipe, i);
    rows_baths(rows, recipe);
    add_result(rows, recipe);
    rows_limits(rows, recipe, 3, false);
}

void rows_recipes(struct trace_rows *rows)
{
    const struct trace *trace = rows->trace;
    for (uint32_t i = 0; i < trace->count; i++) {
        if (i > 0)
            sheet_heading(rows->sheet, 2, SAY(TRACE_RECIPE_HEADING, trace->recipes[i]->at.recipe->name));
        add_recipe(rows, trace->recipes[i]);
    }
}

enum look rows_look(enum quern_form form)
{
    return form == QUERN_AS_HTML ? LOOK_HTML : form == QUERN_AS_MARKDOWN ? LOOK_MARKDOWN : LOOK_TEXT;
}

void trace_tell(struct trace *trace, enum quern_form form, struct writer *writer)
{
    struct sheet sheet;
    struct trace_rows all = { .trace = trace, .sheet = &sheet, .name = trace_column_name(trace), .unit = trace_column_unit(trace) }, *rows = &all;
    sheet_open(&sheet, rows_look(form), writer, trace->kitchen->allocator);
    sheet_begin(&sheet, SAY(TRACE_TITLE, rows->name, trace->recipes[0]->at.recipe->name));
    sheet_paragraph(&sheet, MANNER_PLAIN, SAY(TRACE_INTRODUCTION, rows->unit, rows->name));
    rows_recipes(rows);
    rows_sources(rows);
    sheet_paragraph(&sheet, MANNER_PLAIN, WORDS(TRACE_METHOD));
    rows_program(rows);
    rows_cautions(rows, trace->recipes[0]);
    sheet_end(&sheet);
    trace->kitchen->allocator.resize(trace->kitchen->allocator.context, rows->sources, 0);
    sheet_close(&sheet);
}
