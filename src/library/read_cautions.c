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
    } else if (between(words, "when a packet lists ", "", &inside) || between(words, "when for ", "", &inside)) {
        when->kind = words.bytes[5] == 'a' ? WHEN_LISTED : WHEN_PERSON;
        when->words = build_text(builder, inside);
        return when->kind == WHEN_LISTED ? substance_is_known(builder, node, inside) : person_is_known(builder, node, inside);
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
        else if (at->kind == NODE_KNOWLEDGE && between(words, "for ", "", &inside))
            caution.nutrient = build_known(builder, at, SPACE_NUTRIENT, inside);
        else if (at->kind == NODE_KNOWLEDGE && between(words, "when ", "", &inside))
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
