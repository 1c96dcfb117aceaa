/* A list of foods as CSV: a head, and a line for each food. */
#include "output/csv.h"
#include "output/lookup.h"

struct foods_csv {
    const struct lookup *lookup;
    struct csv csv;
};

static void add_heads(struct foods_csv *foods, const char *basis)
{
    static const char *const ends[] = { "low", "best", "high" };
    for (uint32_t i = 0; i < foods->lookup->column_count * COUNT_OF(ends); i++) {
        const struct library *owner;
        const struct nutrient *nutrient = library_nutrient_at(foods->lookup->library, foods->lookup->columns[i / COUNT_OF(ends)], &owner);
        struct text key = library_text(owner, nutrient->key), unit = library_text(owner, nutrient->unit);
        char cell[160];
        snprintf(cell, sizeof cell, "%.*s_%.*s_per_%s_%s", (int)(key.length < 60 ? key.length : 60), key.bytes,
                 (int)(unit.length < 20 ? unit.length : 20), unit.bytes, basis, ends[i % COUNT_OF(ends)]);
        csv_cell(&foods->csv, text_of(cell));
    }
}

static void print_head(struct foods_csv *foods)
{
    static const char *const heads[] = { "name", "found_as", "match", "group", "basis" };
    static const char *const portion[] = { "portion", "portion_g_low", "portion_g_best", "portion_g_high" };
    for (size_t i = 0; i < COUNT_OF(heads); i++)
        csv_cell(&foods->csv, text_of(heads[i]));
    add_heads(foods, "100_g");
    for (size_t i = 0; i < COUNT_OF(portion); i++)
        csv_cell(&foods->csv, text_of(portion[i]));
    add_heads(foods, "portion");
    csv_cell(&foods->csv, text_of("source"));
    csv_cell(&foods->csv, text_of("portion_source"));
    csv_cell(&foods->csv, text_of("caution"));
    csv_end_line(&foods->csv);
}

static void add_amounts(struct foods_csv *foods, struct food_at food, const struct portion *portion, bool is_known)
{
    for (uint32_t i = 0; i < foods->lookup->column_count; i++) {
        struct range amount;
        bool known = lookup_amount(food, portion, foods->lookup->columns[i], &amount);
        csv_range(&foods->csv, amount, known && is_known);
    }
}

static void add_caution(void *context, const struct caution_told *told)
{
    struct buffer *words = context;
    buffer_print(words, "%s%.*s", words->length ? " " : "", (int)told->words.length, told->words.bytes);
}

/* What the food calls for, in one cell. */
static void print_cautions(struct foods_csv *foods, struct food_at food)
{
    struct buffer words;
    buffer_open(&words, foods->lookup->allocator);
    lookup_food_cautions(foods->lookup, food, add_caution, &words);
    csv_cell(&foods->csv, (struct text){ words.bytes, (uint32_t)words.length });
    writer_needs(foods->csv.writer, !words.failed);
    buffer_close(&words);
}

static void print_match(struct foods_csv *foods, const struct match *match)
{
    struct food_at food = match->food;
    const struct portion *portion = lookup_portion(food);
    const struct range none = { 0, 0, 0 };
    const char *basis = lookup_basis(food);
    char words[KEY_BYTES];
    struct text found_as = library_text(food.library, match->name->written);
    csv_cell(&foods->csv, lookup_name(foods->lookup->library, food, found_as));
    csv_cell(&foods->csv, found_as);
    csv_cell(&foods->csv, text_of(lookup_match_word(match->kind)));
    csv_cell(&foods->csv, lookup_group(foods->lookup->library, food));
    csv_cell(&foods->csv, text_of(basis ? basis : ""));
    add_amounts(foods, food, NULL, true);
    csv_cell(&foods->csv, portion ? lookup_portion_words(food, portion, words, sizeof words) : text_of("none"));
    csv_range(&foods->csv, portion ? portion->grams : none, portion != NULL);
    add_amounts(foods, food, portion, portion != NULL);
    csv_cell(&foods->csv, library_text(food.library, food.food->source));
    csv_cell(&foods->csv, portion ? library_text(food.library, portion->source.length ? portion->source : food.food->source) : text_of(""));
    print_cautions(foods, food);
    csv_end_line(&foods->csv);
}

void lookup_print_csv(const struct lookup *lookup, struct writer *writer)
{
    struct foods_csv foods = { lookup, { writer, false } };
    print_head(&foods);
    for (uint32_t i = 0; i < lookup_shown(lookup); i++)
        print_match(&foods, &lookup->search.found[i]);
}
