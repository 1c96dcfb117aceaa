/* Treatments: what draining, rinsing and chopping do, each with its evidence. */
#include <string.h>

#include "library/build.h"

static void add_group(struct builder *builder, struct treatment *treatment, struct text name, struct span span)
{
    uint32_t group = build_find(builder, SPACE_GROUP, name);
    uint32_t number = group == NONE_INDEX ? NONE_INDEX : BUILD_ADD(builder, references);
    if (group == NONE_INDEX)
        finding_add(builder->findings, FINDING_UNKNOWN_GROUP, build_place(builder, span), GAPS(name));
    if (number == NONE_INDEX)
        return;
    builder->references[number] = group;
    treatment->group_count++;
}

static void read_for(struct builder *builder, const struct node *node, struct treatment *treatment)
{
    treatment->first_group = builder->references_count;
    add_group(builder, treatment, build_items_text(builder, node->items.first->next), node->span);
    for (const struct phrase *more = node->phrases.first; more; more = more->next)
        add_group(builder, treatment, build_written(builder, more->span), more->span);
}

static void check_share(struct builder *builder, const struct node *node, struct range share)
{
    if (amount_compare(share.high, 1.1) > 0)
        finding_add(builder->findings, FINDING_KEEPS_TOO_MUCH, build_place(builder, node->span), NO_GAPS);
}

/* `keeps sodium 54% (38% to 62%)`, `strength others 90%`. */
static void read_effect(struct builder *builder, const struct node *node, struct treatment *treatment,
                        enum effect_kind kind)
{
    struct text name = build_items_text(builder, node->items.first->next);
    uint32_t nutrient = text_is(name, "others") ? EFFECT_OTHERS : build_nutrient(builder, name);
    if (nutrient == NONE_INDEX && !text_is(name, "others")) {
        finding_add(builder->findings, FINDING_UNKNOWN_NUTRIENT, build_place(builder, node->span), GAPS(name));
        return;
    }
    if (!node->quantity.is_percent) {
        build_unknown_statement(builder, node, "treatment");
        return;
    }
    struct effect effect = { nutrient, kind, build_range(builder, &node->quantity, node->unit.first, 1) };
    if (kind == EFFECT_KEEPS)
        check_share(builder, node, effect.share);
    uint32_t number = BUILD_ADD(builder, effects);
    if (number == NONE_INDEX)
        return;
    builder->effects[number] = effect;
    treatment->effect_count++;
}

struct treatment_words {
    const char *words;
    uint32_t flag, from;
};

static const struct treatment_words treatment_words[] = {
    { "changes nothing", TREATMENT_CHANGES_NOTHING, 0 }, { "may be left out", TREATMENT_LEFT_OUT, 0 },
    { "no upper bound", TREATMENT_NO_UPPER, 0 },         { "weighed as canned", TREATMENT_AS_CANNED, 0 },
    { "not computed yet", TREATMENT_NOT_COMPUTED, 0 },   { "leaves the edible share", TREATMENT_EDIBLE, 0 },
    { "from canned", 0, FROM_CANNED },                   { "from drained", 0, FROM_DRAINED },
};

static bool read_flag(struct treatment *treatment, struct text words)
{
    for (uint32_t i = 0; i < COUNT_OF(treatment_words); i++) {
        if (!text_is(words, treatment_words[i].words))
            continue;
        treatment->flags |= treatment_words[i].flag;
        if (treatment_words[i].from)
            treatment->from = treatment_words[i].from;
        return true;
    }
    return false;
}

static bool starts(struct text words, const char *start)
{
    uint32_t length = (uint32_t)strlen(start);
    return words.length >= length && memcmp(words.bytes, start, length) == 0;
}

/* Effects that are declared already but not computed yet: a line that uses them is incomplete and says so. */
static bool is_later_effect(struct text words)
{
    return starts(words, "adds ") || starts(words, "replaces ") || starts(words, "reaches ") || starts(words, "takes up ");
}

static void read_treatment_words(struct builder *builder, const struct node *node, struct treatment *treatment)
{
    char storage[256];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    if (read_flag(treatment, words))
        return;
    if (starts(words, "for "))
        read_for(builder, node, treatment);
    else if (starts(words, "keeps "))
        read_effect(builder, node, treatment, EFFECT_KEEPS);
    else if (starts(words, "strength "))
        read_effect(builder, node, treatment, EFFECT_STRENGTH);
    else if (text_is(words, "mass") && node->quantity.is_percent) {
        treatment->mass = build_range(builder, &node->quantity, node->unit.first, 1);
        treatment->flags |= TREATMENT_HAS_MASS;
    } else if (starts(words, "grade ") && words.length == 7)
        treatment->grade = (uint32_t)(words.bytes[6] - 'a' + 'A');
    else if (is_later_effect(words))
        treatment->flags |= TREATMENT_NOT_COMPUTED;
    else
        build_unknown_statement(builder, node, "treatment");
}

/* The steps of a sequence have a key each, joined by commas. */
static uint32_t sequence_key(struct builder *builder, const struct node *node, char *key, uint32_t *steps)
{
    uint32_t used = name_key_of(build_items_text(builder, node->items.first), false, key);
    *steps = 1;
    for (const struct phrase *more = node->names.first; more && used + 2 < KEY_BYTES; more = more->next) {
        char step[KEY_BYTES];
        uint32_t length = name_key_of(build_written(builder, more->span), false, step);
        if (used + length + 2 > KEY_BYTES)
            return 0;
        key[used++] = ',';
        memcpy(key + used, step, length);
        used += length;
        ++*steps;
    }
    return used;
}

static void add_aliases(struct builder *builder, const struct node *node, uint32_t index)
{
    build_name(builder, SPACE_TREATMENT, build_items_text(builder, node->items.first), build_place(builder, node->span), false, index);
    for (const struct phrase *more = node->names.first; more; more = more->next)
        build_name(builder, SPACE_TREATMENT, build_written(builder, more->span), build_place(builder, more->span), false, index);
}

static void read_treatment_statement(struct builder *builder, const struct node *node, uint32_t index,
                                     struct treatment *treatment)
{
    const struct item *string = build_string_item(node->items.first);
    if (node->kind == NODE_ALSO)
        add_aliases(builder, node, index);
    else if (node->kind == NODE_SOURCE && string)
        treatment->source = build_text(builder, build_written(builder, string->span));
    else if (node->kind == NODE_KNOWLEDGE)
        read_treatment_words(builder, node, treatment);
    else
        build_unknown_statement(builder, node, "treatment");
}

static struct text whole_head(struct builder *builder, const struct node *node)
{
    const struct item *first = node->items.first;
    struct span span = { first ? first->span.start : node->span.start, first ? node->items.last->span.end : node->span.start };
    if (node->names.last)
        span.end = node->names.last->span.end;
    return build_written(builder, span);
}

void read_treatment(struct builder *builder, const struct node *node)
{
    char key[KEY_BYTES];
    struct treatment treatment = { .place = build_place(builder, node->span) };
    uint32_t length = sequence_key(builder, node, key, &treatment.step_count);
    struct text name = whole_head(builder, node);
    uint32_t index = BUILD_ADD(builder, treatments);
    if (index == NONE_INDEX)
        return;
    treatment.name = build_text(builder, name);
    treatment.first_effect = builder->effects_count;
    for (const struct node *at = node->body; at; at = at->next)
        read_treatment_statement(builder, at, index, &treatment);
    builder->treatments[index] = treatment;
    build_key(builder, SPACE_TREATMENT, (struct text){ key, length }, name, build_place(builder, node->span), index);
}

/* `filler finely, thinly`: words that a phrase may hold and that mean nothing to the sum. */
void read_filler(struct builder *builder, const struct node *node)
{
    uint32_t index = BUILD_ADD(builder, treatments);
    if (index == NONE_INDEX)
        return;
    builder->treatments[index] = (struct treatment){ .flags = TREATMENT_FILLER, .step_count = 1 };
    build_name(builder, SPACE_TREATMENT, build_items_text(builder, node->items.first->next), build_place(builder, node->span), false, index);
    for (const struct phrase *more = node->phrases.first; more; more = more->next)
        build_name(builder, SPACE_TREATMENT, build_written(builder, more->span), build_place(builder, more->span), false, index);
}
