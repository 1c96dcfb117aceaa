/* Units, nutrients and groups. */
#include <string.h>

#include "library/build.h"

static void add_also(struct builder *builder, enum name_space space, const struct node *node, uint32_t index)
{
    struct text name = build_items_text(builder, node->items.first);
    build_name(builder, space, name, build_place(builder, node->span), false, index);
    for (const struct phrase *more = node->names.first; more; more = more->next)
        build_name(builder, space, build_written(builder, more->span), build_place(builder, more->span), false, index);
}

/* ---- units ---------------------------------------------------------------------------------------------------- */

struct dimension_word {
    const char *word;
    enum dimension dimension;
    const char *base;           /* how its base unit is written */
};

static const struct dimension_word dimension_words[] = {
    { "mass", DIMENSION_MASS, "g" },         { "volume", DIMENSION_VOLUME, "ml" },
    { "count", DIMENSION_COUNT, NULL },      { "energy", DIMENSION_ENERGY, "kcal" },
    { "substance", DIMENSION_SUBSTANCE, "mmol" }, { "charge", DIMENSION_CHARGE, "meq" },
    { "time", DIMENSION_TIME, "min" },       { "length", DIMENSION_LENGTH, "cm" },
    { "temperature", DIMENSION_TEMPERATURE, NULL }, { "package", DIMENSION_PACKAGE, NULL },
    { "size", DIMENSION_SIZE, NULL },        { "ambiguous", DIMENSION_AMBIGUOUS, NULL },
};

static const struct dimension_word *find_dimension(struct text word)
{
    for (uint32_t i = 0; i < COUNT_OF(dimension_words); i++) {
        if (text_is(word, dimension_words[i].word))
            return &dimension_words[i];
    }
    return NULL;
}

/* `volume 236.5882365 ml`: only the base unit stands here, so that a pack needs no order of units. What is measured, and
 * does not say how much it is, or says nothing of it, is no size. */
static void read_dimension(struct builder *builder, const struct node *node, const struct dimension_word *word,
                           struct unit *unit)
{
    char storage[64];
    struct text base = build_words(builder, node->unit.first, storage, sizeof storage);
    bool says = node->quantity.kind != QUANTITY_NONE;
    if (unit->dimension != DIMENSION_NONE && unit->dimension != (uint32_t)word->dimension)
        finding_add(builder->findings, FINDING_CONTRADICTING, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
    unit->factor = says ? build_range(builder, &node->quantity, node->unit.first, 1) : range_exact(word->base ? 0 : 1);
    unit->dimension = unit->factor.best > 0 ? word->dimension : DIMENSION_NONE;
    if (!says) {
        build_only_words(builder, node);
        return;
    }
    if (!word->base && word->dimension != DIMENSION_TEMPERATURE)
        build_only_percent(builder, node);
    else
        build_only_amount(builder, node);
    if (word->base && !text_is(base, word->base))
        finding_add(builder->findings, FINDING_WRONG_UNIT, build_place(builder, node->span),
                    GAPS(base, text_of(word->word)));
}

#define MEANINGS 2u                     /* between which an ambiguous word lies: one finding names both */

static void add_meaning(struct builder *builder, struct text name, struct span span, struct unit *unit)
{
    if (unit->between_count == MEANINGS) {
        finding_add(builder->findings, FINDING_EXTRA_WORDS, build_place(builder, span), GAPS(name));
        return;
    }
    build_text_number(builder, name);
    unit->between_count++;
}

static void read_between(struct builder *builder, const struct node *node, struct unit *unit)
{
    add_meaning(builder, build_items_text(builder, node->items.first->next), node->span, unit);
    for (const struct phrase *more = node->phrases.first; more; more = more->next)
        add_meaning(builder, build_written(builder, more->span), more->span, unit);
}

static void add_usual(struct builder *builder, const struct node *node, const struct quantity *quantity, const struct item *words, struct unit *unit)
{
    char storage[64];
    struct text base = build_words(builder, words, storage, sizeof storage);
    bool mass = text_is(base, "g"), counted = quantity && quantity->kind == QUANTITY_NUMBER && quantity->low > 0;
    if (!counted || !(mass || text_is(base, "ml"))) {
        finding_add(builder->findings, FINDING_WRONG_UNIT, build_place(builder, node->span), GAPS(base, text_of("mass or volume, in g or ml")));
        return;
    }
    uint32_t index = BUILD_ADD(builder, package_sizes);
    if (index == NONE_INDEX)
        return;
    builder->package_sizes[index] = (struct package_size){ .amount = quantity->low, .dimension = mass ? DIMENSION_MASS : DIMENSION_VOLUME };
    unit->first_size = unit->size_count ? unit->first_size : index;
    unit->size_count++;
}

/* `usual 227 g, 400 g, 355 ml`: what such a package usually holds. */
static void read_usual(struct builder *builder, const struct node *node, struct unit *unit)
{
    add_usual(builder, node, &node->quantity, node->unit.first, unit);
    for (const struct phrase *more = node->phrases.first; more; more = more->next)
        add_usual(builder, node, more->items->quantity, more->items->next, unit);
}

static void read_unit_statement(struct builder *builder, const struct node *node, uint32_t index, struct unit *unit)
{
    char storage[128];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    const struct dimension_word *dimension = find_dimension(words);
    const struct item *string = build_string_item(node->items.first);
    if (node->kind == NODE_ALSO)
        add_also(builder, SPACE_UNIT, node, index);
    else if (node->kind == NODE_SOURCE && string)
        unit->source = build_text(builder, build_written(builder, string->span));
    else if (node->kind == NODE_SOURCE)
        return;
    else if (node->kind == NODE_KNOWLEDGE && dimension)
        read_dimension(builder, node, dimension, unit);
    else if (node->kind == NODE_KNOWLEDGE && text_behind(words, "state ").length > 0)
        unit->state = build_text(builder, text_behind(words, "state "));
    else if (node->kind == NODE_KNOWLEDGE && text_is(words, "holds plain"))
        unit->flags |= build_only_words(builder, node) ? UNIT_HOLDS_PLAIN : 0;
    else if (node->kind == NODE_KNOWLEDGE && text_is(words, "of volumes"))
        unit->flags |= build_only_words(builder, node) ? UNIT_OF_VOLUMES : 0;
    else if (node->kind == NODE_KNOWLEDGE && text_is(words, "usual"))
        read_usual(builder, node, unit);
    else if (node->kind == NODE_KNOWLEDGE && words.length > 8 && memcmp(words.bytes, "between ", 8) == 0)
        read_between(builder, node, unit);
    else
        build_unknown_statement(builder, node, "unit");
}

void read_unit(struct builder *builder, const struct node *node)
{
    struct text name = build_items_text(builder, node->items.first);
    uint32_t index = BUILD_ADD(builder, units);
    struct unit unit = { .name = build_text(builder, name), .first_between = builder->texts_count };
    if (index == NONE_INDEX)
        return;
    for (const struct node *at = node->body; at; at = at->next)
        read_unit_statement(builder, at, index, &unit);
    builder->units[index] = unit;
    if (unit.dimension == DIMENSION_AMBIGUOUS) {            /* `T` and `t` are told apart */
        char key[8] = { '!', name.length ? name.bytes[0] : ' ' };
        build_key(builder, SPACE_UNIT, (struct text){ key, 2 }, name, build_place(builder, node->span), index);
        return;
    }
    build_name(builder, SPACE_UNIT, name, build_place(builder, node->span), false, index);
    if (unit.dimension == DIMENSION_NONE)
        finding_add(builder->findings, FINDING_UNIT_WITHOUT_SIZE, build_place(builder, node->span), GAPS(name));
}

/* ---- nutrients --------------------------------------------------------------------------------------------------- */

static struct pack_text make_json_key(struct builder *builder, struct text name)
{
    char key[64];
    uint32_t length = name.length < sizeof key ? name.length : (uint32_t)sizeof key;
    for (uint32_t i = 0; i < length; i++)
        key[i] = name.bytes[i] == ' ' || name.bytes[i] == '-' ? '_' : name.bytes[i];
    return build_text(builder, (struct text){ key, length });
}

static void read_nutrient_unit(struct builder *builder, const struct node *node, struct nutrient *nutrient)
{
    struct text written = build_items_text(builder, node->items.first);
    const struct unit *unit = build_unit(builder, written);
    if (unit && (unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_ENERGY)) {
        nutrient->unit = build_text(builder, written);
        nutrient->unit_factor = unit->factor.best;
        return;
    }
    finding_add(builder->findings, FINDING_WRONG_UNIT, build_place(builder, node->span),
                GAPS(written, text_of("mass or energy")));
}

static void read_nutrient_statement(struct builder *builder, const struct node *node, uint32_t index,
                                    struct nutrient *nutrient)
{
    char storage[128];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    if (node->kind == NODE_UNIT)
        read_nutrient_unit(builder, node, nutrient);
    else if (node->kind == NODE_ALSO)
        add_also(builder, SPACE_NUTRIENT, node, index);
    else if (node->kind == NODE_SOURCE)
        return;
    else if (text_is(words, "mole"))
        nutrient->mole = node->quantity.low;
    else if (text_is(words, "charge"))
        nutrient->charge = node->quantity.low;
    else if (text_is(words, "traced"))
        nutrient->traced = 1;
    else if (text_is(words, "dissolves"))
        nutrient->role = NUTRIENT_DISSOLVES;
    else if (text_is(words, "linked data"))
        nutrient->linked = build_text(builder, build_quoted(builder, node->items.first));
    else if (text_is(words, "the solvent"))
        nutrient->role = NUTRIENT_SOLVENT;
    else
        build_unknown_statement(builder, node, "nutrient");
}

void read_nutrient(struct builder *builder, const struct node *node)
{
    struct text name = build_items_text(builder, node->items.first->next);
    uint32_t index = builder->nutrients_count < LIMIT_NUTRIENTS && !builder->base ? BUILD_ADD(builder, nutrients)
                                                                                : NONE_INDEX;
    if (index == NONE_INDEX) {
        finding_add(builder->findings, FINDING_NUTRIENT_PLACE, build_place(builder, node->span), GAPS(name));
        return;
    }
    struct nutrient nutrient = { .name = build_text(builder, name), .key = make_json_key(builder, name), .unit_factor = 1 };
    build_name(builder, SPACE_NUTRIENT, name, build_place(builder, node->span), false, index);
    for (const struct node *at = node->body; at; at = at->next)
        read_nutrient_statement(builder, at, index, &nutrient);
    builder->nutrients[index] = nutrient;
}

/* ---- groups -------------------------------------------------------------------------------------------------------- */

/* What is done with the foods of a group; 0: the words are others. */
static uint32_t use_of(struct text words)
{
    static const struct {
        const char *words;
        uint32_t use;
    } uses[] = { { "seasons", GROUP_SEASONS }, { "raises", GROUP_RAISES }, { "preserves", GROUP_PRESERVES }, { "at hand", GROUP_AT_HAND } };
    for (uint32_t i = 0; i < COUNT_OF(uses); i++) {
        if (text_is(words, uses[i].words))
            return uses[i].use;
    }
    return 0;
}

/* Who asks whether a food is of a group goes up no further. */
static void check_depth(struct builder *builder, const struct node *node, struct group *group)
{
    uint32_t depth = 1;
    for (uint32_t number = group->parent; number != NONE_INDEX; depth++)
        number = build_group_at(builder, number)->parent;
    if (depth <= LIMIT_GROUP_DEPTH)
        return;
    finding_add(builder->findings, FINDING_GROUP_TOO_DEEP, build_place(builder, node->span), GAPS(build_string(builder, group->name)));
    group->parent = NONE_INDEX;
}

static void read_group_statement(struct builder *builder, const struct node *node, uint32_t index, struct group *group)
{
    char storage[256];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    if (node->kind == NODE_ALSO) {
        add_also(builder, SPACE_GROUP, node, index);
    } else if (text_behind(words, "within ").length > 0) {
        build_only_words(builder, node);
        group->parent = build_find(builder, SPACE_GROUP, text_behind(words, "within "));
        if (group->parent == index + build_group_first(builder))
            group->parent = NONE_INDEX;     /* itself */
        if (group->parent != NONE_INDEX)
            check_depth(builder, node, group);
        else
            finding_add(builder->findings, FINDING_UNKNOWN_GROUP, build_place(builder, node->span),
                        GAPS(text_behind(words, "within ")));
    } else if (text_behind(words, "origin ").length > 0) {
        group->origin = build_origin(builder, node);
    } else if (text_is(words, "fresh")) {
        group->fresh = build_only_words(builder, node);
    } else if (use_of(words)) {
        group->uses |= build_only_words(builder, node) ? use_of(words) : 0;
    } else if (text_is(words, "hazard") && build_string_item(node->items.first)) {
        group->hazard = build_text(builder, build_quoted(builder, node->items.first));
    } else if (node->kind == NODE_SOURCE) {
        group->hazard_source = build_text(builder, build_quoted(builder, node->items.first));
    } else if (text_is(words, "unmeasured")) {
        build_only_amount(builder, node);
        double factor = build_factor(builder, node, node->unit.first, DIMENSION_VOLUME);
        group->unmeasured_ml = node->quantity.kind == QUANTITY_BAD ? range_exact(0) : range_between(0, node->quantity.high * factor);
    } else {
        build_unknown_statement(builder, node, "group");
    }
}

void read_group(struct builder *builder, const struct node *node)
{
    struct text name = build_items_text(builder, node->items.first);
    uint32_t index = BUILD_ADD(builder, groups);
    if (index == NONE_INDEX)
        return;
    struct group group = { .name = build_text(builder, name), .parent = NONE_INDEX, .origin = ORIGIN_COUNT };
    builder->groups[index] = group;
    build_name(builder, SPACE_GROUP, name, build_place(builder, node->span), false, index);
    for (const struct node *at = node->body; at; at = at->next)
        read_group_statement(builder, at, index, &group);
    builder->groups[index] = group;
}

/* ---- spellings ----------------------------------------------------------------------------------------------------- */

/* `spelling tinned "canned"`: names with the first word are looked for with the other, too. */
void read_spelling(struct builder *builder, const struct node *node)
{
    const struct item *word = node->items.first->next, *other = word ? build_string_item(word->next) : NULL;
    if (!other || word->kind != ITEM_WORD) {
        build_unknown_statement(builder, node, "spelling");
        return;
    }
    uint32_t number = build_text_number(builder, build_written(builder, other->span));
    build_name(builder, SPACE_SPELLING, build_written(builder, word->span), build_place(builder, node->span), false, number);
}

/* ---- what may be counted twice --------------------------------------------------------------------------------- */

static uint32_t find_group(struct builder *builder, struct text name, struct span span)
{
    uint32_t group = build_find(builder, SPACE_GROUP, name);
    if (group == NONE_INDEX)
        finding_add(builder->findings, FINDING_UNKNOWN_GROUP, build_place(builder, span), GAPS(name));
    return group;
}

/* A group in `with`, or the treatment of this name in `when`. */
static void add_doubling(struct builder *builder, struct text name, struct span span, uint32_t group, bool when)
{
    char key[KEY_BYTES];
    struct text treatment = { key, when ? name_key_of(name, false, key) : 0 };
    uint32_t with = when ? NONE_INDEX : find_group(builder, name, span);
    uint32_t number = when || with != NONE_INDEX ? BUILD_ADD(builder, doublings) : NONE_INDEX;
    if (number != NONE_INDEX)
        builder->doublings[number] = (struct doubling){ group, with, build_text(builder, treatment) };
}

/* `doubling GROUP { with salts; when brined }`: foods of those groups bring what this one holds, or the treatment does. */
void read_doubling(struct builder *builder, const struct node *node)
{
    uint32_t group = find_group(builder, build_items_text(builder, node->items.first->next), node->span);
    for (const struct node *at = node->body; at && group != NONE_INDEX; at = at->next) {
        char storage[256];
        struct text words = build_words(builder, at->items.first, storage, sizeof storage);
        bool with = words.length > 5 && memcmp(words.bytes, "with ", 5) == 0, when = words.length > 5 && memcmp(words.bytes, "when ", 5) == 0;
        if (at->kind == NODE_SOURCE)
            continue;
        if (at->kind != NODE_KNOWLEDGE || at->quantity.kind != QUANTITY_NONE || !(with || when)) {
            build_unknown_statement(builder, at, "doubling");
            continue;
        }
        add_doubling(builder, build_items_text(builder, at->items.first->next), at->span, group, when);
        for (const struct phrase *more = at->phrases.first; more; more = more->next)
            add_doubling(builder, build_written(builder, more->span), more->span, group, when);
    }
}
