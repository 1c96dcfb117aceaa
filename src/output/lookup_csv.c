/* A list of foods as CSV, as RFC 4180 has it: a head, a line for each food, CR and LF behind each, cells with commas
 * or quotes in quotes. Each amount is three cells, so that no range is narrowed; where nobody knows it they say
 * `unknown`. Cells that a spreadsheet would take for a formula get an apostrophe in front. */
#include <string.h>

#include "output/lookup.h"

struct sheet {
    const struct lookup *lookup;
    struct writer *writer;
    bool is_begun;                      /* the line has a cell */
};

static bool needs_quotes(struct text cell)
{
    for (uint32_t i = 0; i < cell.length; i++) {
        if (strchr("\",\r\n", cell.bytes[i]))
            return true;
    }
    return false;
}

static void add_cell(struct sheet *sheet, struct text cell)
{
    struct writer *writer = sheet->writer;
    bool quotes = needs_quotes(cell), formula = cell.length > 0 && strchr("=+-@\t\r", cell.bytes[0]);
    writer_add(writer, text_of(sheet->is_begun ? "," : ""));
    writer_add(writer, text_of(quotes ? "\"" : ""));
    writer_add(writer, text_of(formula ? "'" : ""));
    for (uint32_t i = 0; i < cell.length; i++)
        writer_add(writer, cell.bytes[i] == '"' ? text_of("\"\"") : (struct text){ cell.bytes + i, 1 });
    writer_add(writer, text_of(quotes ? "\"" : ""));
    sheet->is_begun = true;
}

static void end_line(struct sheet *sheet)
{
    writer_add(sheet->writer, text_of("\r\n"));
    sheet->is_begun = false;
}

static void add_range(struct sheet *sheet, struct range amount, bool is_known)
{
    double figures[] = { amount.low, amount.best, amount.high };
    for (size_t i = 0; i < COUNT_OF(figures); i++) {
        char cell[40];
        snprintf(cell, sizeof cell, "%.15g", figures[i]);
        add_cell(sheet, text_of(is_known ? cell : "unknown"));
    }
}

static void add_heads(struct sheet *sheet, const char *basis)
{
    static const char *const ends[] = { "low", "best", "high" };
    for (uint32_t i = 0; i < sheet->lookup->column_count * COUNT_OF(ends); i++) {
        const struct library *owner;
        const struct nutrient *nutrient = library_nutrient_at(sheet->lookup->library, sheet->lookup->columns[i / COUNT_OF(ends)], &owner);
        struct text key = library_text(owner, nutrient->key), unit = library_text(owner, nutrient->unit);
        char cell[160];
        snprintf(cell, sizeof cell, "%.*s_%.*s_per_%s_%s", (int)(key.length < 60 ? key.length : 60), key.bytes,
                 (int)(unit.length < 20 ? unit.length : 20), unit.bytes, basis, ends[i % COUNT_OF(ends)]);
        add_cell(sheet, text_of(cell));
    }
}

static void print_head(struct sheet *sheet)
{
    static const char *const heads[] = { "name", "found_as", "match", "group", "basis" };
    static const char *const portion[] = { "portion", "portion_g_low", "portion_g_best", "portion_g_high" };
    for (size_t i = 0; i < COUNT_OF(heads); i++)
        add_cell(sheet, text_of(heads[i]));
    add_heads(sheet, "100_g");
    for (size_t i = 0; i < COUNT_OF(portion); i++)
        add_cell(sheet, text_of(portion[i]));
    add_heads(sheet, "portion");
    add_cell(sheet, text_of("source"));
    end_line(sheet);
}

static void add_amounts(struct sheet *sheet, struct food_at food, const struct portion *portion, bool is_known)
{
    for (uint32_t i = 0; i < sheet->lookup->column_count; i++) {
        struct range amount;
        bool known = lookup_amount(food, portion, sheet->lookup->columns[i], &amount);
        add_range(sheet, amount, known && is_known);
    }
}

static void print_match(struct sheet *sheet, const struct match *match)
{
    struct food_at food = match->food;
    const struct portion *portion = lookup_portion(food);
    const struct range none = { 0, 0, 0 };
    const char *basis = lookup_basis(food);
    char words[KEY_BYTES];
    struct text found_as = library_text(food.library, match->name->written);
    add_cell(sheet, lookup_name(sheet->lookup->library, food, found_as));
    add_cell(sheet, found_as);
    add_cell(sheet, text_of(lookup_match_word(match->kind)));
    add_cell(sheet, lookup_group(sheet->lookup->library, food));
    add_cell(sheet, text_of(basis ? basis : ""));
    add_amounts(sheet, food, NULL, true);
    add_cell(sheet, portion ? lookup_portion_words(food, portion, words, sizeof words) : text_of("none"));
    add_range(sheet, portion ? portion->grams : none, portion != NULL);
    add_amounts(sheet, food, portion, portion != NULL);
    add_cell(sheet, library_text(food.library, food.food->source));
    end_line(sheet);
}

void lookup_print_csv(const struct lookup *lookup, struct writer *writer)
{
    struct sheet sheet = { lookup, writer, false };
    print_head(&sheet);
    for (uint32_t i = 0; i < lookup_shown(lookup); i++)
        print_match(&sheet, &lookup->search.found[i]);
}
