/* A mapping says in our language what a table looks like: `import table { … }` or `import folder { … }`. It is parsed as
 * any file is, and read here. docs/import.md describes every statement. */
#include <errno.h>
#include <string.h>

#include "import/parts.h"

struct map_column *map_column(const struct map_file *file, enum slot slot)
{
    return file->first[slot];
}

static void no_statement(struct import *import, const struct node *node)
{
    trouble_map(import, node->span, FINDING_MAP_STATEMENT, GAPS(map_node_words(import, node)));
}

static struct text node_string(struct import *import, const struct node *node)
{
    for (const struct item *item = node->items.first; item; item = item->next) {
        if (item->kind == ITEM_STRING)
            return span_text(import->mapping.text, item->span);
    }
    return (struct text){ NULL, 0 };
}

/* ---- how the file is written ------------------------------------------------------------------------------------- */

static void read_sign(struct import *import, const struct node *node, struct text words)
{
    struct mapping *mapping = &import->mapping;
    struct text sign = node_string(import, node);
    bool is_separator = text_starts(words, "separator");
    bool is_sign = sign.length == 1 && (unsigned char)*sign.bytes >= ' ' && (unsigned char)*sign.bytes < 0x7f;
    if (text_is(words, "separator tab"))
        mapping->separator = '\t';
    else if (text_is(words, "quote none"))
        mapping->quote = '\0';
    else if (is_sign && is_separator)
        mapping->separator = *sign.bytes;
    else if (is_sign)
        mapping->quote = *sign.bytes;
    else
        no_statement(import, node);
}

static void add_unknown(struct import *import, struct text text)
{
    struct map_text *added = arena_take(&import->arena, sizeof *added);
    if (!added) {
        trouble_memory(import);
        return;
    }
    *added = (struct map_text){ text, import->mapping.unknown };
    import->mapping.unknown = added;
}

/* unknown "N", "Tr" */
static void read_unknown(struct import *import, const struct node *node)
{
    add_unknown(import, node_string(import, node));
    for (const struct phrase *phrase = node->phrases.first; phrase; phrase = phrase->next) {
        if (phrase->items && phrase->items->kind == ITEM_STRING && !phrase->items->next)
            add_unknown(import, span_text(import->mapping.text, phrase->items->span));
        else
            no_statement(import, node);
    }
}

/* The words of a statement as they stand, since `latin-1` is more than one token to a recipe. */
static bool read_plain(struct import *import, const struct node *node)
{
    struct mapping *mapping = &import->mapping;
    struct text words = text_trimmed(span_text(mapping->text, node->span));
    if (text_is(words, "encoding latin-1"))
        mapping->latin_1 = true;
    else if (text_is(words, "no header"))
        mapping->no_header = true;
    else if (text_is(words, "decimal comma"))
        mapping->decimal_comma = true;
    else
        return text_is(words, "encoding utf-8");
    return true;
}

/* ---- blocks ------------------------------------------------------------------------------------------------------ */

static const char *const role_words[ROLE_COUNT] = { "foods", "nutrients", "units", "amounts", "portions" };

static bool find_role(const struct import *import, const struct node *node, enum role *role)
{
    const struct item *first = node->items.first;
    if (node->kind != NODE_KNOWLEDGE || !node->has_body || !first || !first->next || first->next->kind != ITEM_STRING)
        return false;
    for (uint32_t i = 0; i < ROLE_COUNT; i++) {
        *role = (enum role)i;
        if (text_is(span_text(import->mapping.text, first->span), role_words[i]))
            return true;
    }
    return false;
}

static void read_file(struct import *import, enum role role, const struct node *node)
{
    struct map_file *file = &import->mapping.files[role];
    file->name = node_string(import, node);
    file->is_named = true;
    file->span = node->span;
    for (const struct node *at = node->body; at; at = at->next)
        map_read_column(import, role, at);
}

/* per 100 g { … }, per 1 serving { … } */
static void read_per(struct import *import, const struct node *node)
{
    const struct item *unit = node->unit.first;
    struct text name = unit ? span_text(import->mapping.text, unit->span) : (struct text){ "", 0 };
    const struct unit *found = figure_unit(import, name);
    bool is_serving = text_is(name, "serving") && node->quantity.low == 1 && !import->mapping.is_folder;
    bool is_mass = found && found->dimension == DIMENSION_MASS && node->quantity.low > 0;
    if (!unit || unit->next || node->quantity.kind != QUANTITY_NUMBER || (!is_serving && !is_mass)) {
        no_statement(import, node);
        return;
    }
    if (import->mapping.has_basis)
        trouble_map(import, node->span, FINDING_REPEATED_STATEMENT, GAPS(text_of("per")));
    import->mapping.has_basis = true;
    import->mapping.basis_grams = is_serving ? 0 : node->quantity.low * found->factor.best;
    for (const struct node *at = node->body; at; at = at->next)
        map_read_figure(import, at);
}

static void read_group(struct import *import, const struct node *node)
{
    struct text words = map_node_words(import, node);
    struct text name = text_behind(words, "group ");                /* none where only a quote follows the word */
    import->mapping.group = figure_group(import, name);
    if (import->mapping.group.length == 0)
        trouble_map(import, node->span, FINDING_UNKNOWN_GROUP, GAPS(name));
}

static void read_statement(struct import *import, const struct node *node)
{
    enum role role;
    struct text words = map_node_words(import, node);
    struct map_statement column;
    if (node->kind == NODE_BROKEN)
        return;                                     /* a finding speaks of it */
    if (node->kind == NODE_SOURCE)
        import->mapping.source = node_string(import, node);
    else if (node->kind == NODE_PER)
        read_per(import, node);
    else if (text_starts(words, "separator ") || text_starts(words, "quote "))
        read_sign(import, node, words);
    else if (text_starts(words, "caution ") && node_string(import, node).length > 0)
        import->mapping.caution = node_string(import, node);
    else if (text_starts(words, "unknown ") && node_string(import, node).length > 0)
        read_unknown(import, node);
    else if (read_plain(import, node))
        return;
    else if (import->mapping.is_folder && find_role(import, node, &role))
        read_file(import, role, node);
    else if (node->kind == NODE_GROUP && !map_statement_read(import, node, &column))
        read_group(import, node);
    else if (import->mapping.is_folder)
        no_statement(import, node);
    else
        map_read_column(import, ROLE_FOODS, node);
}

static bool take_mapping(void *context, struct node *node)
{
    struct import *import = context;
    struct text words = map_node_words(import, node);
    bool is_table = text_starts(words, "import table"), is_folder = text_starts(words, "import folder");
    if (node->kind == NODE_BROKEN)
        return false;
    if ((!is_table && !is_folder) || import->mapping.is_found || !node->has_body) {
        no_statement(import, node);
        return false;
    }
    import->mapping.is_found = true;
    import->mapping.is_folder = is_folder;
    for (const struct node *at = node->body; at; at = at->next)
        read_statement(import, at);
    return true;
}

/* ---- what must be there ---------------------------------------------------------------------------------------------- */

struct need {
    enum role role;
    enum slot slot;
    bool of_folder, of_table;
    const char *what, *line;
};

static const struct need needs[] = {
    { ROLE_FOODS, SLOT_NAME, true, true, "which column holds the names", "name column \"Food\"" },
    { ROLE_FOODS, SLOT_NUMBER, true, false, "which column holds the numbers of the foods", "number column \"id\"" },
    { ROLE_FOODS, SLOT_FIGURE, false, true, "which columns hold figures", "per 100 g { sodium column \"Na\" mg }" },
    { ROLE_NUTRIENTS, SLOT_NUMBER, true, false, "how nutrients are numbered", "nutrients \"file\" { number column \"id\" }" },
    { ROLE_NUTRIENTS, SLOT_UNIT, true, false, "the units of nutrients", "nutrients \"file\" { unit column \"unit\" }" },
    { ROLE_AMOUNTS, SLOT_FOOD, true, false, "whose amounts they are", "amounts \"file\" { food column \"food\" }" },
    { ROLE_AMOUNTS, SLOT_NUTRIENT, true, false, "of what amounts are", "amounts \"file\" { nutrient column \"nutrient\" }" },
    { ROLE_AMOUNTS, SLOT_AMOUNT, true, false, "where amounts stand", "amounts \"file\" { amount column \"amount\" }" },
    { ROLE_PORTIONS, SLOT_FOOD, true, false, "whose portions they are", "portions \"file\" { food column \"food\" }" },
    { ROLE_PORTIONS, SLOT_GRAMS, true, false, "what portions weigh", "portions \"file\" { grams column \"grams\" }" },
    { ROLE_UNITS, SLOT_NUMBER, true, false, "how units are numbered", "units \"file\" { number column \"id\" }" },
    { ROLE_UNITS, SLOT_NAME, true, false, "what units are called", "units \"file\" { name column \"name\" }" },
};

static bool may_be_absent(const struct mapping *mapping, enum role role)
{
    return (role == ROLE_PORTIONS || role == ROLE_UNITS) && !mapping->files[role].is_named;
}

static void check_needs(struct import *import)
{
    const struct mapping *mapping = &import->mapping;
    struct span start = { 0, 0 };
    for (uint32_t i = 0; i < COUNT_OF(needs); i++) {
        const struct need *need = &needs[i];
        const struct map_file *file = &mapping->files[need->role];
        bool asked = mapping->is_folder ? need->of_folder && !may_be_absent(mapping, need->role) : need->of_table;
        if (asked && !map_column(file, need->slot))
            trouble_map(import, file->is_named ? file->span : start, FINDING_MAP_LACKS, GAPS(text_of(need->what), text_of(need->line)));
    }
    if (mapping->is_folder && !mapping->codes)
        trouble_map(import, start, FINDING_MAP_LACKS, GAPS(text_of("which nutrients to take"), text_of("per 100 g { sodium code 307 }")));
    if (!mapping->is_folder && mapping->basis_grams == 0 && map_column(&mapping->files[ROLE_FOODS], SLOT_FIGURE)
        && !map_column(&mapping->files[ROLE_FOODS], SLOT_SERVING))
        trouble_map(import, start, FINDING_MAP_LACKS, GAPS(text_of("what a serving weighs"), text_of("serving column \"Serving (g)\" g")));
}

/* ---- the whole ----------------------------------------------------------------------------------------------------------- */

/* The findings of the parser, told as ours are. */
static void tell_syntax(struct import *import, struct findings *findings)
{
    struct finding **sorted = findings_sorted(findings);
    for (uint32_t i = 0; sorted && i < findings->count; i++)
        trouble_map(import, sorted[i]->place.span, sorted[i]->words.code, sorted[i]->words.arguments, WORDS_ARGUMENTS);
}

static void start_mapping(struct import *import, const char *path, struct text text)
{
    struct mapping *mapping = &import->mapping;
    *mapping = (struct mapping){ .path = path, .text = text, .quote = '"' };
    for (uint32_t i = 0; i < ROLE_COUNT; i++)
        mapping->files[i].end = &mapping->files[i].columns;
    mapping->codes_end = &mapping->codes;
}

static enum status parse_mapping(struct import *import, char *bytes, uint32_t length)
{
    struct arena trees;
    struct findings findings;
    struct parse parse;
    arena_open(&trees, import->allocator);
    findings_open(&findings, &import->arena);
    parse_open(&parse, import->allocator, &trees, &findings, take_mapping, import);
    enum status status = parse_text(&parse, 0, bytes, length);
    if (findings.failed || import->arena.failed)
        status = STATUS_NO_MEMORY;
    if (status == STATUS_OK)
        tell_syntax(import, &findings);
    parse_close(&parse);
    arena_close(&trees);
    return status;
}

enum status mapping_read(struct import *import, const char *path, const char *bytes, size_t length)
{
    char *copy = arena_take(&import->arena, length + 2), *lines = arena_copy(&import->arena, bytes, length);
    if (!copy || !lines)
        return STATUS_NO_MEMORY;
    memcpy(copy, bytes, length);
    start_mapping(import, path, (struct text){ copy, (uint32_t)length });
    import->lines_made = line_index_make(&import->lines, import->allocator, (struct text){ lines, (uint32_t)length });
    enum status status = parse_mapping(import, copy, (uint32_t)length);
    if (status == STATUS_OK && import->outcome->wrong == 0)
        check_needs(import);
    return status;
}
