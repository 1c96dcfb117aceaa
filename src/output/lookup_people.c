/* A list of foods for people: two lines a food, what 100 g hold and what the usual portion holds. */

#include "output/lookup.h"

#define LABEL_COLUMNS 46                /* of the name and of what the figures are for */
#define FIGURE_COLUMNS 15

struct table_page {
    const struct lookup *lookup;
    struct writer *writer;
};

static void pad(struct writer *writer, uint32_t used, uint32_t columns)
{
    for (; used < columns; used++)
        writer_add(writer, text_of(" "));
}

static void print_right(struct writer *writer, struct text text, uint32_t columns)
{
    writer_add(writer, text_of(" "));
    pad(writer, text_columns(text) + 1, columns);
    writer_add(writer, text);
}

/* ---- rows -------------------------------------------------------------------------------------------------------- */

static void print_head(struct table_page *page)
{
    pad(page->writer, 0, LABEL_COLUMNS);
    for (uint32_t i = 0; i < page->lookup->column_count; i++) {
        const struct library *owner;
        const struct nutrient *nutrient = library_nutrient_at(page->lookup->library, page->lookup->columns[i], &owner);
        struct text name = library_text(owner, nutrient->name), unit = library_text(owner, nutrient->unit);
        char head[160];
        snprintf(head, sizeof head, "%.*s, %.*s", (int)(name.length < 60 ? name.length : 60), name.bytes,
                 (int)(unit.length < 20 ? unit.length : 20), unit.bytes);
        print_right(page->writer, text_of(head), FIGURE_COLUMNS);
    }
    writer_add(page->writer, text_of("\n"));
}

static void print_figures(struct table_page *page, struct food_at food, const struct portion *portion)
{
    for (uint32_t i = 0; i < page->lookup->column_count; i++) {
        char figure[64];
        struct range amount;
        bool known = lookup_amount(food, portion, page->lookup->columns[i], &amount);
        print_right(page->writer, lookup_figure(figure, sizeof figure, amount, known), FIGURE_COLUMNS);
    }
    writer_add(page->writer, text_of("\n"));
}

static void print_label(struct table_page *page, uint32_t used, struct text label)
{
    if (used + text_columns(label) + 2 > LABEL_COLUMNS && used > 0) {
        writer_add(page->writer, text_of("\n"));
        used = 0;
    }
    pad(page->writer, used + text_columns(label), LABEL_COLUMNS);
    writer_visible(page->writer, label);
}

static void print_portion(struct table_page *page, struct food_at food)
{
    const struct portion *portion = lookup_portion(food);
    char words[KEY_BYTES], label[KEY_BYTES + 80], grams[64];
    if (!portion) {
        print_label(page, 0, text_of("no usual portion is known"));
        writer_add(page->writer, text_of("\n"));
        return;
    }
    lookup_portion_words(food, portion, words, sizeof words);
    lookup_figure(grams, sizeof grams, portion->grams, true);
    snprintf(label, sizeof label, "%s = %s g", words, grams);
    print_label(page, 0, text_of(label));
    print_figures(page, food, portion);
}

/* `found_as` stands in parentheses where it is another name. */
static void print_food(struct table_page *page, struct food_at food, struct text found_as)
{
    struct text name = lookup_name(page->lookup->library, food, found_as);
    uint32_t used = text_columns(name);
    writer_visible(page->writer, name);
    if (!text_equal(name, found_as)) {
        writer_add(page->writer, text_of(" ("));
        writer_visible(page->writer, found_as);
        writer_add(page->writer, text_of(")"));
        used += text_columns(found_as) + 3;
    }
    print_label(page, used, text_of("100 g"));
    print_figures(page, food, NULL);
    print_portion(page, food);
}

static void print_matches(struct table_page *page)
{
    const struct search *search = &page->lookup->search;
    bool is_near = false, mixed = lookup_fitting(page->lookup) > 0;
    for (uint32_t i = 0; i < lookup_shown(page->lookup); i++) {
        const struct match *match = &search->found[i];
        if (mixed && !is_near && match->kind > MATCH_GROUP) {
            writer_print(page->writer, "names near the words:\n");
            is_near = true;
        }
        print_food(page, match->food, library_text(match->food.library, match->name->written));
    }
}

/* ---- what stands around ------------------------------------------------------------------------------------------ */

static void print_quoted(struct table_page *page, struct text words)
{
    writer_add(page->writer, text_of("`"));
    writer_visible(page->writer, words);
    writer_add(page->writer, text_of("`"));
}

/* `12 foods of the group "x" hold "beans"` */
static void print_count(struct table_page *page, uint32_t count)
{
    const struct lookup *lookup = page->lookup;
    if (count)
        writer_print(page->writer, "%u %s", count, count == 1 ? "food" : "foods");
    else
        writer_print(page->writer, "no food");
    if (lookup->wanted->group) {
        writer_print(page->writer, lookup->words.length ? " of the group " : count ? " in the group " : " is in the group ");
        print_quoted(page, text_of(lookup->wanted->group));
    }
    if (lookup->words.length) {
        writer_print(page->writer, count > 1 ? " hold " : " holds ");
        print_quoted(page, lookup->words);
    }
}

static void print_near_count(struct table_page *page, uint32_t count)
{
    if (count)
        writer_print(page->writer, "; the %s of %u %s near", count == 1 ? "name" : "names", count, count == 1 ? "food lies" : "foods lie");
    else
        writer_print(page->writer, ", and no name lies near");
}

static struct text order_name(const struct lookup *lookup)
{
    const struct library *owner;
    const struct nutrient *nutrient = library_nutrient_at(lookup->library, lookup->search.nutrient, &owner);
    return library_text(owner, nutrient->name);
}

static void print_title(struct table_page *page)
{
    const struct lookup *lookup = page->lookup;
    uint32_t fitting = lookup_fitting(lookup), shown = lookup_shown(lookup);
    print_count(page, fitting);
    if (fitting == 0 && lookup->words.length)
        print_near_count(page, lookup->search.count);
    if (shown && lookup->search.nutrient != NONE_INDEX) {
        struct text name = order_name(lookup);
        writer_print(page->writer, "; %s %.*s first", lookup->search.highest ? "highest" : "lowest", (int)name.length, name.bytes);
    }
    if (shown < lookup->search.count)
        writer_print(page->writer, "; %u of %u are shown", shown, lookup->search.count);
    writer_print(page->writer, shown ? ":\n\n" : "\n");
}

static void print_unknown(struct table_page *page)
{
    const struct search *search = &page->lookup->search;
    if (search->unknown_count == 0)
        return;
    struct text name = order_name(page->lookup);
    writer_print(page->writer, "%u of %u foods stand last because nobody knows their %.*s\n", search->unknown_count, search->count,
                 (int)name.length, name.bytes);
}

struct cautioning {
    struct writer *writer;
    bool begun;
};

static void print_caution(void *context, const struct caution_told *told)
{
    struct cautioning *cautioning = context;
    writer_add(cautioning->writer, text_of(cautioning->begun ? "" : "\n"));
    writer_wrapped(cautioning->writer, told->words);
    if (told->exactly.length)
        writer_wrapped(cautioning->writer, told->exactly);
    cautioning->begun = true;
}

void lookup_print_cautions(const struct lookup *lookup, struct writer *writer)
{
    lookup_cautions(lookup, print_caution, &(struct cautioning){ writer, false });
}

static void print_kinds(struct table_page *page)
{
    const struct lookup *lookup = page->lookup;
    writer_visible(page->writer, lookup->words);
    writer_print(page->writer, " comes in kinds; a recipe names one of them:\n\n");
    print_head(page);
    for (uint32_t i = 0; i < lookup->shelf->kind_count; i++) {
        struct text written = library_text(lookup->shelf_owner, lookup->shelf_owner->texts[lookup->shelf->first_kind + i]);
        struct food_at food = lookup_kind(lookup, i);
        if (food.food) {
            print_food(page, food, written);
        } else {
            writer_visible(page->writer, written);
            writer_print(page->writer, ": unknown\n");
        }
    }
}

static void print_list(struct table_page *page)
{
    print_title(page);
    if (lookup_shown(page->lookup) == 0)
        return;
    print_head(page);
    print_matches(page);
    print_unknown(page);
}

/* What a measure is taken for. One with a range is none that anybody has fixed. */
static void print_unit(struct table_page *page)
{
    const struct lookup *lookup = page->lookup;
    const struct unit *unit = lookup->unit;
    const char *of = unit->dimension == DIMENSION_MASS ? " g" : unit->dimension == DIMENSION_VOLUME ? " ml" : " times the plain one";
    struct text source = library_text(lookup->unit_owner, unit->source);
    writer_visible(page->writer, library_text(lookup->unit_owner, unit->name));
    if (range_is_exact(unit->factor))
        writer_print(page->writer, ": a measure of %.10g%s\n", unit->factor.best, of);
    else
        writer_print(page->writer, ": a measure that nobody has fixed, %.3g to %.3g%s, %.3g at best\n",
                     unit->factor.low, unit->factor.high, of, unit->factor.best);
    if (source.length)
        writer_wrapped(page->writer, source);
}

void lookup_print_people(const struct lookup *lookup, struct writer *writer)
{
    struct table_page page = { lookup, writer };
    if (lookup->card.food)
        card_print(lookup, writer);
    else if (lookup->shelf)
        print_kinds(&page);
    else if (lookup->unit)
        print_unit(&page);
    if (lookup->unit && lookup_fitting(lookup) > 0)
        writer_add(writer, text_of("\n"));
    if (!lookup->card.food && !lookup->shelf && (!lookup->unit || lookup_fitting(lookup) > 0))
        print_list(&page);
    if (!lookup->card.food && !lookup->unit && lookup->wanted->kitchen)
        writer_print(writer, "which recipes use a food stands on its card: give its whole name, and no option for lists\n");
    if (lookup->card.food || lookup->shelf || (lookup->unit ? lookup_fitting(lookup) : lookup_shown(lookup)) > 0)
        lookup_print_cautions(lookup, writer);
}
