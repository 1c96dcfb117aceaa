/* Rule packs: how a country's labels round, its daily values, the cautions that stand where figures stand. */
#include <math.h>
#include <string.h>

#include "library/build.h"

/* Of the rules being read: what their labels print instead of a nutrient, and of which. */
static const struct rules *rules_being_read(const struct builder *builder)
{
    return &builder->rules[builder->rules_count - 1];
}

static uint32_t rounding_subject(struct builder *builder, const struct node *node)
{
    char storage[128];
    const struct rules *rules = rules_being_read(builder);
    struct text words = build_words(builder, node->items.first->next, storage, sizeof storage);
    if (text_is(words, "serving mass"))
        return ROUNDING_SERVING_MASS;
    if (text_is(words, "servings per container"))
        return ROUNDING_SERVINGS;
    if (rules->converted.length && text_equal(words, build_string(builder, rules->converted)))
        return ROUNDING_CONVERTED;
    return build_known(builder, node, SPACE_NUTRIENT, words);
}

/* The factor from an amount in this unit to what the rounding works in: percent points, or the nutrient's unit. */
static double rounding_factor(struct builder *builder, const struct node *node, const struct rounding *rounding,
                              const struct quantity *quantity, const struct item *unit)
{
    if (quantity->is_percent)
        return 100;
    if (rounding->nutrient == ROUNDING_SERVING_MASS || rounding->nutrient == ROUNDING_SERVINGS)
        return 1;
    uint32_t nutrient = rounding->nutrient == ROUNDING_CONVERTED ? rules_being_read(builder)->converted_nutrient : rounding->nutrient;
    return build_nutrient_factor(builder, node, nutrient, unit);
}

/* The amount of a statement, which must be there; 0 after a finding. */
static double rounding_amount(struct builder *builder, const struct node *node, const struct rounding *rounding)
{
    double amount = node->quantity.kind == QUANTITY_NUMBER ? node->quantity.low : 0;
    if (!(amount > 0)) {
        finding_add(builder->findings, FINDING_RULES_AMOUNT, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
        return 0;
    }
    return amount * rounding_factor(builder, node, rounding, &node->quantity, node->unit.first);
}

/* `step 5 mg up to 140 mg`; without an end the band has none. */
static void read_step(struct builder *builder, const struct node *node, struct rounding *rounding)
{
    struct band band = { rounding_amount(builder, node, rounding), INFINITY };
    for (const struct item *item = node->unit.first; item; item = item->next) {
        if (item->kind == ITEM_RANGE && item->quantity->kind == QUANTITY_BAD)
            return;                                 /* told; nobody knows where the band ends */
        if (item->kind == ITEM_RANGE)
            band.up_to = item->quantity->high * rounding_factor(builder, node, rounding, item->quantity, item->next);
    }
    uint32_t number = band.step > 0 ? BUILD_ADD(builder, bands) : NONE_INDEX;
    if (number == NONE_INDEX)
        return;
    builder->bands[number] = band;
    rounding->band_count++;
}

static const char *const words_of_rounding[] = { "step", "zero under", "zero up to", "may be zero under", "less than", "finer", "source" };

/* `zero under 5 mg`, `zero up to 0.5 g`, `may be zero under 5 mg`: one of them. */
static void read_zero(struct builder *builder, const struct node *node, struct rounding *rounding, struct text words)
{
    bool mandatory = words.bytes[0] == 'z', includes = text_is(words, "zero");
    if (rounding->zero_under > 0 && (rounding->zero_is_mandatory != mandatory || rounding->zero_includes != includes))
        finding_add(builder->findings, FINDING_CONTRADICTING, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
    rounding->zero_under = includes ? node->quantity.high * rounding_factor(builder, node, rounding, &node->quantity, node->unit.first)
                                    : rounding_amount(builder, node, rounding);
    rounding->zero_is_mandatory = mandatory;
    rounding->zero_includes = includes;
}

static void read_rounding_statement(struct builder *builder, const struct node *node, struct rounding *rounding)
{
    char storage[64];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    if (node->kind == NODE_SOURCE)
        rounding->source = build_text(builder, build_quoted(builder, node->items.first));
    else if (text_is(words, "step"))
        read_step(builder, node, rounding);
    else if (text_is(words, "zero under") || text_is(words, "may be zero under") || (text_is(words, "zero") && node->quantity.kind == QUANTITY_RANGE))
        read_zero(builder, node, rounding, words);
    else if (text_is(words, "less than"))
        rounding->less_than = rounding_amount(builder, node, rounding);
    else if (text_is(words, "finer"))
        rounding->finer = build_only_words(builder, node);
    else
        build_unknown_word(builder, node, "rounding", words_of_rounding, COUNT_OF(words_of_rounding));
}

/* Whether the steps go upwards and the last, and only that, has no end. */
static bool rounding_ends(const struct builder *builder, const struct rounding *rounding)
{
    const struct band *bands = &builder->bands[rounding->first_band];
    uint32_t last = rounding->band_count - 1;
    for (uint32_t i = 0; i < last; i++) {
        if (!(bands[i].up_to < bands[i + 1].up_to))
            return false;
    }
    return bands[last].up_to == INFINITY;
}

static void read_rounding(struct builder *builder, const struct node *node, bool percent)
{
    struct rounding rounding = { .nutrient = rounding_subject(builder, node), .is_percent = percent,
                                 .first_band = builder->bands_count };
    uint32_t number = rounding.nutrient == NONE_INDEX ? NONE_INDEX : BUILD_ADD(builder, roundings);
    if (number == NONE_INDEX)
        return;
    builder->roundings[number] = rounding;
    for (const struct node *at = node->body; at; at = at->next)
        read_rounding_statement(builder, at, &rounding);
    builder->roundings[number] = rounding;
    if (rounding.band_count == 0)
        finding_add(builder->findings, FINDING_RULES_INCOMPLETE, build_place(builder, node->span), GAPS(build_items_text(builder, node->items.first)));
    else if (!rounding_ends(builder, &rounding))
        finding_add(builder->findings, FINDING_RULES_ORDER, build_place(builder, node->span), GAPS(build_items_text(builder, node->items.first)));
}

static void read_daily_value(struct builder *builder, const struct node *node)
{
    char storage[128];
    struct text name = build_words(builder, node->items.first->next->next, storage, sizeof storage);
    uint32_t nutrient = build_known(builder, node, SPACE_NUTRIENT, name);
    if (nutrient == NONE_INDEX)
        return;
    if (node->quantity.kind != QUANTITY_NUMBER || !(node->quantity.low > 0)) {
        finding_add(builder->findings, FINDING_RULES_AMOUNT, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
        return;
    }
    build_only_amount(builder, node);
    double amount = node->quantity.low * build_nutrient_factor(builder, node, nutrient, node->unit.first);
    uint32_t number = amount > 0 ? BUILD_ADD(builder, daily_values) : NONE_INDEX;
    if (number != NONE_INDEX)
        builder->daily_values[number] = (struct daily_value){
            .nutrient = nutrient, .amount = amount, .source = build_text(builder, build_quoted(builder, node->unit.first)) };
}

/* `equivalent sodium "table salt" "tsp"`. */
static void read_equivalent(struct builder *builder, const struct node *node)
{
    const struct item *food = build_string_item(node->items.first);
    const struct item *unit = food ? build_string_item(food->next) : NULL;
    const struct item *subject = node->items.first->next;
    uint32_t nutrient = subject ? build_nutrient(builder, build_written(builder, subject->span)) : NONE_INDEX;
    uint32_t number = unit && nutrient != NONE_INDEX ? BUILD_ADD(builder, equivalents) : NONE_INDEX;
    if (number == NONE_INDEX) {
        build_unknown_statement(builder, node, "rule pack");
        return;
    }
    builder->equivalents[number] = (struct equivalent){ .nutrient = nutrient,
        .food = build_text(builder, build_written(builder, food->span)),
        .unit = build_text(builder, build_written(builder, unit->span)) };
}

typedef void rules_reader(struct builder *builder, const struct node *node);

/* Lists of one kind must stand together in the pack, so each kind has its own walk. */
static uint32_t read_each(struct builder *builder, const struct node *node, const char *start, rules_reader *read,
                          const uint32_t *count)
{
    uint32_t before = *count;
    uint32_t length = (uint32_t)strlen(start);
    for (const struct node *at = node->body; at; at = at->next) {
        char storage[128];
        struct text words = build_words(builder, at->items.first, storage, sizeof storage);
        if (at->kind == NODE_KNOWLEDGE && words.length >= length && memcmp(words.bytes, start, length) == 0)
            read(builder, at);
    }
    return *count - before;
}

static void read_amount_rounding(struct builder *builder, const struct node *node)
{
    read_rounding(builder, node, false);
}

static void read_percent_rounding(struct builder *builder, const struct node *node)
{
    read_rounding(builder, node, true);
}

static const char *const starts[] = { "rounding ", "percent ", "daily value ", "equivalent ", "caution", "title", "compare ", "yield within", "yield at least",
                                     "check ", "tolerance ", "zero percents under", "labels as ", "daily values called" };

/* What else may stand there, for who misspells it. */
static const char *const words_of_rules[] = { "rounding", "percent", "daily value", "equivalent", "caution", "title", "compare", "yield within", "yield at least",
    "check", "tolerance", "zero percents under", "labels as", "daily values called", "measure", "kind", "reference amount", "claim", "disclosure", "mark", "notice", "convert" };

static bool rules_know(struct text words)
{
    for (uint32_t i = 0; i < COUNT_OF(starts); i++) {
        uint32_t length = (uint32_t)strlen(starts[i]);
        if (words.length >= length && memcmp(words.bytes, starts[i], length) == 0)
            return true;
    }
    return false;
}

/* `compare sodium to potassium`: reports give the ratio of the two. */
static void read_compare(struct builder *builder, const struct node *node, struct rules *rules)
{
    const struct item *over = node->items.first->next, *to = over ? over->next : NULL, *under = to ? to->next : NULL;
    bool good = under && text_is(build_written(builder, to->span), "to");
    if (good && under->next)
        finding_add(builder->findings, FINDING_EXTRA_WORDS, build_place(builder, under->next->span), GAPS(build_written(builder, under->next->span)));
    if (good && build_only_words(builder, node)) {
        rules->compare_over = build_nutrient(builder, build_written(builder, over->span));
        rules->compare_under = build_nutrient(builder, build_written(builder, under->span));
    }
    if (!good || rules->compare_over == NONE_INDEX || rules->compare_under == NONE_INDEX)
        build_unknown_statement(builder, node, "rule pack");
}

static void read_yield(struct builder *builder, const struct node *node, double *share)
{
    if (!node->quantity.is_percent)
        finding_add(builder->findings, FINDING_RULES_AMOUNT, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
    else if (build_only_percent(builder, node))
        *share = node->quantity.low;
}

static void read_title(struct builder *builder, const struct node *node, struct rules *rules)
{
    char storage[128];
    for (const struct node *at = node->body; at; at = at->next) {
        struct text words = build_words(builder, at->items.first, storage, sizeof storage);
        if (text_is(words, "title"))
            rules->title = build_text(builder, build_quoted(builder, at->items.first));
        else if (text_is(words, "daily values called") && build_string_item(at->items.first))
            rules->daily_name = build_text(builder, build_quoted(builder, at->items.first));
        else if (words.length > 8 && memcmp(words.bytes, "compare ", 8) == 0)
            read_compare(builder, at, rules);
        else if (text_is(words, "panel"))
            read_panel(builder, at, rules);
        else if (text_is(words, "yield within"))
            read_yield(builder, at, &rules->yield_within);
        else if (text_is(words, "yield at least"))
            read_yield(builder, at, &rules->yield_least);
        else if (words.length > 10 && memcmp(words.bytes, "labels as ", 10) == 0)
            rules->labels_as = build_text(builder, build_items_text(builder, at->items.first->next->next));
        else if (at->kind != NODE_SOURCE && !rules_know(words) && !claims_know(builder, at))
            build_unknown_word(builder, at, "rule pack", words_of_rules, COUNT_OF(words_of_rules));
    }
}

static bool is_of_library(const struct builder *builder, struct text name)
{
    char key[KEY_BYTES];
    const struct library *owner;
    return builder->base && library_rules(builder->base, (struct text){ key, name_key_of(name, false, key) }, &owner);
}

void read_rules(struct builder *builder, const struct node *node)
{
    struct text name = build_items_text(builder, node->items.first->next);
    uint32_t index = BUILD_ADD(builder, rules);
    struct rules rules = { .name = build_text(builder, name), .first_rounding = builder->roundings_count,
                           .first_daily_value = builder->daily_values_count,
                           .converted_nutrient = NONE_INDEX, .compare_over = NONE_INDEX, .compare_under = NONE_INDEX,
                           .first_equivalent = builder->equivalents_count, .first_caution = builder->cautions_count,
                           .first_check = builder->label_checks_count, .first_tolerance = builder->tolerances_count };
    if (index == NONE_INDEX)
        return;
    read_title(builder, node, &rules);
    read_conversion(builder, node, &rules);
    builder->rules[index] = rules;
    rules.daily_value_count = read_each(builder, node, "daily value ", read_daily_value, &builder->daily_values_count);
    rules.equivalent_count = read_each(builder, node, "equivalent ", read_equivalent, &builder->equivalents_count);
    rules.check_count = read_each(builder, node, "check ", read_label_check, &builder->label_checks_count);
    rules.tolerance_count = read_each(builder, node, "tolerance ", read_tolerance, &builder->tolerances_count);
    builder->rules[index] = rules;
    rules.caution_count = read_each(builder, node, "caution", read_caution, &builder->cautions_count);
    if (rules.caution_count)
        rules.caution_count += add_usual_cautions(builder, rules.first_caution);
    read_claims(builder, node, &rules, index);
    builder->rules[index] = rules;              /* a rounding may be of what these rules print instead of a nutrient */
    rules.rounding_count = read_each(builder, node, "rounding ", read_amount_rounding, &builder->roundings_count);
    rules.rounding_count += read_each(builder, node, "percent ", read_percent_rounding, &builder->roundings_count);
    read_each(builder, node, "zero percents under", read_small_percents, &builder->roundings_count);
    builder->rules[index] = rules;
    if (is_of_library(builder, name))                   /* those hold, wherever somebody follows them */
        finding_add(builder->findings, FINDING_RULES_OF_LIBRARY, build_place(builder, node->span), GAPS(name));
    else
        build_name(builder, SPACE_RULES, name, build_place(builder, node->span), false, index);
}
