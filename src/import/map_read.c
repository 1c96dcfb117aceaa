/* Statements of a mapping that name a column or a code. They are knowledge statements like any other; here their items
 * are laid in a row and read from left to right:
 *     words `column` (name | number) [factor] [unit | `unit` `column` (name | number)] {, text}
 *     words `code` (name | number) {, (name | number)} */
#include <string.h>

#include "import/parts.h"

#define STATEMENT_ITEMS 64

struct flat_item {
    struct text text;
    enum item_kind kind;
    double number;
};

struct flat {
    struct flat_item items[STATEMENT_ITEMS];
    uint32_t count, at;
};

static struct text written(struct import *import, struct span span)
{
    return span_text(import->mapping.text, span);
}

static void flatten_items(struct import *import, struct flat *flat, const struct item *items)
{
    for (; items && flat->count < STATEMENT_ITEMS; items = items->next) {
        double number = items->quantity ? items->quantity->low : 0;
        flat->items[flat->count++] = (struct flat_item){ written(import, items->span), items->kind, number };
    }
}

static bool flatten(struct import *import, struct flat *flat, const struct node *node)
{
    const struct quantity *quantity = &node->quantity;
    *flat = (struct flat){ .count = 0 };
    if (node->kind == NODE_UNIT || node->kind == NODE_FOOD || node->kind == NODE_GROUP || node->kind == NODE_SOURCE)
        flat->items[flat->count++] = (struct flat_item){ written(import, node->keyword), ITEM_WORD, 0 };
    else if (node->kind != NODE_KNOWLEDGE)
        return false;
    flatten_items(import, flat, node->items.first);
    if (quantity->kind == QUANTITY_NUMBER && flat->count < STATEMENT_ITEMS)
        flat->items[flat->count++] = (struct flat_item){ written(import, quantity->span), ITEM_NUMBER, quantity->low };
    flatten_items(import, flat, node->unit.first);
    return (quantity->kind == QUANTITY_NONE || quantity->kind == QUANTITY_NUMBER) && flat->count < STATEMENT_ITEMS;
}

static bool is_word(const struct flat *flat, uint32_t at, const char *word)
{
    return at < flat->count && flat->items[at].kind == ITEM_WORD && text_is(flat->items[at].text, word);
}

static struct text joined(const struct flat *flat, uint32_t first, uint32_t end)
{
    if (first >= end)
        return (struct text){ "", 0 };
    const char *begin = flat->items[first].text.bytes;
    const struct text last = flat->items[end - 1].text;
    uint32_t length = (uint32_t)(last.bytes + last.length - begin);
    return (struct text){ begin, length + (flat->items[end - 1].kind == ITEM_STRING && end - 1 > first) };
}

/* A name in quotes or a whole number above 0. */
static bool take_value(struct flat *flat, struct text *value, bool *is_counted)
{
    const struct flat_item *item = &flat->items[flat->at];
    if (flat->at == flat->count || (item->kind != ITEM_STRING && item->kind != ITEM_NUMBER))
        return false;
    *is_counted = item->kind == ITEM_NUMBER;
    *value = item->text;
    flat->at++;
    return true;
}

static bool take_unit(struct flat *flat, struct map_statement *statement)
{
    if (flat->at < flat->count && flat->items[flat->at].kind == ITEM_NUMBER)
        statement->factor = flat->items[flat->at++].number;
    if (is_word(flat, flat->at, "unit") && is_word(flat, flat->at + 1, "column")) {
        flat->at += 2;
        return take_value(flat, &statement->unit_value, &statement->unit_counted) && flat->at == flat->count;
    }
    uint32_t first = flat->at;
    while (flat->at < flat->count && flat->items[flat->at].kind == ITEM_WORD)
        flat->at++;
    statement->unit = joined(flat, first, flat->at);
    return true;
}

static bool add_text(struct import *import, struct map_text ***end, struct text text)
{
    struct map_text *added = arena_take(&import->arena, sizeof *added);
    if (!added)
        return false;
    added->text = text;
    **end = added;
    *end = &added->next;
    return true;
}

/* Texts that stand behind the value, and behind commas. */
static bool take_more(struct import *import, struct flat *flat, const struct node *node, struct map_statement *statement)
{
    struct map_text **end = &statement->more;
    for (; flat->at < flat->count; flat->at++) {
        if (flat->items[flat->at].kind != ITEM_STRING || !add_text(import, &end, flat->items[flat->at].text))
            return false;
    }
    for (const struct phrase *phrase = node->phrases.first; phrase; phrase = phrase->next) {
        const struct item *item = phrase->items;
        bool is_value = item && !item->next && (item->kind == ITEM_STRING || item->kind == ITEM_NUMBER);
        if (!is_value || !add_text(import, &end, written(import, item->span)))
            return false;
    }
    return true;
}

bool map_statement_read(struct import *import, const struct node *node, struct map_statement *statement)
{
    struct flat flat;
    *statement = (struct map_statement){ .factor = 1 };
    if (!flatten(import, &flat, node))
        return false;
    flat.at = 1;                                    /* `code` may be the first word */
    while (flat.at < flat.count && !is_word(&flat, flat.at, "column") && !is_word(&flat, flat.at, "code"))
        flat.at++;
    statement->words = joined(&flat, 0, flat.at);
    statement->is_code = is_word(&flat, flat.at, "code");
    if (flat.at++ >= flat.count || !take_value(&flat, &statement->value, &statement->is_counted))
        return false;
    return take_unit(&flat, statement) && take_more(import, &flat, node, statement);
}

struct text map_node_words(struct import *import, const struct node *node)
{
    struct flat flat;
    return flatten(import, &flat, node) ? joined(&flat, 0, flat.count) : written(import, node->span);
}

/* ---- columns ------------------------------------------------------------------------------------------------- */

struct slot_word {
    const char *word;
    enum slot slot;
    unsigned roles;                 /* a bit for each file that has such a column */
};

static const struct slot_word slot_words[] = {
    { "number", SLOT_NUMBER, 1u << ROLE_FOODS | 1u << ROLE_NUTRIENTS | 1u << ROLE_UNITS },
    { "name", SLOT_NAME, 1u << ROLE_FOODS | 1u << ROLE_UNITS },
    { "source", SLOT_SOURCE, 1u << ROLE_FOODS },
    { "group", SLOT_GROUP, 1u << ROLE_FOODS },
    { "keep", SLOT_KEEP, 1u << ROLE_FOODS },
    { "serving", SLOT_SERVING, 1u << ROLE_FOODS },
    { "density", SLOT_DENSITY, 1u << ROLE_FOODS },
    { "code", SLOT_CODE, 1u << ROLE_NUTRIENTS },
    { "unit", SLOT_UNIT, 1u << ROLE_NUTRIENTS | 1u << ROLE_PORTIONS },
    { "food", SLOT_FOOD, 1u << ROLE_AMOUNTS | 1u << ROLE_PORTIONS },
    { "nutrient", SLOT_NUTRIENT, 1u << ROLE_AMOUNTS },
    { "amount", SLOT_AMOUNT, 1u << ROLE_AMOUNTS },
    { "count", SLOT_COUNT, 1u << ROLE_PORTIONS },
    { "words", SLOT_WORDS, 1u << ROLE_PORTIONS },
    { "grams", SLOT_GRAMS, 1u << ROLE_PORTIONS },
};

static bool find_slot(struct text words, enum role role, enum slot *slot, struct text *portion)
{
    *portion = text_behind(words, "portion ");
    if (role == ROLE_FOODS && portion->length > 0) {
        *slot = SLOT_PORTION;
        return true;
    }
    for (uint32_t i = 0; i < COUNT_OF(slot_words); i++) {
        *slot = slot_words[i].slot;
        if (text_is(words, slot_words[i].word))
            return (slot_words[i].roles >> role & 1) != 0;
    }
    return false;
}

static uint32_t counted(struct text value)
{
    uint32_t number = 0;
    for (uint32_t i = 0; i < value.length && value.bytes[i] >= '0' && value.bytes[i] <= '9' && number < 100000; i++)
        number = number * 10 + (uint32_t)(value.bytes[i] - '0');
    return number;
}

static struct map_column *new_column(struct import *import, struct text value, bool is_counted, struct span span)
{
    struct map_column *column = arena_take(&import->arena, sizeof *column);
    if (!column)
        return NULL;
    *column = (struct map_column){ .factor = 1, .span = span };
    if (is_counted)
        column->number = counted(value);
    else
        column->header = value;
    if (is_counted && column->number == 0)
        trouble_map(import, span, FINDING_MAP_STATEMENT, GAPS(written(import, span)));
    return column;
}

static struct map_column *add_column(struct import *import, enum role role, enum slot slot, struct text value,
                                     bool is_counted, struct span span)
{
    struct map_file *file = &import->mapping.files[role];
    struct map_column *column = new_column(import, value, is_counted, span);
    if (!column) {
        trouble_memory(import);
        return NULL;
    }
    column->slot = slot;
    if (!file->first[slot])
        file->first[slot] = column;
    *file->end = column;
    file->end = &column->next;
    return column;
}

/* Grams of a portion or serving, g per ml of a density. */
static double weight_factor(struct import *import, const struct node *node, enum slot slot, struct text written_unit)
{
    if (slot == SLOT_DENSITY && (text_is(written_unit, "g per ml") || text_is(written_unit, "g/ml")))
        return 1;
    const struct unit *unit = slot == SLOT_DENSITY ? NULL : figure_unit(import, written_unit);
    if (unit && unit->dimension == DIMENSION_MASS)
        return unit->factor.best;
    trouble_map(import, node->span, FINDING_MAP_UNIT, GAPS(written_unit, text_of(slot == SLOT_DENSITY ? "density; write g per ml" : "mass")));
    return 0;
}

void map_read_column(struct import *import, enum role role, const struct node *node)
{
    struct map_statement statement;
    struct text portion = { NULL, 0 };
    enum slot slot;
    bool good = map_statement_read(import, node, &statement) && !statement.is_code && statement.unit_value.length == 0;
    if (!good || !find_slot(statement.words, role, &slot, &portion)) {
        trouble_map(import, node->span, FINDING_MAP_STATEMENT, GAPS(map_node_words(import, node)));
        return;
    }
    struct map_column *column = add_column(import, role, slot, statement.value, statement.is_counted, node->span);
    bool is_weight = slot == SLOT_PORTION || slot == SLOT_SERVING || slot == SLOT_DENSITY;
    if (!column)
        return;
    column->words = portion;
    if (is_weight)
        column->factor = statement.factor * weight_factor(import, node, slot, statement.unit);
    if (slot == SLOT_KEEP) {
        column->texts = statement.more;
        return;
    }
    for (struct map_text *more = statement.more; more; more = more->next)
        add_column(import, role, slot, more->text, statement.is_counted, node->span);
}

/* ---- figures ---------------------------------------------------------------------------------------------------- */

static bool find_nutrient(struct import *import, struct text name, uint32_t *number)
{
    char key[KEY_BYTES];
    uint32_t length = name_key_of(name, false, key);
    return length > 0 && library_nutrient(import->library, (struct text){ key, length }, number) != NULL;
}

static void add_code(struct import *import, struct text code, uint32_t nutrient, uint32_t rank)
{
    for (const struct map_code *other = import->mapping.codes; other; other = other->next) {
        if (text_equal(other->code, code))
            trouble_map(import, (struct span){ 0, 0 }, FINDING_REPEATED_STATEMENT, GAPS(code));
    }
    struct map_code *added = arena_take(&import->arena, sizeof *added);
    if (!added) {
        trouble_memory(import);
        return;
    }
    *added = (struct map_code){ .code = code, .nutrient = nutrient, .rank = rank };
    *import->mapping.codes_end = added;
    import->mapping.codes_end = &added->next;
}

static void add_codes(struct import *import, const struct map_statement *statement, uint32_t nutrient)
{
    uint32_t rank = 0;
    add_code(import, statement->value, nutrient, rank);
    for (const struct map_text *more = statement->more; more; more = more->next)
        add_code(import, more->text, nutrient, ++rank < UINT8_MAX ? rank : UINT8_MAX);
}

static bool has_figure(const struct import *import, uint32_t nutrient)
{
    const struct map_column *column = import->mapping.files[ROLE_FOODS].columns;
    while (column && (column->slot != SLOT_FIGURE || column->nutrient != nutrient))
        column = column->next;
    return column != NULL;
}

static void add_figure(struct import *import, const struct node *node, const struct map_statement *statement,
                       uint32_t nutrient)
{
    if (has_figure(import, nutrient))
        trouble_map(import, node->span, FINDING_REPEATED_STATEMENT, GAPS(statement->words));
    struct map_column *column = add_column(import, ROLE_FOODS, SLOT_FIGURE, statement->value, statement->is_counted, node->span);
    if (!column)
        return;
    column->nutrient = nutrient;
    column->factor = statement->factor;
    if (statement->unit_value.length > 0) {
        column->unit = new_column(import, statement->unit_value, statement->unit_counted, node->span);
        if (!column->unit)
            trouble_memory(import);
        return;
    }
    double factor = figure_factor(import, statement->unit, nutrient);
    if (factor <= 0)
        trouble_map(import, node->span, FINDING_MAP_UNIT, GAPS(statement->unit, statement->words));
    column->factor = factor == 1 ? statement->factor : number_rounded(statement->factor * factor);
}

void map_read_figure(struct import *import, const struct node *node)
{
    struct map_statement statement;
    uint32_t nutrient = 0;
    bool good = map_statement_read(import, node, &statement) && statement.is_code == import->mapping.is_folder;
    if (!good || statement.factor <= 0) {
        trouble_map(import, node->span, FINDING_MAP_STATEMENT, GAPS(map_node_words(import, node)));
        return;
    }
    if (!find_nutrient(import, statement.words, &nutrient)) {
        trouble_map(import, node->span, FINDING_UNKNOWN_NUTRIENT, GAPS(statement.words));
        return;
    }
    if (statement.is_code)
        add_codes(import, &statement, nutrient);
    else
        add_figure(import, node, &statement, nutrient);
}
