/* `substance phosphates { words phosphate, "e 450"; source "…" }`: what lists of ingredients are searched for; and `craft fermenting
 * { words ferment; titles sauerkraut; without dough }`: what recipes are. */
#include <string.h>

#include "library/build.h"

/* Keys of one statement's words: a quoted one is for words with a number in them. */
static uint32_t add_words(struct builder *builder, struct text words, struct span span)
{
    char key[KEY_BYTES];
    struct text split[LIMIT_SUBSTANCE_WORDS + 1];
    bool many = name_split(words, split, COUNT_OF(split)) > LIMIT_SUBSTANCE_WORDS;
    uint32_t length = many ? 0 : name_key_of(words, true, key);
    if (length == 0)
        finding_add(builder->findings, FINDING_NAME_TOO_LONG, build_place(builder, span), GAPS(words));
    else
        build_text_number(builder, (struct text){ key, length });
    return length > 0;
}

static uint32_t add_group(struct builder *builder, struct text name, struct span span)
{
    uint32_t group = build_find(builder, SPACE_GROUP, name);
    if (group == NONE_INDEX) {
        finding_add(builder->findings, FINDING_UNKNOWN_GROUP, build_place(builder, span), GAPS(name));
        return 0;
    }
    uint32_t number = BUILD_ADD(builder, references);
    if (number != NONE_INDEX)
        builder->references[number] = group;
    return number != NONE_INDEX;
}

typedef uint32_t word_adder(struct builder *builder, struct text words, struct span span);

/* Adds all of a statement, whose first word tells what it is; those behind commas stand in phrases of their own. */
static uint32_t add_all(struct builder *builder, const struct node *node, word_adder *add)
{
    const struct item *first = node->items.first->next;
    uint32_t count = first ? add(builder, build_items_text(builder, first), node->span) : 0;
    for (const struct phrase *more = node->phrases.first; more; more = more->next)
        count += add(builder, build_items_text(builder, more->items), more->span);
    return count;
}

/* Texts of one kind stand in a row, so each kind is read from the block once. */
static uint32_t read_kind(struct builder *builder, const struct node *node, const char *word, word_adder *add)
{
    uint32_t count = 0;
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_KNOWLEDGE && at->quantity.kind == QUANTITY_NONE && text_is(build_written(builder, at->items.first->span), word))
            count += add_all(builder, at, add);
    }
    return count;
}

static void read_rest(struct builder *builder, const struct node *node, struct substance *substance)
{
    for (const struct node *at = node->body; at; at = at->next) {
        struct text word = at->items.first ? build_written(builder, at->items.first->span) : text_of("");
        if (at->kind == NODE_SOURCE) {
            substance->source = build_text(builder, build_quoted(builder, at->items.first));
        } else if (at->kind == NODE_KNOWLEDGE && text_is(word, "holds")) {
            struct text name = build_items_text(builder, at->items.first->next);
            build_only_words(builder, at);
            substance->nutrient = build_known(builder, at, SPACE_NUTRIENT, name);
        } else if (at->kind != NODE_KNOWLEDGE || at->quantity.kind != QUANTITY_NONE
                   || !(text_is(word, "words") || text_is(word, "without") || text_is(word, "group"))) {
            if (at->kind != NODE_GROUP)
                build_unknown_statement(builder, at, "substance");
        }
    }
}

/* `group salts, vague salts` has a keyword of its own. */
static uint32_t read_groups(struct builder *builder, const struct node *node)
{
    uint32_t count = 0;
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind != NODE_GROUP)
            continue;
        count += add_group(builder, build_items_text(builder, at->items.first), at->span);
        for (const struct phrase *more = at->names.first; more; more = more->next)
            count += add_group(builder, build_items_text(builder, more->items), more->span);
    }
    return count;
}

void read_substance(struct builder *builder, const struct node *node)
{
    uint32_t number = BUILD_ADD(builder, substances);
    struct text name = build_items_text(builder, node->items.first->next);
    struct substance substance = { .name = build_text(builder, name), .nutrient = NONE_INDEX };
    if (number == NONE_INDEX)
        return;
    read_rest(builder, node, &substance);
    substance.first_words = builder->texts_count;
    substance.words_count = read_kind(builder, node, "words", add_words);
    substance.first_without = builder->texts_count;
    substance.without_count = read_kind(builder, node, "without", add_words);
    substance.first_group = builder->references_count;
    substance.group_count = read_groups(builder, node);
    builder->substances[number] = substance;
}

/* ---- crafts --------------------------------------------------------------------------------------------------------- */

static void read_craft_rest(struct builder *builder, const struct node *node, struct craft *craft)
{
    for (const struct node *at = node->body; at; at = at->next) {
        struct text word = at->items.first ? build_written(builder, at->items.first->span) : text_of("");
        bool words = text_is(word, "words") || text_is(word, "titles") || text_is(word, "without");
        if (at->kind == NODE_SOURCE)
            craft->source = build_text(builder, build_quoted(builder, at->items.first));
        else if (at->kind != NODE_KNOWLEDGE || at->quantity.kind != QUANTITY_NONE || !words)
            build_unknown_statement(builder, at, "craft");
    }
}

/* Methods are searched while they are read, before a kitchen's own knowledge is: crafts are the library's alone. */
void read_craft(struct builder *builder, const struct node *node)
{
    if (builder->base || builder->crafts_count >= LIMIT_CRAFTS) {
        build_unknown_statement(builder, node, builder->base ? "kitchen" : "library that has so many crafts");
        return;
    }
    uint32_t number = BUILD_ADD(builder, crafts);
    struct craft craft = { .name = build_text(builder, build_items_text(builder, node->items.first->next)) };
    if (number == NONE_INDEX)
        return;
    read_craft_rest(builder, node, &craft);
    craft.first_words = builder->texts_count;
    craft.words_count = read_kind(builder, node, "words", add_words);
    craft.first_titles = builder->texts_count;
    craft.titles_count = read_kind(builder, node, "titles", add_words);
    craft.first_without = builder->texts_count;
    craft.without_count = read_kind(builder, node, "without", add_words);
    builder->crafts[number] = craft;
}
