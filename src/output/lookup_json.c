/* What was looked up as JSON; docs/schema/lookup-2.json describes it, and fields are only ever added. Figures are not
 * rounded; null is unknown, never zero. */
#include <string.h>
#include <cjson/cJSON.h>

#include "output/lookup.h"

struct document {
    const struct lookup *lookup;
    bool failed;                        /* memory failed: nothing of the whole is printed */
};

/* ---- small makers ------------------------------------------------------------------------------------------------ */

static cJSON *kept(struct document *document, cJSON *item)
{
    document->failed = document->failed || !item;
    return item;
}

static void add_bytes(struct document *document, cJSON *object, const char *key, struct text text)
{
    struct buffer copy;
    buffer_open(&copy, document->lookup->allocator);
    for (uint32_t at = 0; at < text.length;) {
        uint32_t size = utf8_length(text.bytes + at, text.length - at);
        buffer_add(&copy, size ? text.bytes + at : "\xef\xbf\xbd", size ? size : 3);    /* JSON is UTF-8 */
        at += size ? size : 1;
    }
    buffer_add(&copy, "", 1);
    document->failed = document->failed || copy.failed;
    if (!copy.failed && key)
        kept(document, cJSON_AddStringToObject(object, key, copy.bytes));
    else if (!copy.failed)
        cJSON_AddItemToArray(object, kept(document, cJSON_CreateString(copy.bytes)));
    buffer_close(&copy);
}

static void add_text_or_null(struct document *document, cJSON *object, const char *key, struct text text)
{
    if (text.length)
        add_bytes(document, object, key, text);
    else
        kept(document, cJSON_AddNullToObject(object, key));
}

static cJSON *add_list(struct document *document, cJSON *object, const char *key)
{
    return kept(document, cJSON_AddArrayToObject(object, key));
}

static cJSON *add_object(struct document *document, cJSON *object, const char *key)
{
    return kept(document, cJSON_AddObjectToObject(object, key));
}

static void fill_range(struct document *document, cJSON *object, struct range range, bool is_known)
{
    const char *const keys[] = { "low", "best", "high" };
    const double figures[] = { range.low, range.best, range.high };
    for (size_t i = 0; i < COUNT_OF(keys); i++) {
        if (is_known)
            kept(document, cJSON_AddNumberToObject(object, keys[i], figures[i]));
        else
            kept(document, cJSON_AddNullToObject(object, keys[i]));
    }
}

static void add_range(struct document *document, cJSON *object, const char *key, struct range range)
{
    fill_range(document, add_object(document, object, key), range, true);
}

/* ---- amounts ----------------------------------------------------------------------------------------------------- */

static const struct nutrient *nutrient_at(const struct document *document, uint32_t column, char *key, size_t size)
{
    const struct library *owner;
    const struct nutrient *nutrient = library_nutrient_at(document->lookup->library, column, &owner);
    struct text text = library_text(owner, nutrient->key);
    snprintf(key, size, "%.*s", (int)text.length, text.bytes);
    return nutrient;
}

static void add_amount(struct document *document, cJSON *all, struct food_at food, const struct portion *portion, uint32_t column)
{
    const struct library *owner;
    struct range amount;
    char key[KEY_BYTES];
    bool known = lookup_amount(food, portion, column, &amount);
    nutrient_at(document, column, key, sizeof key);
    cJSON *one = add_object(document, all, key);
    const struct nutrient *nutrient = library_nutrient_at(document->lookup->library, column, &owner);
    add_bytes(document, one, "unit", library_text(owner, nutrient->unit));
    fill_range(document, one, amount, known);
}

static void add_amounts(struct document *document, cJSON *object, const char *key, struct food_at food, const struct portion *portion)
{
    cJSON *all = add_object(document, object, key);
    for (uint32_t i = 0; i < document->lookup->column_count; i++)
        add_amount(document, all, food, portion, document->lookup->columns[i]);
}

static void fill_portion(struct document *document, cJSON *object, struct food_at food, const struct portion *portion)
{
    char words[KEY_BYTES];
    add_bytes(document, object, "words", lookup_portion_words(food, portion, words, sizeof words));
    add_range(document, object, "grams", portion->grams);
    add_text_or_null(document, object, "source", library_text(food.library, portion->source));
}

/* ---- foods in a list --------------------------------------------------------------------------------------------- */

static void fill_head(struct document *document, cJSON *object, struct food_at food, struct text found_as)
{
    const char *basis = lookup_basis(food);
    add_bytes(document, object, "name", lookup_name(document->lookup->library, food, found_as));
    add_text_or_null(document, object, "group", lookup_group(document->lookup->library, food));
    add_text_or_null(document, object, "basis", text_of(basis ? basis : ""));
    add_text_or_null(document, object, "source", library_text(food.library, food.food->source));
}

static void add_food(struct document *document, cJSON *list, struct food_at food, struct text found_as, const char *match)
{
    const struct portion *portion = lookup_portion(food);
    cJSON *object = kept(document, cJSON_CreateObject());
    cJSON_AddItemToArray(list, object);
    fill_head(document, object, food, found_as);
    add_bytes(document, object, "found_as", found_as);
    add_bytes(document, object, "match", text_of(match));
    add_amounts(document, object, "per_100_g", food, NULL);
    if (portion) {
        fill_portion(document, add_object(document, object, "portion"), food, portion);
        add_amounts(document, object, "per_portion", food, portion);
    } else {
        kept(document, cJSON_AddNullToObject(object, "portion"));
        kept(document, cJSON_AddNullToObject(object, "per_portion"));
    }
}

static void add_foods(struct document *document, cJSON *root)
{
    cJSON *list = add_list(document, root, "foods");
    for (uint32_t i = 0; i < lookup_shown(document->lookup); i++) {
        const struct match *match = &document->lookup->search.found[i];
        add_food(document, list, match->food, library_text(match->food.library, match->name->written), lookup_match_word(match->kind));
    }
}

static void add_kinds(struct document *document, cJSON *root)
{
    const struct lookup *lookup = document->lookup;
    if (!lookup->shelf) {
        kept(document, cJSON_AddNullToObject(root, "kinds"));
        return;
    }
    cJSON *list = add_list(document, root, "kinds");
    for (uint32_t i = 0; i < lookup->shelf->kind_count; i++) {
        struct food_at food = lookup_kind(lookup, i);
        struct text written = library_text(lookup->shelf_owner, lookup->shelf_owner->texts[lookup->shelf->first_kind + i]);
        if (food.food)
            add_food(document, list, food, written, "kind");
    }
}

/* ---- the card ---------------------------------------------------------------------------------------------------- */

static void add_aliases(struct document *document, cJSON *object, struct food_at food)
{
    cJSON *list = add_list(document, object, "aliases");
    for (uint32_t i = 0; i < food.library->names_count; i++) {
        const struct name *name = &food.library->names[i];
        struct text written = library_text(food.library, name->written);
        bool is_its = name->space == SPACE_FOOD && name->index == (uint32_t)(food.food - food.library->foods);
        if (is_its && !text_equal(written, library_text(food.library, food.food->name)))
            add_bytes(document, list, NULL, written);
    }
}

static void add_portions(struct document *document, cJSON *object, struct food_at food)
{
    cJSON *list = add_list(document, object, "portions");
    for (uint32_t i = 0; i < food.food->portion_count; i++) {
        cJSON *one = kept(document, cJSON_CreateObject());
        cJSON_AddItemToArray(list, one);
        fill_portion(document, one, food, &food.library->portions[food.food->first_portion + i]);
    }
}

/* Where the traced nutrient comes from, in its unit. */
static void add_origins(struct document *document, cJSON *object, struct food_at food)
{
    static const char *const names[] = { "inherent", "maker", "cook", "unseparated" };
    const struct library *library = document->lookup->library;
    cJSON *origins = add_object(document, object, "origin");
    for (uint32_t i = 0; i < ORIGIN_COUNT && library->traced != NONE_INDEX; i++) {
        struct range amount, whole;
        bool known = lookup_amount(food, NULL, library->origin_column + i, &amount)
            && lookup_amount(food, NULL, library->traced, &whole);
        fill_range(document, add_object(document, origins, names[i]), amount, known);
    }
}

static void add_uses(struct document *document, cJSON *object)
{
    const struct lookup *lookup = document->lookup;
    if (!lookup->wanted->kitchen) {
        kept(document, cJSON_AddNullToObject(object, "uses"));
        return;
    }
    cJSON *uses = add_object(document, object, "uses"), *list;
    add_bytes(document, uses, "kitchen", text_of(lookup->wanted->kitchen));
    list = add_list(document, uses, "lines");
    for (const struct use *use = lookup->uses; use; use = use->next) {
        cJSON *one = kept(document, cJSON_CreateObject());
        cJSON_AddItemToArray(list, one);
        add_bytes(document, one, "recipe", use->recipe);
        add_bytes(document, one, "file", text_of(use->file));
        kept(document, cJSON_AddNumberToObject(one, "line", use->line));
        add_bytes(document, one, "text", use->text);
    }
    kept(document, cJSON_AddNumberToObject(uses, "unknown_lines", lookup->unknown_lines));
}

static void add_figure_or_null(struct document *document, cJSON *object, const char *key, double figure)
{
    kept(document, figure >= 0 ? cJSON_AddNumberToObject(object, key, figure) : cJSON_AddNullToObject(object, key));
}

static void add_spreads(struct document *document, cJSON *card, struct food_at food)
{
    cJSON *all = add_object(document, card, "samples");
    for (uint32_t i = 0; i < food.food->spread_count; i++) {
        const struct spread *spread = &food.library->spreads[food.food->first_spread + i];
        char key[KEY_BYTES];
        nutrient_at(document, spread->nutrient, key, sizeof key);
        cJSON *object = add_object(document, all, key);
        kept(document, cJSON_AddNumberToObject(object, "count", spread->samples));
        add_figure_or_null(document, object, "standard_error", spread->error);
        add_figure_or_null(document, object, "lowest", spread->lowest);
        add_figure_or_null(document, object, "highest", spread->highest);
        add_range(document, object, "with_variation", food.library->values[food.food->varied + spread->nutrient]);
    }
}

static void add_card(struct document *document, cJSON *root)
{
    struct food_at food = document->lookup->card;
    if (!food.food) {
        kept(document, cJSON_AddNullToObject(root, "card"));
        return;
    }
    cJSON *card = add_object(document, root, "card"), *all;
    fill_head(document, card, food, document->lookup->words);
    add_aliases(document, card, food);
    struct text source;
    add_text_or_null(document, card, "hazard", library_hazard(food, &source));
    add_text_or_null(document, card, "milder", library_text(food.library, food.food->milder));
    add_portions(document, card, food);
    if (food.food->density.high > 0)
        add_range(document, card, "density_g_per_ml", food.food->density);
    else
        kept(document, cJSON_AddNullToObject(card, "density_g_per_ml"));
    all = add_object(document, card, "per_100_g");
    for (uint32_t i = 0; i < document->lookup->library->nutrient_total; i++)
        add_amount(document, all, food, NULL, i);
    add_origins(document, card, food);
    if (food.food->refuse.low >= 0)
        kept(document, cJSON_AddNumberToObject(card, "refuse", food.food->refuse.best));
    else
        kept(document, cJSON_AddNullToObject(card, "refuse"));
    add_spreads(document, card, food);
    add_uses(document, card);
}

/* ---- the document ------------------------------------------------------------------------------------------------ */

static void add_order(struct document *document, cJSON *root)
{
    const struct search *search = &document->lookup->search;
    char key[KEY_BYTES];
    if (search->nutrient == NONE_INDEX) {
        kept(document, cJSON_AddNullToObject(root, "sorted"));
        return;
    }
    cJSON *sorted = add_object(document, root, "sorted");
    nutrient_at(document, search->nutrient, key, sizeof key);
    add_bytes(document, sorted, "nutrient", text_of(key));
    add_bytes(document, sorted, "first", text_of(search->highest ? "highest" : "lowest"));
    kept(document, cJSON_AddNumberToObject(sorted, "unknown", search->unknown_count));
}

struct caution_list {
    struct document *document;
    cJSON *list;
};

static void add_caution(void *context, const struct caution_told *told)
{
    const struct caution_list *to = context;
    cJSON *one = kept(to->document, cJSON_CreateObject());
    cJSON_AddItemToArray(to->list, one);
    add_bytes(to->document, one, "text", told->words);
    add_bytes(to->document, one, "source", told->source);
    if (told->because.length)
        add_bytes(to->document, one, "because", told->because);
    if (told->exactly.length)
        add_bytes(to->document, one, "exactly", told->exactly);
}

static void add_cautions(struct document *document, cJSON *root)
{
    lookup_cautions(document->lookup, add_caution, &(struct caution_list){ document, add_list(document, root, "cautions") });
}

static void print_document(struct document *document, struct writer *writer, cJSON *root)
{
    char *printed = document->failed ? NULL : cJSON_PrintUnformatted(root);
    writer_needs(writer, printed != NULL);
    writer_json(writer, printed ? printed : "");
    writer_add(writer, text_of("\n"));
    cJSON_free(printed);
    cJSON_Delete(root);
}

static void add_measure(struct document *document, cJSON *root)
{
    const struct lookup *lookup = document->lookup;
    if (!lookup->unit) {
        kept(document, cJSON_AddNullToObject(root, "measure"));
        return;
    }
    cJSON *measure = add_object(document, root, "measure");
    uint32_t dimension = lookup->unit->dimension;
    add_bytes(document, measure, "name", library_text(lookup->unit_owner, lookup->unit->name));
    add_bytes(document, measure, "unit", text_of(dimension == DIMENSION_MASS ? "g" : dimension == DIMENSION_VOLUME ? "ml" : "times"));
    add_range(document, measure, "amount", lookup->unit->factor);
    add_text_or_null(document, measure, "source", library_text(lookup->unit_owner, lookup->unit->source));
}

void lookup_print_json(const struct lookup *lookup, struct writer *writer)
{
    struct document document = { lookup, false };
    cJSON *root = kept(&document, cJSON_CreateObject());
    add_bytes(&document, root, "quern", text_of(quern_version()));
    kept(&document, cJSON_AddNumberToObject(root, "schema", JSON_VERSION));
    add_text_or_null(&document, root, "words", lookup->words);
    add_text_or_null(&document, root, "group", text_of(lookup->wanted->group ? lookup->wanted->group : ""));
    add_order(&document, root);
    kept(&document, cJSON_AddNumberToObject(root, "fitting", lookup_fitting(lookup)));
    kept(&document, cJSON_AddNumberToObject(root, "found", lookup->search.count));
    add_foods(&document, root);
    add_kinds(&document, root);
    add_card(&document, root);
    add_measure(&document, root);
    add_cautions(&document, root);
    print_document(&document, writer, root);
}
