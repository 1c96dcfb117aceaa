/* Cautions of a rule pack, and where they stand: without a `when`, everywhere. */
#include <string.h>

#include "library/build.h"

/* The words between a start and an end; false when they are not there, or nothing stands between. */
static bool between(struct text words, const char *start, const char *end, struct text *inside)
{
    uint32_t before = (uint32_t)strlen(start), after = (uint32_t)strlen(end);
    if (words.length <= before + after || memcmp(words.bytes, start, before) != 0
        || memcmp(words.bytes + words.length - after, end, after) != 0)
        return false;
    *inside = (struct text){ words.bytes + before, words.length - before - after };
    return true;
}

/* `care` is the word of days for who is under it. */
static bool person_is_known(struct builder *builder, const struct node *node, struct text word)
{
    char key[KEY_BYTES];
    struct text found = { key, name_key_of(word, false, key) };
    bool known = text_is(word, "care") || build_find_key(builder, SPACE_PERSON, found) != NONE_INDEX;
    for (const struct library *library = builder->base; library && !known; library = library->base)
        known = library_find(library, SPACE_PERSON, found, NULL) != NULL;
    if (!known)
        finding_add(builder->findings, FINDING_RULES_PERSON, build_place(builder, node->span), GAPS(word));
    return known;
}

static bool substance_is_known(struct builder *builder, const struct node *node, struct text name)
{
    bool known = false;
    for (uint32_t i = 0; i < builder->substances_count && !known; i++)
        known = text_equal(build_string(builder, builder->substances[i].name), name);
    for (const struct library *library = builder->base; library && !known; library = library->base) {
        for (uint32_t i = 0; i < library->substances_count && !known; i++)
            known = text_equal(library_text(library, library->substances[i].name), name);
    }
    if (!known)
        finding_add(builder->findings, FINDING_RULES_SUBSTANCE, build_place(builder, node->span), GAPS(name));
    return known;
}

static uint32_t find_craft(struct builder *builder, const struct node *node, struct text name)
{
    uint32_t craft = builder->base ? library_craft(builder->base, name) : 0;
    for (uint32_t i = 0; i < builder->crafts_count; i++) {
        if (text_equal(build_string(builder, builder->crafts[i].name), name))
            craft = (uint32_t)1 << i;
    }
    if (!craft)
        finding_add(builder->findings, FINDING_RULES_CRAFT, build_place(builder, node->span), GAPS(name));
    return craft ? craft : NONE_INDEX;
}

/* `when a food of salts brings 1000 mg potassium`: in 100 g of it, or more. */
static void read_brings(struct builder *builder, const struct node *node, struct text group, struct when *when)
{
    struct item unit = *node->unit.first;
    unit.next = NULL;
    when->kind = WHEN_BRINGS;
    when->nutrient = build_known(builder, node, SPACE_NUTRIENT, build_items_text(builder, node->unit.first->next));
    when->amount = when->nutrient == NONE_INDEX ? 0 : node->quantity.low * build_nutrient_factor(builder, node, when->nutrient, &unit);
    if (when->amount > 0)
        when->number = build_known(builder, node, SPACE_GROUP, group);
}

/* … and `when 500 g of water is in it`. */
static void read_amount(struct builder *builder, const struct node *node, struct text words, struct when *when)
{
    char storage[160];
    struct text inside, tail = build_words(builder, node->unit.first, storage, sizeof storage);
    if (between(words, "when a food of ", " brings", &inside) && node->unit.first && node->unit.first->next) {
        read_brings(builder, node, inside, when);
    } else if (text_is(words, "when") && between(tail, "g of ", " is in it", &inside)) {
        when->kind = WHEN_AMOUNT;
        when->number = build_known(builder, node, SPACE_GROUP, inside);
        when->amount = node->quantity.low;
    } else {
        build_unknown_statement(builder, node, "caution");
    }
}

/* What the words behind `when` ask for; false after a finding. */
static bool read_condition(struct builder *builder, const struct node *node, struct text words, struct when *when)
{
    struct text inside;
    *when = (struct when){ .number = NONE_INDEX };
    if (between(words, "when ", " is a goal", &inside)) {
        when->kind = WHEN_GOAL;
        when->number = build_known(builder, node, SPACE_NUTRIENT, inside);
    } else if (between(words, "when a food of ", " is in it", &inside)) {
        when->kind = WHEN_FOOD;
        when->number = build_known(builder, node, SPACE_GROUP, inside);
    } else if (between(words, "when its craft is ", " with salt", &inside) || between(words, "when its craft is ", "", &inside)) {
        when->kind = inside.bytes + inside.length == words.bytes + words.length ? WHEN_CRAFT : WHEN_SALTED_CRAFT;
        when->number = find_craft(builder, node, inside);
    } else if (between(words, "when a packet lists ", "", &inside) || between(words, "when for ", "", &inside)) {
        when->kind = words.bytes[5] == 'a' ? WHEN_LISTED : WHEN_PERSON;
        when->words = build_text(builder, inside);
        return when->kind == WHEN_LISTED ? substance_is_known(builder, node, inside) : person_is_known(builder, node, inside);
    } else if (text_is(words, "when a medicine is in it")) {
        when->kind = WHEN_MEDICINE;
        return true;
    } else if (node->quantity.kind == QUANTITY_NUMBER) {
        read_amount(builder, node, words, when);
    } else {
        build_unknown_statement(builder, node, "caution");
    }
    return when->number != NONE_INDEX;
}

/* A condition that cannot be read is left out, and its caution stands everywhere: rather one too many. */
static void read_when(struct builder *builder, const struct node *node, struct text words, bool *everywhere)
{
    struct when when;
    if (!read_condition(builder, node, words, &when)) {
        *everywhere = true;
        return;
    }
    uint32_t number = BUILD_ADD(builder, whens);
    if (number != NONE_INDEX)
        builder->whens[number] = when;
}

void read_caution(struct builder *builder, const struct node *node)
{
    char storage[160];
    bool everywhere = false;
    struct caution caution = { .words = build_text(builder, build_quoted(builder, node->items.first)), .nutrient = NONE_INDEX,
                               .first_when = builder->whens_count };
    if (caution.words.length == 0) {
        build_unknown_statement(builder, node, "rule pack");
        return;
    }
    if (builder->cautions_count - builder->rules[builder->rules_count - 1].first_caution >= LIMIT_CAUTIONS) {
        finding_add(builder->findings, FINDING_RULES_CAUTIONS, build_place(builder, node->span), NO_GAPS);
        return;
    }
    uint32_t number = BUILD_ADD(builder, cautions);
    for (const struct node *at = node->body; at; at = at->next) {
        struct text inside, words = build_words(builder, at->items.first, storage, sizeof storage);
        if (at->kind == NODE_SOURCE)
            caution.source = build_text(builder, build_quoted(builder, at->items.first));
        else if (at->kind == NODE_KNOWLEDGE && text_is(words, "first"))
            caution.comes_first = 1;
        else if (at->kind == NODE_KNOWLEDGE && text_is(words, "exactly") && build_string_item(at->items.first))
            caution.exactly = build_text(builder, build_quoted(builder, at->items.first));
        else if (at->kind == NODE_KNOWLEDGE && between(words, "for ", "", &inside))
            caution.nutrient = build_known(builder, at, SPACE_NUTRIENT, inside);
        else if (at->kind == NODE_KNOWLEDGE && (text_is(words, "when") || between(words, "when ", "", &inside)))
            read_when(builder, at, words, &everywhere);
        else
            build_unknown_statement(builder, at, "caution");
    }
    caution.when_count = everywhere ? 0 : builder->whens_count - caution.first_when;
    if (number != NONE_INDEX)
        builder->cautions[number] = caution;
}

static bool says_already(const struct builder *builder, uint32_t first, struct text words)
{
    for (uint32_t i = first; i < builder->cautions_count; i++) {
        if (text_equal(build_string(builder, builder->cautions[i].words), words))
            return true;
    }
    return false;
}

static struct caution copy_caution(struct builder *builder, const struct library *owner, const struct caution *caution)
{
    struct caution copy = *caution;
    copy.words = build_text(builder, library_text(owner, caution->words));
    copy.exactly = build_text(builder, library_text(owner, caution->exactly));
    copy.source = build_text(builder, library_text(owner, caution->source));
    copy.first_when = builder->whens_count;
    copy.when_count = 0;
    for (uint32_t i = 0; i < caution->when_count; i++) {
        struct when when = owner->whens[caution->first_when + i];
        uint32_t number = BUILD_ADD(builder, whens);
        if (number == NONE_INDEX)
            break;
        when.words = build_text(builder, library_text(owner, when.words));
        builder->whens[number] = when;
        copy.when_count++;
    }
    return copy;
}

uint32_t add_usual_cautions(struct builder *builder, uint32_t first)
{
    char key[KEY_BYTES];
    const struct library *owner;
    uint32_t before = builder->cautions_count;
    const struct rules *usual = builder->base ? library_rules(builder->base, (struct text){ key, name_key_of(text_of(USUAL_RULES), false, key) }, &owner) : NULL;
    for (uint32_t i = 0; usual && i < usual->caution_count; i++) {
        const struct caution *caution = &owner->cautions[usual->first_caution + i];
        if (says_already(builder, first, library_text(owner, caution->words)))
            continue;
        struct caution copy = copy_caution(builder, owner, caution);
        uint32_t number = BUILD_ADD(builder, cautions);
        if (number != NONE_INDEX)
            builder->cautions[number] = copy;
    }
    return builder->cautions_count - before;
}
