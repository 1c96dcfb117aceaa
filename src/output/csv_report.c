/* Recipes, days and weeks as CSV: a row for each nutrient (those of the traced one by origin, too), or a row for each
 * line. A cell without bytes is one that there cannot be: the serving of a day. Cautions are rows of their own. */
#include "output/csv.h"
#include "output/figures.h"
#include "output/held.h"

static const char *const origin_keys[] = { "inherent", "maker", "cook", "unseparated" };

static void add_heads(struct csv *csv, const char *const *heads, size_t count)
{
    for (size_t i = 0; i < count; i++)
        csv_cell(csv, text_of(heads[i]));
}

static void range_heads(struct csv *csv, const char *what)
{
    static const char *const ends[] = { "low", "best", "high" };
    for (size_t i = 0; i < COUNT_OF(ends); i++) {
        char head[120];
        int length = snprintf(head, sizeof head, "%s_%s", what, ends[i]);
        csv_cell(csv, (struct text){ head, (uint32_t)length });
    }
}

/* Rows of one recipe, day or week. */
struct rows {
    struct showing *showing;
    struct csv csv;
    struct text name;
    struct place place;
    uint32_t blanks;                    /* cells between the head of a row and its words */
};

static void begin_row(struct rows *rows, const char *kind, struct place place)
{
    struct position position = sources_position(&rows->showing->sources, place);
    csv_cell(&rows->csv, text_of(kind));
    csv_cell(&rows->csv, rows->name);
    csv_cell(&rows->csv, text_of(sources_path(&rows->showing->sources, place.file)));
    csv_figure(&rows->csv, position.line, true);
}

static void add_blanks(struct csv *csv, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        csv_cell(csv, text_of(""));
}

static void add_caution(void *context, const struct caution_told *told)
{
    struct rows *rows = context;
    begin_row(rows, "caution", rows->place);
    add_blanks(&rows->csv, rows->blanks);
    csv_cell(&rows->csv, told->words);
    csv_end_line(&rows->csv);
}

/* Limits and goals, each with its outcome, the kept ones, too. */
static void add_limits(struct rows *rows, const struct verdicts *verdicts)
{
    struct sheet words;
    const struct kitchen *kitchen = rows->showing->kitchen;
    sheet_open(&words, LOOK_TEXT, rows->showing->writer, kitchen->allocator);
    for (uint32_t i = 0; i < verdicts->count; i++) {
        begin_row(rows, verdicts->at[i].bound->is_goal ? "goal" : "limit", rows->place);
        add_blanks(&rows->csv, rows->blanks);
        csv_cell(&rows->csv, held_words(&words, kitchen->library, &verdicts->at[i]));
        csv_end_line(&rows->csv);
    }
    writer_needs(rows->showing->writer, !words.arena.failed);
    sheet_close(&words);
}

static void add_finding(struct rows *rows, const struct finding *finding)
{
    struct buffer words;
    buffer_open(&words, rows->showing->kitchen->allocator);
    words_print(&words, &finding->words);
    buffer_print(&words, " [%s]", finding_code(finding));
    begin_row(rows, severity_name(shown_severity(rows->showing, finding)), finding->place);
    add_blanks(&rows->csv, rows->blanks);
    csv_cell(&rows->csv, (struct text){ words.bytes, (uint32_t)words.length });
    csv_end_line(&rows->csv);
    writer_needs(rows->showing->writer, !words.failed);
    buffer_close(&words);
}

/* What is wrong or doubtful, and the cautions: rows with nothing but words behind their head. */
static void add_words(struct rows *rows, const struct report *report)
{
    add_limits(rows, report->verdicts);
    for (uint32_t i = 0; i < report->findings_count; i++)
        add_finding(rows, report->findings[i]);
    report_cautions(rows->showing->kitchen, report, add_caution, rows);
}

/* ---- a row for each nutrient ------------------------------------------------------------------------------------- */

#define NUTRIENT_BLANKS (4 + 3 * 3)

struct nutrient_rows {
    struct rows rows;
    const char *kind;
    bool is_recipe;
    const struct amounts *whole;
    const struct amounts *serving, *hundred;    /* or NULL */
};

void csv_nutrient_heads(struct writer *writer)
{
    static const char *const heads[] = { "kind", "name", "file", "line", "nutrient", "origin", "unit", "complete" };
    static const char *const amounts[] = { "per_serving", "per_100_g", "in_all" };
    struct csv csv = { writer, false };
    add_heads(&csv, heads, COUNT_OF(heads));
    for (size_t i = 0; i < COUNT_OF(amounts); i++)
        range_heads(&csv, amounts[i]);
    csv_cell(&csv, text_of("words"));
    csv_end_line(&csv);
}


/* Of a recipe that does not say how many it serves, or that nobody weighed, the amounts are unknown; of a day there are none. */
static void add_sum(struct csv *csv, const struct amounts *amounts, uint32_t column, bool of_recipe)
{
    if (amounts)
        csv_sum(csv, amounts->column[column], amounts_complete(amounts, column));
    else if (of_recipe)
        csv_range(csv, range_exact(0), false);
    else
        add_blanks(csv, 3);
}

static void add_row(struct nutrient_rows *rows, uint32_t nutrient, uint32_t column, const char *origin)
{
    const struct library *owner;
    struct csv *csv = &rows->rows.csv;
    const struct nutrient *found = library_nutrient_at(rows->rows.showing->kitchen->library, nutrient, &owner);
    begin_row(&rows->rows, rows->kind, rows->rows.place);
    csv_cell(csv, library_text(owner, found->key));
    csv_cell(csv, text_of(origin));
    csv_cell(csv, library_text(owner, found->unit));
    csv_cell(csv, text_of(amounts_complete(rows->whole, column) ? "yes" : "no"));
    add_sum(csv, rows->serving, column, rows->is_recipe);
    add_sum(csv, rows->hundred, column, rows->is_recipe);
    add_sum(csv, rows->whole, column, rows->is_recipe);
    add_blanks(csv, 1);
    csv_end_line(csv);
}

static void add_rows(struct nutrient_rows *rows)
{
    const struct library *library = rows->rows.showing->kitchen->library;
    for (uint32_t i = 0; i < library->nutrient_total; i++) {
        add_row(rows, i, i, "");
        for (uint32_t j = 0; i == library->traced && j < ORIGIN_COUNT; j++)
            add_row(rows, i, library->origin_column + j, origin_keys[j]);
    }
}

static struct rows rows_of(struct showing *showing, struct text name, struct place place, uint32_t blanks)
{
    return (struct rows){ .showing = showing, .csv = { showing->writer, false }, .name = name, .place = place, .blanks = blanks };
}

static void week_rows(struct showing *showing, const struct report *report)
{
    struct week_cautions said;
    struct week_verdicts verdicts = { 0 };
    const struct week *week = report->week->week;
    struct nutrient_rows rows = { .rows = rows_of(showing, week->name, (struct place){ week->file, week->title }, NUTRIENT_BLANKS),
                                  .kind = "week", .whole = &report->week_sum->average };
    add_rows(&rows);
    enum status status = week_judge(showing->kitchen, *report->week, report->sums, report->week_sum, &verdicts, NULL);
    writer_needs(showing->writer, status == STATUS_OK);
    add_limits(&rows.rows, &verdicts.averages);
    week_verdicts_close(&verdicts, showing->kitchen->allocator);
    status = week_find_cautions(showing->kitchen, *report->week, report->sums, &said);
    writer_needs(showing->writer, status == STATUS_OK);
    for (uint32_t i = 0; i < said.count; i++)
        add_caution(&rows.rows, &(struct caution_told){ said.at[i].words, said.at[i].source, text_of(said.at[i].because), said.at[i].exactly, false, NONE_INDEX });
    week_cautions_close(&said, showing->kitchen->allocator);
}

void csv_nutrients(struct showing *showing, const struct report *report)
{
    struct amounts serving, hundred;
    bool estimated;
    const struct library *library = showing->kitchen->library;
    if (report->week) {
        week_rows(showing, report);
        return;
    }
    const struct recipe *recipe = report->sums->at.recipe;
    struct nutrient_rows rows = { .rows = rows_of(showing, recipe->name, (struct place){ recipe->file, recipe->title }, NUTRIENT_BLANKS),
                                  .kind = recipe->is_day ? "day" : "recipe", .is_recipe = !recipe->is_day, .whole = &report->sums->total };
    rows.serving = !recipe->is_day && figures_per_serving(report->sums, library, &serving) ? &serving : NULL;
    rows.hundred = !recipe->is_day && figures_per_mass(report->sums, library, &hundred, &estimated) ? &hundred : NULL;
    add_rows(&rows);
    add_words(&rows.rows, report);
}

/* ---- a row for each line ----------------------------------------------------------------------------------------- */

#define LINE_BLANKS (6 + 3 * 2)

/* The nutrients that rows of lines show: the traced one, and the one that the rules hold it against. */
static uint32_t line_columns(const struct kitchen *kitchen, uint32_t *columns)
{
    uint32_t count = 0, under = kitchen->rules ? kitchen->rules->compare_under : NONE_INDEX;
    if (kitchen->library->traced != NONE_INDEX)
        columns[count++] = kitchen->library->traced;
    if (under != NONE_INDEX && under != kitchen->library->traced)
        columns[count++] = under;
    return count;
}

void csv_line_heads(struct showing *showing)
{
    static const char *const heads[] = { "kind", "name", "file", "line", "part", "text", "food", "source", "treatments", "evidence" };
    const struct library *library = showing->kitchen->library, *owner;
    struct csv csv = { showing->writer, false };
    uint32_t columns[2], count = line_columns(showing->kitchen, columns);
    add_heads(&csv, heads, COUNT_OF(heads));
    range_heads(&csv, "g_as_measured");
    range_heads(&csv, "g_in_the_dish");
    for (uint32_t i = 0; i < count; i++) {
        char head[120];
        const struct nutrient *nutrient = library_nutrient_at(library, columns[i], &owner);
        struct text key = library_text(owner, nutrient->key), unit = library_text(owner, nutrient->unit);
        snprintf(head, sizeof head, "%.*s_%.*s", (int)key.length, key.bytes, (int)unit.length, unit.bytes);
        range_heads(&csv, head);
    }
    csv_cell(&csv, text_of("words"));
    csv_end_line(&csv);
}

static void add_subject(struct csv *csv, const struct line_amount *amount)
{
    const struct resolved *resolved = amount->resolved;
    bool food = resolved && resolved->subject == SUBJECT_FOOD && resolved->food.food;
    bool recipe = resolved && resolved->subject == SUBJECT_RECIPE;
    if (food)
        csv_cell(csv, library_text(resolved->food.library, resolved->food.food->name));
    else
        csv_cell(csv, recipe ? resolved->recipe.recipe->name : text_of(""));
    csv_cell(csv, food ? library_text(resolved->food.library, resolved->food.food->source) : text_of(recipe ? "recipe" : ""));
}

static void add_treatments(struct csv *csv, const struct line_amount *amount)
{
    char words[TREATMENTS_SHOWN * 132] = "";
    size_t used = 0;
    for (uint32_t i = 0; amount->resolved && i < amount->resolved->treatment_count; i++) {
        struct text name = amount->resolved->treatments[i];
        int length = snprintf(words + used, sizeof words - used, "%s%.*s", i ? ", " : "", (int)(name.length < 128 ? name.length : 128), name.bytes);
        used += length > 0 ? (size_t)length : 0;
    }
    csv_cell(csv, text_of(words));
    csv_cell(csv, evidence_word(amount->resolved ? amount->resolved->evidence : EVIDENCE_NONE));
}

static void add_amount(struct csv *csv, const struct line_amount *amount, const struct library *library, uint32_t column, bool is_known)
{
    csv_range(csv, is_known ? line_column(amount, library, column) : range_exact(0), is_known);
}

static void add_line(struct rows *rows, const struct sums *sums, const struct line_amount *amount)
{
    const struct kitchen *kitchen = rows->showing->kitchen;
    struct csv *csv = &rows->csv;
    struct place place = recipe_line_place(sums, amount->line);
    struct range grams = line_grams(amount, kitchen->library);
    uint32_t columns[2], count = line_columns(kitchen, columns), part = amount->line->part;
    begin_row(rows, sums->at.recipe->is_day ? "day" : "recipe", place);
    csv_cell(csv, part == NONE_INDEX ? text_of("") : sums->at.gathering->parts[part].name);
    csv_cell(csv, rows->showing->sources.text.bytes ? span_text(rows->showing->sources.text, place.span) : text_of(""));
    add_subject(csv, amount);
    add_treatments(csv, amount);
    csv_range(csv, grams, grams.high > 0);
    add_amount(csv, amount, kitchen->library, kitchen->library->mass_column, amount->mass_known && !amount->unknown);
    for (uint32_t i = 0; i < count; i++)
        add_amount(csv, amount, kitchen->library, columns[i], !(amount->incomplete >> columns[i] & 1));
    add_blanks(csv, 1);
    csv_end_line(csv);
}

void csv_lines(struct showing *showing, const struct report *report)
{
    uint32_t columns[2];
    if (report->week)
        return;
    const struct recipe *recipe = report->sums->at.recipe;
    struct rows rows = rows_of(showing, recipe->name, (struct place){ recipe->file, recipe->title },
                               LINE_BLANKS + 3 * line_columns(showing->kitchen, columns));
    for (uint32_t i = 0; i < report->sums->line_count; i++)
        add_line(&rows, report->sums, &report->sums->lines[i]);
    add_words(&rows, report);
}

void csv_finding(struct showing *showing, const struct finding *finding, bool among_lines)
{
    uint32_t columns[2];
    struct rows rows = rows_of(showing, text_of(""), finding->place,
                               among_lines ? LINE_BLANKS + 3 * line_columns(showing->kitchen, columns) : NUTRIENT_BLANKS);
    add_finding(&rows, finding);
}
