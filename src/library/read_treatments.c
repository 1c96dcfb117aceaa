/* Treatments: what draining, rinsing and chopping do, each with its evidence. */
#include <string.h>

#include "library/build.h"

/* A group that nobody knows is kept: a treatment without any is for all foods. */
static void add_group(struct builder *builder, struct treatment *treatment, struct text name, struct span span)
{
    uint32_t group = build_find(builder, SPACE_GROUP, name), number = BUILD_ADD(builder, references);
    if (group == NONE_INDEX)
        finding_add(builder->findings, FINDING_UNKNOWN_GROUP, build_place(builder, span), GAPS(name));
    if (number == NONE_INDEX)
        return;
    builder->references[number] = group;
    treatment->group_count++;
}

/* Further `for` lines name further groups. */
static void read_for(struct builder *builder, const struct node *node, struct treatment *treatment)
{
    add_group(builder, treatment, build_items_text(builder, node->items.first->next), node->span);
    for (const struct phrase *more = node->phrases.first; more; more = more->next)
        add_group(builder, treatment, build_written(builder, more->span), more->span);
}

static void check_share(struct builder *builder, const struct node *node, enum effect_kind kind, struct range share)
{
    if (kind == EFFECT_KEEPS && amount_compare(share.high, 1.1) > 0)
        finding_add(builder->findings, FINDING_KEEPS_TOO_MUCH, build_place(builder, node->span), NO_GAPS);
    if (kind == EFFECT_REACHES && amount_compare(share.high, MOST_REACHED) > 0)
        finding_add(builder->findings, FINDING_REACHES_OUT_OF_RANGE, build_place(builder, node->span), NO_GAPS);
}

/* The nutrient behind the statement's first word; `others` for those that are not named. */
static bool read_effect_nutrient(struct builder *builder, const struct node *node, uint32_t *nutrient)
{
    struct text name = build_items_text(builder, node->items.first->next);
    bool others = text_is(name, "others");
    *nutrient = others ? EFFECT_OTHERS : build_known(builder, node, SPACE_NUTRIENT, name);
    return *nutrient != NONE_INDEX || others;
}

static void tell_contradiction(struct builder *builder, const struct node *node)
{
    finding_add(builder->findings, FINDING_CONTRADICTING, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
}

/* What becomes a figure keeps no share of another. */
static bool contradicts(const struct builder *builder, const struct treatment *treatment, const struct effect *effect)
{
    bool found = false;
    for (uint32_t i = 0; i < treatment->effect_count; i++) {
        const struct effect *other = &builder->effects[treatment->first_effect + i];
        found = found || (other->nutrient == effect->nutrient && other->kind != effect->kind
                          && (other->kind == EFFECT_BECOMES || effect->kind == EFFECT_BECOMES));
    }
    return found;
}

static void add_effect(struct builder *builder, const struct node *node, struct treatment *treatment, struct effect effect)
{
    if (contradicts(builder, treatment, &effect))
        tell_contradiction(builder, node);
    uint32_t number = BUILD_ADD(builder, effects);
    if (number == NONE_INDEX)
        return;
    builder->effects[number] = effect;
    treatment->effect_count++;
    if (effect.kind == EFFECT_REACHES)
        treatment->flags |= TREATMENT_REACHES;
}

/* Whether it says something of a food without a bath. `keeps others` beside `reaches` is told of a bath. */
static bool stays(const struct builder *builder, const struct treatment *treatment)
{
    bool in_bath = treatment->flags & TREATMENT_REACHES;
    bool named = treatment->flags & TREATMENT_HAS_MASS || treatment->kept.high > 0;
    for (uint32_t i = 0; i < treatment->effect_count; i++) {
        const struct effect *effect = &builder->effects[treatment->first_effect + i];
        named = named || (effect->kind != EFFECT_REACHES && effect->nutrient != EFFECT_OTHERS);
    }
    return named || (!in_bath && treatment->effect_count);
}

/* `keeps sodium 54% (38% to 62%)`, `strength others 90%`, `reaches 40% (10% to 90%)`. */
static void read_share(struct builder *builder, const struct node *node, struct treatment *treatment,
                       enum effect_kind kind)
{
    uint32_t nutrient = EFFECT_OTHERS;
    bool named = kind != EFFECT_REACHES || node->items.first->next;
    if (named && !read_effect_nutrient(builder, node, &nutrient))
        return;
    if (!node->quantity.is_percent) {
        build_unknown_statement(builder, node, "treatment");
        return;
    }
    if (!build_only_percent(builder, node))
        return;
    struct effect effect = { nutrient, kind, build_range(builder, &node->quantity, node->unit.first, 1) };
    check_share(builder, node, kind, effect.share);
    add_effect(builder, node, treatment, effect);
}

/* Behind the amount: `per 100 g`, and `after` for what is added. */
static bool is_per_hundred(const struct builder *builder, const struct item *item, const char *end)
{
    while (item && !(item->kind == ITEM_WORD && text_is(build_written(builder, item->span), "per")))
        item = item->next;
    const struct item *hundred = item ? item->next : NULL, *gram = hundred ? hundred->next : NULL,
                      *last = gram ? gram->next : NULL;
    return gram && hundred->kind == ITEM_NUMBER && hundred->quantity->low == 100
        && text_is(build_written(builder, gram->span), "g")
        && (end ? last && text_is(build_written(builder, last->span), end) && !last->next : !last);
}

/* `adds sodium 150 mg (70 mg to 300 mg) per 100 g after`, `becomes sodium 173 mg (128 mg to 220 mg) per 100 g`. */
static void read_amount(struct builder *builder, const struct node *node, struct treatment *treatment,
                        enum effect_kind kind)
{
    uint32_t nutrient;
    if (!read_effect_nutrient(builder, node, &nutrient))
        return;
    if (nutrient == EFFECT_OTHERS || !is_per_hundred(builder, node->unit.first, kind == EFFECT_ADDS ? "after" : NULL)) {
        finding_add(builder->findings, FINDING_ADDS_PER, build_place(builder, node->span), NO_GAPS);
        return;
    }
    struct item unit = *node->unit.first;       /* one word: what follows it may be `per` */
    unit.next = NULL;
    double factor = build_nutrient_factor(builder, node, nutrient, &unit);
    struct range amount = build_range(builder, &node->quantity, node->unit.first, factor);
    if (amount.high * build_nutrient_at(builder, nutrient)->unit_factor > 100)
        finding_add(builder->findings, FINDING_ADDS_TOO_MUCH, build_place(builder, node->span), NO_GAPS);
    add_effect(builder, node, treatment, (struct effect){ nutrient, kind, amount });
}

/* `takes up 125% (100% to 150%) water`, or `… water in all` of a dry food that may have been soaked before; `gives off 5% (0% to 10%) water`. */
static void read_uptake(struct builder *builder, const struct node *node, struct treatment *treatment, bool up)
{
    char storage[64];
    struct text words = build_words(builder, node->unit.first, storage, sizeof storage);
    bool in_all = text_is(words, "water in all");
    if (!node->quantity.is_percent || !(in_all || text_is(words, "water"))) {
        build_unknown_statement(builder, node, "treatment");
        return;
    }
    if (treatment->flags & TREATMENT_HAS_UPTAKE && up != (treatment->uptake.high > 0))
        tell_contradiction(builder, node);
    struct range share = build_range(builder, &node->quantity, node->unit.first, 1);
    if (!up && share.high >= 1)
        finding_add(builder->findings, FINDING_MASS_TOO_LOW, build_place(builder, node->span), NO_GAPS);
    treatment->uptake = up ? share : range_of(-share.high, -share.best, -share.low);
    treatment->flags |= TREATMENT_HAS_UPTAKE | TREATMENT_REACHES | (in_all ? TREATMENT_IN_ALL : 0);
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
    { "by the maker", TREATMENT_BY_MAKER, 0 },           { "behind a part", TREATMENT_OF_PARTS, 0 },
    { "needs a line of its own", TREATMENT_NAMES_FOOD, 0 }, { "weighed without refuse", TREATMENT_WITHOUT_REFUSE, 0 },
    { "salt unsaid", TREATMENT_SALT_UNSAID, 0 },
    { "takes off refuse", TREATMENT_TAKES_REFUSE, 0 },   { "cuts what is eaten", TREATMENT_CUTS, 0 },
};

static bool read_flag(struct builder *builder, const struct node *node, struct treatment *treatment, struct text words)
{
    for (uint32_t i = 0; i < COUNT_OF(treatment_words); i++) {
        if (!text_is(words, treatment_words[i].words))
            continue;
        build_only_words(builder, node);
        if (treatment_words[i].from && treatment->from && treatment->from != treatment_words[i].from)
            tell_contradiction(builder, node);
        treatment->flags |= treatment_words[i].flag;
        if (treatment_words[i].from)
            treatment->from = treatment_words[i].from;
        return true;
    }
    return false;
}

typedef void effect_reader(struct builder *builder, const struct node *node, struct treatment *treatment,
                           enum effect_kind kind);

static const struct effect_words {
    const char *word;
    effect_reader *read;
    enum effect_kind kind;
    const char *now;                        /* of a former word: the one that took its place */
} effect_words[] = {
    { "keeps", read_share, EFFECT_KEEPS, NULL },       { "strength", read_share, EFFECT_STRENGTH, NULL },
    { "reaches", read_share, EFFECT_REACHES, NULL },   { "adds", read_amount, EFFECT_ADDS, NULL },
    { "becomes", read_amount, EFFECT_BECOMES, NULL },  { "replaces", read_amount, EFFECT_BECOMES, "becomes" },
};

static bool read_effect(struct builder *builder, const struct node *node, struct treatment *treatment)
{
    const struct item *first = node->items.first;
    struct text word = first && first->kind == ITEM_WORD ? build_written(builder, first->span) : text_of("");
    for (uint32_t i = 0; i < COUNT_OF(effect_words); i++) {
        if (!text_is(word, effect_words[i].word))
            continue;
        if (effect_words[i].now)
            build_former_word(builder, first, effect_words[i].now);
        effect_words[i].read(builder, node, treatment, effect_words[i].kind);
        return true;
    }
    return false;
}

/* What weighs nothing afterwards, or of which nothing stays, is no food any more. */
static struct range read_what_stays(struct builder *builder, const struct node *node)
{
    struct range share = build_range(builder, &node->quantity, node->unit.first, 1);
    if (share.high <= 0)
        finding_add(builder->findings, FINDING_MASS_TOO_LOW, build_place(builder, node->span), NO_GAPS);
    return share;
}

static void read_treatment_words(struct builder *builder, const struct node *node, struct treatment *treatment)
{
    char storage[256];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    if (read_flag(builder, node, treatment, words) || read_effect(builder, node, treatment) || read_evidence(builder, node, treatment))
        return;
    if (text_starts(words, "for "))
        read_for(builder, node, treatment);
    else if (text_is(words, "takes up") || text_is(words, "gives off"))
        read_uptake(builder, node, treatment, text_is(words, "takes up"));
    else if (text_is(words, "mass") && node->quantity.is_percent) {
        build_only_percent(builder, node);
        treatment->mass = read_what_stays(builder, node);
        treatment->flags |= TREATMENT_HAS_MASS;
    } else if (text_is(words, "kept") && node->quantity.is_percent) {
        build_only_percent(builder, node);
        treatment->kept = read_what_stays(builder, node);
        check_share(builder, node, EFFECT_KEEPS, treatment->kept);
    } else
        build_unknown_statement(builder, node, "treatment");
}

/* The steps of a sequence have a key each, joined by commas. */
static uint32_t sequence_key(struct builder *builder, const struct node *node, char *key, uint32_t *steps)
{
    uint32_t used = name_key_of(build_items_text(builder, node->items.first), false, key);
    *steps = 1;
    for (const struct phrase *more = node->names.first; more; more = more->next) {
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

/* `also "diced, boiled"`: the steps of a sequence are parted by commas, so it stands in quotes. */
static void add_alias(struct builder *builder, const struct item *items, struct text written, struct place place, uint32_t index)
{
    char key[KEY_BYTES];
    uint32_t used = 0, start = 0;
    if (!items || items->kind != ITEM_STRING) {
        build_name(builder, SPACE_TREATMENT, written, place, false, index);
        return;
    }
    struct text whole = build_written(builder, items->span);
    for (uint32_t at = 0; at <= whole.length; at++) {
        if (at < whole.length && whole.bytes[at] != ',')
            continue;
        char step[KEY_BYTES];
        uint32_t length = name_key_of((struct text){ whole.bytes + start, at - start }, false, step);
        if (used + length + 2 > KEY_BYTES) {
            finding_add(builder->findings, FINDING_NAME_TOO_LONG, place, GAPS(whole));
            return;
        }
        if (used)
            key[used++] = ',';
        memcpy(key + used, step, length);
        used += length;
        start = at + 1;
    }
    build_key(builder, SPACE_TREATMENT, (struct text){ key, used }, whole, place, index);
}

static void add_aliases(struct builder *builder, const struct node *node, uint32_t index)
{
    add_alias(builder, node->items.first, build_items_text(builder, node->items.first), build_place(builder, node->span), index);
    for (const struct phrase *more = node->names.first; more; more = more->next)
        add_alias(builder, more->items, build_written(builder, more->span), build_place(builder, more->span), index);
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
    if (length == 0)
        finding_add(builder->findings, FINDING_NAME_TOO_LONG, treatment.place, GAPS(name));
    treatment.name = build_text(builder, name);
    treatment.first_group = builder->references_count;
    treatment.first_effect = builder->effects_count;
    for (const struct node *at = node->body; at; at = at->next)
        read_treatment_statement(builder, at, index, &treatment);
    if (treatment.flags & TREATMENT_CHANGES_NOTHING && (treatment.effect_count || treatment.kept.high > 0 || treatment.flags & (TREATMENT_HAS_MASS | TREATMENT_HAS_UPTAKE)))
        finding_add(builder->findings, FINDING_CONTRADICTING, build_place(builder, node->span), GAPS(text_of("changes nothing")));
    if (stays(builder, &treatment))
        treatment.flags |= TREATMENT_STAYS;
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
