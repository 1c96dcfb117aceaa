/* What a rule pack declares beside roundings: what recipes may count as, reference amounts, household measures, and
 * claims. */
#include "library/claim_reading.h"

/* `reference amount up to 30 g` and `serving over 100 g`, each by weight or by volume. */
static void set_size(struct claim_reading *reading, struct claim_kind *kind, bool serving)
{
    const struct node *node = reading->node;
    const struct unit *unit = build_unit(reading->builder, build_unit_text(reading->builder, node->unit.first));
    double amount = unit ? node->quantity.high * unit->factor.best : 0;
    bool mass = unit && unit->dimension == DIMENSION_MASS, volume = unit && unit->dimension == DIMENSION_VOLUME;
    if (amount <= 0 || node->quantity.kind != (serving ? QUANTITY_NUMBER : QUANTITY_RANGE) || (!mass && !volume))
        claim_complain(reading, FINDING_CLAIM_KIND, node->span);
    else if (serving)
        *(mass ? &kind->serving_grams : &kind->serving_ml) = amount;
    else
        *(mass ? &kind->grams : &kind->ml) = amount;
}

/* What a serving, or the reference amount, weighs at least. */
static void set_least(struct claim_reading *reading, double *least)
{
    const struct node *node = reading->node;
    const struct unit *unit = build_unit(reading->builder, build_unit_text(reading->builder, node->unit.first));
    bool good = node->quantity.kind == QUANTITY_NUMBER && node->quantity.low > 0 && unit && unit->dimension == DIMENSION_MASS;
    if (good)
        *least = node->quantity.low * unit->factor.best;
    else
        claim_complain(reading, FINDING_CLAIM_KIND, node->span);
}

/* `at least 3 portions of 40 g from 2 classes`. */
static void set_portions(struct claim_reading *reading, struct claim_kind *kind)
{
    const struct node *node = reading->node;
    struct text text = reading->builder->declaration->text;
    const struct item *of = items_find_word(text, node->unit.first, "of"), *grams = of ? of->next : NULL;
    const struct item *from = items_find_word(text, grams, "from"), *classes = from ? from->next : NULL;
    bool good = node->quantity.kind == QUANTITY_NUMBER && !node->quantity.is_percent && node->quantity.low >= 1 && grams && grams->quantity && grams->quantity->low > 0
             && classes && classes->quantity && classes->quantity->low >= 1 && text_is(items_between(text, classes->next, NULL), "classes");
    const struct unit *unit = good ? build_unit(reading->builder, items_between(text, grams->next, from)) : NULL;
    if (!unit || unit->dimension != DIMENSION_MASS) {
        claim_complain(reading, FINDING_CLAIM_KIND, node->span);
        return;
    }
    kind->portions = (uint32_t)node->quantity.low;
    kind->portion_grams = grams->quantity->low * unit->factor.best;
    kind->portion_classes = (uint32_t)classes->quantity->low;
}

/* The kind around it, which stands before it. */
static uint32_t find_outer(const struct claim_reading *reading)
{
    uint32_t outer = claim_find_kind(reading->builder, reading->rules, claim_string(reading->builder, reading->node->items.first, 0));
    if (outer == NONE_INDEX)
        claim_complain(reading, FINDING_CLAIM_KIND, reading->node->span);
    return outer;
}

/* `kind "small food" { within "food"; reference amount up to 30 g; reference amount up to 30 ml }`. */
static void read_kind(struct builder *builder, const struct node *node, const struct rules *rules)
{
    char storage[64];
    struct claim_reading reading = { .builder = builder, .rules = rules };
    struct claim_kind kind = { .name = build_text(builder, claim_string(builder, node->items.first, 0)), .within = NONE_INDEX,
                               .source = build_text(builder, claim_source_within(builder, node)) };
    for (const struct node *at = node->body; at; at = at->next) {
        struct text words = build_words(builder, at->items.first, storage, sizeof storage);
        reading.node = at;
        if (text_is(words, "usual"))
            kind.is_usual = 1;
        else if (text_is(words, "within"))
            kind.within = find_outer(&reading);
        else if (text_is(words, "reference amount"))
            set_size(&reading, &kind, false);
        else if (text_is(words, "serving over"))
            set_size(&reading, &kind, true);
        else if (text_is(words, "serving at least"))
            set_least(&reading, &kind.least_serving_grams);
        else if (text_is(words, "reference amount at least"))
            set_least(&reading, &kind.least_reference_grams);
        else if (text_is(words, "at least"))
            set_portions(&reading, &kind);
        else if (text_is(words, "unchecked") && claim_string(builder, at->items.first, 0).length)
            kind.unchecked = build_text(builder, claim_string(builder, at->items.first, 0));
        else if (at->kind != NODE_SOURCE)
            claim_complain(&reading, FINDING_CLAIM_KIND, at->span);
    }
    uint32_t number = BUILD_ADD(builder, claim_kinds);
    if (number != NONE_INDEX)
        builder->claim_kinds[number] = kind;
}

/* `portion class "milk, yogurt and cheese" of milks, yogurts`; `portion class none of …` for what counts as no portion. */
static void read_portion_class(struct builder *builder, const struct node *node, const struct rules *rules)
{
    struct claim_reading reading = { .builder = builder, .node = node };
    struct text text = builder->declaration->text, name = claim_string(builder, node->items.first, 0);
    const struct item *of = items_find_word(text, node->items.first, "of");
    struct portion_class class = { .name = build_text(builder, name), .first_group = builder->references_count, .counts = name.length > 0 };
    if (!of || !of->next || (!name.length && !items_find_word(text, node->items.first, "none"))) {
        claim_complain(&reading, FINDING_CLAIM_CLASS, node->span);
        return;
    }
    for (uint32_t i = rules->first_portion_class; i < builder->portion_classes_count; i++) {
        if (class.counts && text_equal(build_string(builder, builder->portion_classes[i].name), name))     /* it would count as two */
            finding_add(builder->findings, FINDING_REPEATED_STATEMENT, build_place(builder, node->span), GAPS(name));
    }
    class.group_count += claim_add_group(&reading, items_between(text, of->next, NULL), node->span);
    for (const struct phrase *more = node->phrases.first; more; more = more->next)
        class.group_count += claim_add_group(&reading, build_written(builder, more->span), more->span);
    uint32_t number = BUILD_ADD(builder, portion_classes);
    if (number != NONE_INDEX)
        builder->portion_classes[number] = class;
}

/* The millilitres of one of the unit: the rules' own measure, else the library's. */
static double unit_ml(const struct builder *builder, const struct rules *rules, const struct unit *unit)
{
    for (uint32_t i = 0; i < rules->measure_count; i++) {
        const struct household_measure *measure = &builder->measures[rules->first_measure + i];
        if (build_unit(builder, build_string(builder, measure->unit)) == unit)
            return measure->ml;
    }
    return unit->factor.best;
}

/* `reference amount "soups" 245 g "21 CFR 101.12(b), read"`. */
static void read_reference(struct builder *builder, const struct node *node, const struct rules *rules)
{
    struct claim_reading reading = { .builder = builder, .node = node };
    struct text name = claim_string(builder, node->items.first, 0), words = build_unit_text(builder, node->unit.first);
    const struct unit *unit = build_unit(builder, words);
    struct text source = claim_string(builder, node->unit.first, 0);
    bool mass = unit && unit->dimension == DIMENSION_MASS, volume = unit && unit->dimension == DIMENSION_VOLUME;
    if (!name.length || (!mass && !volume) || !(node->quantity.low > 0) || !source.length) {
        claim_complain(&reading, FINDING_CLAIM_REFERENCE, node->span);
        return;
    }
    build_only_amount(builder, node);
    uint32_t number = BUILD_ADD(builder, reference_amounts);
    if (number == NONE_INDEX)
        return;
    builder->reference_amounts[number] = (struct reference_amount){
        .name = build_text(builder, name), .source = build_text(builder, source),
        .grams = mass ? node->quantity.low * unit->factor.best : 0, .ml = volume ? node->quantity.low * unit_ml(builder, rules, unit) : 0 };
    build_name(builder, SPACE_REFERENCE, name, build_place(builder, node->span), false, number);
}

/* `measure tbsp 15 ml "21 CFR 101.9(b)(5)(viii), second-hand"`. */
static void read_measure(struct builder *builder, const struct node *node)
{
    struct claim_reading reading = { .builder = builder, .node = node };
    struct text name = build_items_text(builder, node->items.first->next);
    double ml = node->quantity.low * build_factor(builder, node, node->unit.first, DIMENSION_VOLUME);
    if (!build_unit(builder, name) || !(ml > 0)) {
        claim_complain(&reading, FINDING_CLAIM_REFERENCE, node->span);
        return;
    }
    build_only_amount(builder, node);
    uint32_t number = BUILD_ADD(builder, measures);
    if (number != NONE_INDEX)
        builder->measures[number] = (struct household_measure){
            build_text(builder, name), build_text(builder, claim_string(builder, node->unit.first, 0)), ml };
}

/* `convert sodium to salt 2.5 "source"`. */
static void read_converted(struct builder *builder, const struct node *node, struct rules *rules)
{
    struct claim_reading reading = { .builder = builder, .node = node };
    const struct item *nutrient = node->items.first->next, *to = nutrient ? nutrient->next : NULL, *name = to ? to->next : NULL;
    struct text source = claim_string(builder, node->unit.first, 0);
    rules->converted_nutrient = nutrient ? build_nutrient(builder, build_written(builder, nutrient->span)) : NONE_INDEX;
    if (!name || rules->converted_nutrient == NONE_INDEX || node->quantity.kind != QUANTITY_NUMBER || node->quantity.low <= 0 || !source.length) {
        rules->converted_nutrient = NONE_INDEX;
        claim_complain(&reading, FINDING_CLAIM_CONDITION, node->span);
        return;
    }
    rules->converted = build_text(builder, build_written(builder, name->span));
    rules->converted_source = build_text(builder, source);
    rules->converted_factor = node->quantity.low;
}

/* ---- all of them ---- */

/* A claim that names another one must find it: `needs "low sodum"` is a slip. */
static void check_named(struct builder *builder, const struct node *node, uint32_t first_claim)
{
    char storage[128], key[KEY_BYTES];
    double share;
    for (const struct node *at = node->body; at; at = at->next) {
        struct text words = build_words(builder, at->items.first, storage, sizeof storage);
        bool names = at->kind == NODE_KNOWLEDGE && (text_is(words, "needs") || text_is(words, "compared fails") || text_is(words, "compared meets") || text_is(words, "unless"));
        if (at->has_body)
            check_named(builder, at, first_claim);
        if (!names)
            continue;
        struct text name = claim_string(builder, at->items.first, 0);
        struct text found = { key, claim_key(name, key, &share) };
        if (claim_find(builder, found, first_claim) == NONE_INDEX)
            finding_add(builder->findings, FINDING_CLAIM_NAMED, build_place(builder, at->span), GAPS(name));
    }
}

enum section_kind { READ_MEASURE, READ_CLASS, READ_KIND, READ_REFERENCE, READ_CLAIM, READ_TERM, READ_DISCLOSURE, READ_MARK, READ_NOTICE, READ_CONVERTED, READ_NONE };

static enum section_kind section_of(const struct builder *builder, const struct node *node)
{
    static const char *const starts[] = { "measure", "portion class", "kind", "reference amount", NULL, "term", "disclosure", "mark", "notice", "convert" };
    char storage[128];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    if (node->kind == NODE_CLAIM)
        return READ_CLAIM;
    for (uint32_t i = 0; i < COUNT_OF(starts) && node->kind == NODE_KNOWLEDGE; i++) {
        if (starts[i] && claim_words_start(words, starts[i]) && node->items.first->next)
            return (enum section_kind)i;
    }
    return READ_NONE;
}

bool claims_know(const struct builder *builder, const struct node *node)
{
    return section_of(builder, node) != READ_NONE;
}

static void read_section(struct builder *builder, const struct node *node, struct rules *rules, uint32_t number, enum section_kind kind)
{
    switch (kind) {
    case READ_MEASURE: read_measure(builder, node); break;
    case READ_CLASS: read_portion_class(builder, node, rules); break;
    case READ_KIND: read_kind(builder, node, rules); break;
    case READ_REFERENCE: read_reference(builder, node, rules); break;
    case READ_CLAIM: read_claim(builder, node, rules, number, CLAIM_SAID); break;
    case READ_TERM: read_claim(builder, node, rules, number, CLAIM_TERM); break;
    case READ_DISCLOSURE: read_claim(builder, node, rules, number, CLAIM_DISCLOSED); break;
    case READ_MARK: read_claim(builder, node, rules, number, CLAIM_MARKED); break;
    case READ_NOTICE: rules->notice = build_text(builder, claim_string(builder, node->items.first, 0)); break;
    case READ_CONVERTED:                /* read_conversion did it */
    case READ_NONE: break;
    }
}

void read_conversion(struct builder *builder, const struct node *node, struct rules *rules)
{
    for (const struct node *at = node->body; at; at = at->next) {
        if (section_of(builder, at) == READ_CONVERTED)
            read_converted(builder, at, rules);
    }
}

void read_claims(struct builder *builder, const struct node *node, struct rules *rules, uint32_t number)
{
    rules->first_measure = builder->measures_count;
    rules->first_portion_class = builder->portion_classes_count;
    rules->first_claim_kind = builder->claim_kinds_count;
    rules->first_reference_amount = builder->reference_amounts_count;
    rules->first_claim = builder->claims_count;
    for (int kind = READ_MEASURE; kind < READ_NONE; kind++) {       /* what others name is read before them */
        for (const struct node *at = node->body; at; at = at->next) {
            if (section_of(builder, at) == (enum section_kind)kind)
                read_section(builder, at, rules, number, (enum section_kind)kind);
        }
        rules->measure_count = builder->measures_count - rules->first_measure;
        rules->claim_kind_count = builder->claim_kinds_count - rules->first_claim_kind;
    }
    rules->portion_class_count = builder->portion_classes_count - rules->first_portion_class;
    rules->reference_amount_count = builder->reference_amounts_count - rules->first_reference_amount;
    rules->claim_count = builder->claims_count - rules->first_claim;
    for (const struct node *at = node->body; at; at = at->next) {
        if (section_of(builder, at) != READ_NONE && at->has_body)
            check_named(builder, at, rules->first_claim);
    }
}
