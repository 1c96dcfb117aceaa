/* The claims of a rule pack: each with its conditions, which read like limits. */
#include "library/claim_reading.h"

static struct text text_read(const struct claim_reading *reading)
{
    return reading->builder->declaration->text;
}

static struct text written(const struct claim_reading *reading, struct span span)
{
    return build_written(reading->builder, span);
}

void claim_complain(const struct claim_reading *reading, enum words_code code, struct span span)
{
    finding_add(reading->builder->findings, code, build_place(reading->builder, span), GAPS(written(reading, span)));
}

bool claim_words_start(struct text words, const char *start)
{
    uint32_t length = (uint32_t)strlen(start);
    return words.length >= length && memcmp(words.bytes, start, length) == 0
        && (words.length == length || words.bytes[length] == ' ');
}

struct text claim_string(const struct builder *builder, const struct item *items, uint32_t number)
{
    const struct item *found = build_string_item(items);
    while (found && number--)
        found = build_string_item(found->next);
    return found ? build_written(builder, found->span) : (struct text){ "", 0 };
}

static void add_condition(struct claim_reading *reading, struct condition condition)
{
    uint32_t number = BUILD_ADD(reading->builder, conditions);
    condition.claim_kind = reading->claim_kind;
    condition.source = reading->source;
    if (number != NONE_INDEX)
        reading->builder->conditions[number] = condition;
}

/* ---- amounts -------------------------------------------------------------------------------------------------------- */

static bool read_nutrient_name(struct claim_reading *reading, struct text name, struct condition *condition)
{
    condition->column = build_known(reading->builder, reading->node, SPACE_NUTRIENT, name);
    return condition->column != NONE_INDEX;
}

/* `from maker-added`: the column of that origin. */
static bool read_origin(struct claim_reading *reading, const struct item *from, struct condition *condition)
{
    uint32_t traced;
    enum origin origin = origin_of(items_between(text_read(reading), from->next, NULL));
    build_column_count(reading->builder, &traced);
    if (origin == ORIGIN_COUNT || condition->column != traced) {
        claim_complain(reading, FINDING_CLAIM_CONDITION, reading->node->span);
        return false;
    }
    condition->column = build_nutrient_total(reading->builder) + origin;
    return true;
}

static bool words_are_basis(struct text words)
{
    return text_is(words, "serving") || text_is(words, "reference amount") || text_is(words, "recipe");
}

/* `serving`, `reference amount`, `recipe`; or a number and its unit, `100 g`, `100 ml`, `100 kcal`. */
static bool read_basis(struct claim_reading *reading, double number, const struct item *unit_words, struct condition *condition)
{
    struct text words = items_between(text_read(reading), unit_words, NULL);
    if (number == 0 && words_are_basis(words)) {
        condition->basis = words.bytes[0] == 's' ? PER_SERVING : words.bytes[2] == 'f' ? PER_REFERENCE : PER_RECIPE;
        return true;
    }
    const struct unit *unit = number > 0 ? build_unit(reading->builder, words) : NULL;
    condition->basis = !unit ? PER_NOT_COMPUTED : unit->dimension == DIMENSION_MASS ? PER_MASS
                     : unit->dimension == DIMENSION_VOLUME ? PER_VOLUME
                     : unit->dimension == DIMENSION_ENERGY ? PER_ENERGY : PER_NOT_COMPUTED;
    if (condition->basis == PER_NOT_COMPUTED) {
        claim_complain(reading, FINDING_CLAIM_BASIS, reading->node->span);
        return false;
    }
    condition->per = number * unit->factor.best;
    return true;
}

/* The basis behind `per`. */
static bool read_per(struct claim_reading *reading, const struct item *first, struct condition *condition)
{
    bool number = first && first->quantity;
    return read_basis(reading, number ? first->quantity->low : 0, number ? first->next : first, condition);
}

/* The nutrient's units in one of what is written: of `mg`, or in one (100%) of the daily value. */
static double figure_factor(struct claim_reading *reading, uint32_t nutrient)
{
    struct builder *builder = reading->builder;
    const struct node *node = reading->node;
    if (!node->quantity.is_percent)
        return build_nutrient_factor(builder, node, nutrient, node->unit.first);
    for (uint32_t i = 0; i < reading->rules->daily_value_count; i++) {
        const struct daily_value *value = &builder->daily_values[reading->rules->first_daily_value + i];
        if (value->nutrient == nutrient && text_is(items_between(text_read(reading), node->unit.first, NULL), "of daily value"))
            return value->amount;
    }
    claim_complain(reading, FINDING_CLAIM_DAILY_VALUE, node->span);
    return 0;
}

/* `limit sodium at most 140 mg per reference amount`, as in a recipe. */
static void read_limit(struct claim_reading *reading)
{
    const struct node *node = reading->node;
    const struct item *first = node->items.first, *from = items_find_word(text_read(reading), first, "from");
    struct condition condition = { .kind = CONDITION_LIMIT };
    bool figure = node->quantity.kind == QUANTITY_NUMBER && (node->comparison != COMPARE_BETWEEN || node->second.kind == QUANTITY_NUMBER);
    if (!figure || node->comparison == COMPARE_NONE) {
        claim_complain(reading, FINDING_CLAIM_CONDITION, node->span);
        return;
    }
    if (!read_nutrient_name(reading, items_between(text_read(reading), first, from), &condition))
        return;
    double factor = figure_factor(reading, condition.column);
    if (factor <= 0 || (from && !read_origin(reading, from, &condition)) || !read_per(reading, node->per.first, &condition))
        return;
    enum comparison comparison = node->comparison;
    if (comparison == COMPARE_UNDER || comparison == COMPARE_OVER)
        condition.flags |= CONDITION_STRICT;
    if (comparison == COMPARE_AT_MOST || comparison == COMPARE_UNDER || comparison == COMPARE_BETWEEN)
        condition.flags |= CONDITION_HAS_MOST;
    if (comparison == COMPARE_AT_LEAST || comparison == COMPARE_OVER || comparison == COMPARE_BETWEEN)
        condition.flags |= CONDITION_HAS_LEAST;
    condition.least = node->quantity.low * factor;
    condition.most = (comparison == COMPARE_BETWEEN ? node->second.low : node->quantity.low) * factor;
    add_condition(reading, condition);
}

/* `at least 25% less sodium than compared per reference amount`, `at least the claimed share less sodium …`; `less
 * sodium from added than` looks at what cooks and makers add. */
static void read_less(struct claim_reading *reading)
{
    const struct node *node = reading->node;
    bool claimed = items_find_word(text_read(reading), node->items.first, "claimed") != NULL, numbered = claimed && node->quantity.kind != QUANTITY_NONE;
    const struct item *less = items_find_word(text_read(reading), claimed ? node->items.first : node->unit.first, "less");
    const struct item *than = items_find_word(text_read(reading), less, "than"), *compared = than ? than->next : NULL;
    const struct item *per = compared ? compared->next : NULL, *from = items_find_word(text_read(reading), less, "from");
    struct condition condition = { .kind = CONDITION_LESS, .flags = claimed ? CONDITION_CLAIMED_SHARE : 0, .least = node->quantity.low };
    bool good = per && text_is(written(reading, compared->span), "compared") && text_is(written(reading, per->span), "per")
             && (!from || text_is(items_between(text_read(reading), from->next, than), "added"))
             && (claimed || (node->quantity.is_percent && node->quantity.low > 0 && node->quantity.low < 1));
    if (!good) {
        claim_complain(reading, FINDING_CLAIM_CONDITION, node->span);
        return;
    }
    condition.flags |= from ? CONDITION_ADDED : 0;
    if (read_nutrient_name(reading, items_between(text_read(reading), less->next, from ? from : than), &condition)
        && (numbered ? read_basis(reading, node->quantity.low, node->unit.first, &condition) : read_per(reading, per->next, &condition)))
        add_condition(reading, condition);
}

/* ---- ingredients -------------------------------------------------------------------------------------------------------- */

uint32_t claim_add_group(struct claim_reading *reading, struct text name, struct span span)
{
    uint32_t group = build_find(reading->builder, SPACE_GROUP, name);
    uint32_t number = group == NONE_INDEX ? NONE_INDEX : BUILD_ADD(reading->builder, references);
    if (number == NONE_INDEX) {
        finding_add(reading->builder->findings, FINDING_UNKNOWN_GROUP, build_place(reading->builder, span), GAPS(name));
        return 0;
    }
    reading->builder->references[number] = group;
    return 1;
}

/* `without salts, soy and fish sauce, unless footnote "…"`. */
static void read_without(struct claim_reading *reading)
{
    const struct node *node = reading->node;
    struct condition condition = { .kind = CONDITION_WITHOUT, .first_group = reading->builder->references_count };
    condition.group_count += claim_add_group(reading, items_between(text_read(reading), node->items.first->next, NULL), node->span);
    for (const struct phrase *more = node->phrases.first; more; more = more->next) {
        const struct item *string = build_string_item(more->items);
        if (string && text_is(items_between(text_read(reading), more->items, string), "unless footnote"))
            condition.words = build_text(reading->builder, written(reading, string->span));
        else
            condition.group_count += claim_add_group(reading, written(reading, more->span), more->span);
    }
    add_condition(reading, condition);
}

/* ---- other statements of a claim ---- */

struct simple {
    const char *words;
    enum condition_kind kind;
    bool claim, text;                   /* the strings behind the words: another claim, a text */
};

static const struct simple simples[] = {
    { "needs", CONDITION_NEEDS, true, false },     { "compared fails", CONDITION_COMPARED_FAILS, true, false },
    { "compared meets", CONDITION_COMPARED_MEETS, true, false },
    { "never", CONDITION_NEVER, false, true },     { "unchecked", CONDITION_UNCHECKED, false, true },
    { "unless", CONDITION_NOTE_UNLESS, true, true },
};

static bool read_simple(struct claim_reading *reading, struct text words)
{
    struct builder *builder = reading->builder;
    const struct item *items = reading->node->items.first;
    for (uint32_t i = 0; i < COUNT_OF(simples); i++) {
        const struct simple *simple = &simples[i];
        if (!text_is(words, simple->words))
            continue;
        struct text claim = simple->claim ? claim_string(builder, items, 0) : (struct text){ "", 0 };
        struct text text = simple->text ? claim_string(builder, items, simple->claim ? 1 : 0) : (struct text){ "", 0 };
        if ((simple->claim && !claim.length) || (simple->text && !text.length) || reading->node->has_body)
            claim_complain(reading, FINDING_CLAIM_CONDITION, reading->node->span);
        else
            add_condition(reading, (struct condition){ .kind = simple->kind, .claim = build_text(builder, claim), .words = build_text(builder, text) });
        return true;
    }
    return false;
}

static void read_statement(struct claim_reading *reading, const struct node *node)
{
    char storage[128];
    struct builder *builder = reading->builder;
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    reading->node = node;
    if (node->kind == NODE_LIMIT)
        read_limit(reading);
    else if (node->kind == NODE_NOTE)
        add_condition(reading, (struct condition){ .kind = CONDITION_NOTE, .words = build_text(builder, claim_string(builder, node->items.first, 0)) });
    else if (node->kind == NODE_KNOWLEDGE && claim_words_start(words, "at least"))
        read_less(reading);
    else if (node->kind == NODE_KNOWLEDGE && claim_words_start(words, "without"))
        read_without(reading);
    else if (!(node->kind == NODE_KNOWLEDGE && read_simple(reading, words)) && node->kind != NODE_SOURCE && node->kind != NODE_ALSO
             && node->kind != NODE_BROKEN)
        claim_complain(reading, FINDING_CLAIM_CONDITION, node->span);
}

struct text claim_source_within(const struct builder *builder, const struct node *node)
{
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_SOURCE)
            return claim_string(builder, at->items.first, 0);
    }
    return (struct text){ "", 0 };
}

uint32_t claim_find_kind(const struct builder *builder, const struct rules *rules, struct text name)
{
    for (uint32_t i = 0; rules->first_claim_kind + i < builder->claim_kinds_count; i++) {
        if (text_equal(build_string(builder, builder->claim_kinds[rules->first_claim_kind + i].name), name))
            return i;
    }
    return NONE_INDEX;
}

/* What holds for one kind: its block is read once for each kind that it names. */
static void read_for(struct claim_reading *reading, const struct node *node, struct span span)
{
    struct builder *builder = reading->builder;
    reading->claim_kind = claim_find_kind(builder, reading->rules, build_written(builder, span));
    reading->source = build_text(builder, claim_source_within(builder, node));
    if (reading->claim_kind == NONE_INDEX)
        claim_complain(reading, FINDING_CLAIM_KIND_UNKNOWN, span);
    for (const struct node *at = node->body; at && reading->claim_kind != NONE_INDEX; at = at->next)
        read_statement(reading, at);
    reading->claim_kind = NONE_INDEX;
    reading->source = (struct pack_text){ 0, 0 };
}

static void read_claim_body(struct claim_reading *reading, const struct node *node)
{
    char storage[128];
    for (const struct node *at = node->body; at; at = at->next) {
        struct text words = build_words(reading->builder, at->items.first, storage, sizeof storage);
        const struct item *kind = build_string_item(at->items.first);
        if (at->kind != NODE_KNOWLEDGE || !text_is(words, "for") || !kind || !at->has_body) {
            read_statement(reading, at);
            continue;
        }
        read_for(reading, at, kind->span);
        for (const struct phrase *more = at->phrases.first; more; more = more->next)
            read_for(reading, at, more->items->span);
    }
}

uint32_t claim_find(const struct builder *builder, struct text key, uint32_t first_claim)
{
    for (uint32_t i = 0; i < builder->names_count; i++) {
        if (builder->names[i].space == SPACE_CLAIM && builder->names[i].index >= first_claim && text_equal(build_string(builder, builder->names[i].key), key))
            return builder->names[i].index;
    }
    return NONE_INDEX;
}

static void name_claim(struct builder *builder, const struct rules *rules, struct text name, struct span span, uint32_t index)
{
    char key[KEY_BYTES];
    double share;
    uint32_t length = claim_key(name, key, &share);
    uint32_t earlier = claim_find(builder, (struct text){ key, length }, rules->first_claim);
    if (length == 0)
        finding_add(builder->findings, FINDING_NAME_TOO_LONG, build_place(builder, span), GAPS(name));
    else if (earlier != NONE_INDEX && earlier != index)
        finding_add(builder->findings, FINDING_CLAIM_TWICE, build_place(builder, span), GAPS(name));
    else
        build_key(builder, SPACE_CLAIM, (struct text){ key, length }, name, build_place(builder, span), index);
}

void read_claim(struct builder *builder, const struct node *node, struct rules *rules, uint32_t number, enum claim_use use)
{
    struct claim_reading reading = { .builder = builder, .rules = rules, .node = node, .claim_kind = NONE_INDEX };
    struct text name = claim_string(builder, node->items.first, 0);
    uint32_t index = BUILD_ADD(builder, claims);
    struct claim claim = { .name = build_text(builder, name), .source = build_text(builder, claim_source_within(builder, node)), .use = use,
                           .rules = number, .first_condition = builder->conditions_count };
    if (index == NONE_INDEX)
        return;
    uint32_t before = builder->findings->count;
    read_claim_body(&reading, node);
    if (builder->findings->count > before)              /* what is left of it must prove nothing */
        add_condition(&reading, (struct condition){ .kind = CONDITION_UNCHECKED, .words = build_text(builder, text_of("a line of the claim that cannot be read")) });
    claim.condition_count = builder->conditions_count - claim.first_condition;
    builder->claims[index] = claim;
    if (claim.condition_count == 0 || !claim.source.length)
        finding_add(builder->findings, claim.condition_count ? FINDING_CLAIM_WITHOUT_SOURCE : FINDING_CLAIM_EMPTY, build_place(builder, node->span), GAPS(name));
    if (use != CLAIM_SAID && use != CLAIM_TERM)
        return;
    name_claim(builder, rules, name, node->span, index);
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind != NODE_ALSO)
            continue;
        name_claim(builder, rules, claim_string(builder, at->items.first, 0), at->span, index);
        for (const struct phrase *more = at->names.first; more; more = more->next)
            name_claim(builder, rules, written(&reading, more->items->span), more->span, index);
    }
}
