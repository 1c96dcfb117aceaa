/* The record that is kept of figures from a database: 21 CFR 101.11(c)(3)(i), (A) to (G), paragraph by paragraph. */
#include "output/figures.h"
#include "output/page.h"
#include "output/trace_rows.h"
#include "output/written.h"

static const struct text none = { "", 0 };

#define SAY(symbol, ...) sheet_say(rows->sheet, PHRASE_##symbol, __VA_ARGS__)
#define WORDS(symbol) phrase_text(PHRASE_##symbol)

static void say(struct trace_rows *rows, struct text words)
{
    sheet_paragraph(rows->sheet, MANNER_PLAIN, words);
}

/* ---- (A), (B) ------------------------------------------------------------------------------------------------------------ */

static void add_database(struct trace_rows *rows)
{
    const struct kitchen *kitchen = rows->trace->kitchen;
    struct text version = text_of(quern_version());
    struct text rules = kitchen->rules ? library_text(kitchen->rules_owner, kitchen->rules->title) : none;
    sheet_heading(rows->sheet, 2, WORDS(RECORD_DATABASE));
    say(rows, SAY(RECORD_DATABASE_NAME, version, sheet_print(rows->sheet, "%016llx", (unsigned long long)kitchen->stdlib->checksum)));
    say(rows, WORDS(RECORD_DATABASE_DATE));
    say(rows, SAY(RECORD_PROGRAM, version, rules));
}

static void add_method(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    struct written written;
    bool begun = false;
    if (!written_read(&rows->trace->showing->sources, recipe->at.recipe, &rows->trace->arena, &written))
        return;
    for (const struct written_words *words = written.first; words; words = words->next) {
        if (words->kind != WRITTEN_STEP)
            continue;
        if (!begun) {
            sheet_heading(rows->sheet, 3, WORDS(RECORD_METHOD));
            sheet_list(rows->sheet, true);
        }
        begun = true;
        sheet_item(rows->sheet, words->words);
    }
    if (begun)
        sheet_list_end(rows->sheet);
}

static void add_recipe(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    struct range serves = recipe->at.recipe->serves, grams;
    bool estimated;
    if (serves.high <= 0)
        say(rows, WORDS(RECORD_SERVES_UNKNOWN));
    else
        say(rows, SAY(RECORD_SERVES, range_is_exact(serves) ? sheet_print(rows->sheet, "%g", serves.best)
                                                            : sheet_print(rows->sheet, "%g–%g", serves.low, serves.high)));
    if (figures_serving_grams(&recipe->sums, rows->trace->library, &grams, &estimated)) {
        struct text weight = sheet_print(rows->sheet, "%.6g", grams.best);
        say(rows, estimated ? SAY(RECORD_SERVING_ESTIMATED, weight) : SAY(RECORD_SERVING_WEIGHS, weight));
    }
    sheet_heading(rows->sheet, 3, WORDS(RECORD_INGREDIENTS));
    sheet_list(rows->sheet, false);
    for (uint32_t i = 0; i < recipe->line_count; i++)
        sheet_item(rows->sheet, recipe->lines[i].words);
    sheet_list_end(rows->sheet);
    add_method(rows, recipe);
}

static void add_recipes(struct trace_rows *rows)
{
    sheet_heading(rows->sheet, 2, WORDS(RECORD_RECIPE));
    for (uint32_t i = 0; i < rows->trace->count; i++) {
        if (i > 0)
            sheet_heading(rows->sheet, 2, SAY(TRACE_RECIPE_HEADING, rows->trace->recipes[i]->at.recipe->name));
        add_recipe(rows, rows->trace->recipes[i]);
    }
}

/* ---- (C) ------------------------------------------------------------------------------------------------------------------- */

#define NUTRIENTS_SIDE_BY_SIDE 6

static struct range shared(const struct traced_recipe *recipe, struct range amount)
{
    return recipe->at.recipe->serves.low > 0 ? range_divide(amount, recipe->at.recipe->serves) : amount;
}

static struct sheet_cell amount_cell(struct trace_rows *rows, const struct traced_recipe *recipe, struct range amount, bool known)
{
    struct range each = shared(recipe, amount);
    if (!known && each.low > 0)
        return cell_words(SAY(AT_LEAST, sheet_print(rows->sheet, "%.4g", each.low)));
    return known ? cell_figure(sheet_print(rows->sheet, "%.4g", each.best), each.best) : cell_words(WORDS(TRACE_UNKNOWN));
}

static struct text nutrient_head(struct trace_rows *rows, uint32_t nutrient)
{
    struct bound plain = { .column = nutrient, .over = NONE_INDEX };
    return SAY(RECORD_NUTRIENT, column_name(rows->trace->library, nutrient), bound_column_unit(rows->trace->library, &plain));
}

/* Lines against a few nutrients. */
static void add_block(struct trace_rows *rows, const struct traced_recipe *recipe, uint32_t first, uint32_t end)
{
    const struct library *library = rows->trace->library;
    struct sheet_column columns[SHEET_COLUMNS] = { { WORDS(RECORD_INGREDIENT), false }, { WORDS(RECORD_GRAMS), true } };
    struct sheet_cell cells[SHEET_COLUMNS];
    for (uint32_t i = first; i < end; i++)
        columns[2 + i - first] = (struct sheet_column){ nutrient_head(rows, i), true };
    sheet_table(rows->sheet, SAY(RECORD_TABLE, sheet_print(rows->sheet, "%u", first + 1), sheet_print(rows->sheet, "%u", end)), columns, 2 + end - first);
    for (uint32_t line = 0; line < recipe->line_count; line++) {
        const struct line_amount *amount = recipe->lines[line].amount;
        struct range grams = line_grams(amount, library);
        cells[0] = cell_words(recipe->lines[line].words);
        cells[1] = amount_cell(rows, recipe, grams, grams.high > 0);
        for (uint32_t i = first; i < end; i++)
            cells[2 + i - first] = amount_cell(rows, recipe, line_column(amount, library, i), !(amount->incomplete >> i & 1));
        sheet_row(rows->sheet, cells);
    }
    cells[0] = cell_words(WORDS(RECORD_SUM));
    cells[1] = cell_words(none);
    for (uint32_t i = first; i < end; i++)
        cells[2 + i - first] = amount_cell(rows, recipe, recipe->sums.total.column[i], amounts_complete(&recipe->sums.total, i));
    sheet_row(rows->sheet, cells);
    sheet_table_end(rows->sheet);
}

static void add_contributions(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    uint32_t count = rows->trace->library->nutrient_total;
    for (uint32_t first = 0; first < count; first += NUTRIENTS_SIDE_BY_SIDE)
        add_block(rows, recipe, first, first + NUTRIENTS_SIDE_BY_SIDE < count ? first + NUTRIENTS_SIDE_BY_SIDE : count);
}

static void add_calculation(struct trace_rows *rows)
{
    const struct traced_recipe *recipe = rows->trace->recipes[0];
    sheet_heading(rows->sheet, 2, recipe->at.recipe->serves.low > 0 ? WORDS(RECORD_CONTRIBUTIONS) : WORDS(RECORD_CONTRIBUTIONS_ALL));
    say(rows, SAY(RECORD_CONTRIBUTIONS_WORDS, rows->name));
    add_contributions(rows, recipe);
    rows_recipes(rows);
}

/* ---- (D), (E) ------------------------------------------------------------------------------------------------------------- */

static void add_values(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    const struct library *library = rows->trace->library;
    struct report report = { .sums = (struct sums *)&recipe->sums, .verdicts = &recipe->verdicts };
    struct page page = page_of(rows->trace->showing, rows->sheet, &report);
    const struct sheet_column columns[] = { { WORDS(RECORD_VALUE), false }, { WORDS(RECORD_UNROUNDED), true }, { WORDS(RECORD_ROUNDED), false } };
    sheet_heading(rows->sheet, 2, WORDS(RECORD_VALUES));
    sheet_table(rows->sheet, WORDS(RECORD_VALUES), columns, COUNT_OF(columns));
    for (uint32_t i = 0; i < library->nutrient_total; i++) {
        char printed[160];
        bool complete = amounts_complete(&recipe->sums.total, i);
        struct range amount = shared(recipe, recipe->sums.total.column[i]);
        page_range(&page, printed, sizeof printed, i, amount, complete);
        sheet_row(rows->sheet, (const struct sheet_cell[]){ cell_words(nutrient_head(rows, i)),
                               amount_cell(rows, recipe, recipe->sums.total.column[i], complete), cell_words(sheet_print(rows->sheet, "%s", printed)) });
    }
    sheet_table_end(rows->sheet);
}

static void add_treated(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    for (uint32_t i = 0; i < recipe->line_count; i++) {
        const struct resolved *resolved = recipe->lines[i].amount->resolved;
        for (uint32_t j = 0; resolved && resolved->evidence && j < resolved->treatment_count; j++)
            sheet_item(rows->sheet, SAY(RECORD_SHIFT_LINE, recipe->lines[i].words, resolved->treatments[j], evidence_word(resolved->evidence)));
    }
}

static void add_shifts(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    struct range grams;
    bool estimated = false, begun = false;
    char evidence[EVIDENCE_LIST_BYTES];
    figures_serving_grams(&recipe->sums, rows->trace->library, &grams, &estimated);
    sheet_heading(rows->sheet, 2, WORDS(RECORD_SHIFTS));
    sheet_list(rows->sheet, false);
    add_treated(rows, recipe);
    if (estimated)
        sheet_item(rows->sheet, WORDS(RECORD_SHIFT_ESTIMATED));
    sheet_item(rows->sheet, WORDS(RECORD_SHIFT_SERVINGS));
    sheet_list_end(rows->sheet);
    say(rows, SAY(RECORD_SHIFT_EVIDENCE, evidence_list(evidence)));
    for (uint32_t i = 0; i < recipe->line_count; i++) {
        if (!recipe->lines[i].amount->incomplete)
            continue;
        if (!begun) {
            say(rows, WORDS(RECORD_SHIFT_UNKNOWN));
            sheet_list(rows->sheet, false);
        }
        begun = true;
        sheet_item(rows->sheet, recipe->lines[i].words);
    }
    if (begun)
        sheet_list_end(rows->sheet);
}

/* ---- (F), (G) -------------------------------------------------------------------------------------------------------------- */

static void add_signature(struct trace_rows *rows, struct text statement)
{
    say(rows, statement);
    sheet_paragraph(rows->sheet, MANNER_QUIET, WORDS(RECORD_SIGNATURE));
    sheet_paragraph(rows->sheet, MANNER_QUIET, WORDS(RECORD_SIGNATURE_DATE));
}

void trace_record(struct trace *trace, enum quern_form form, struct writer *writer)
{
    struct sheet sheet;
    const struct traced_recipe *recipe = trace->recipes[0];
    struct trace_rows all = { .trace = trace, .sheet = &sheet, .name = trace_column_name(trace), .unit = trace_column_unit(trace) }, *rows = &all;
    sheet_open(&sheet, rows_look(form), writer, trace->kitchen->allocator);
    sheet_begin(&sheet, SAY(RECORD_TITLE, recipe->at.recipe->name));
    say(rows, WORDS(RECORD_INTRODUCTION));
    add_database(rows);
    add_recipes(rows);
    add_calculation(rows);
    add_values(rows, recipe);
    rows_limits(rows, recipe, 2, true);
    add_shifts(rows, recipe);
    sheet_heading(&sheet, 2, WORDS(RECORD_SIGNATURES));
    add_signature(rows, WORDS(RECORD_STATEMENT_ANALYSIS));
    add_signature(rows, WORDS(RECORD_STATEMENT_PREPARATION));
    rows_sources(rows);
    rows_cautions(rows, recipe);
    sheet_end(&sheet);
    trace->kitchen->allocator.resize(trace->kitchen->allocator.context, rows->sources, 0);
    sheet_close(&sheet);
}
