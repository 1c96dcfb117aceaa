/* Foods, labels and shelves. A food holds amounts per 100 g; a label holds, per serving, every amount that its
 * printed figures can stand for. */
#include <math.h>
#include <string.h>

#include "library/build.h"

/* ---- columns ---------------------------------------------------------------------------------------------------- */

struct making {
    struct builder *builder;
    uint32_t index, column_count, traced;
    struct food food;
    struct range inherent;
    bool has_inherent;
    enum origin origin;
};

static struct range *column(struct making *making, uint32_t number)
{
    return &making->builder->values[making->food.values + number];
}

static void set_column(struct making *making, uint32_t number, struct range amount)
{
    *column(making, number) = amount;
    making->food.known |= (uint64_t)1 << number;
}

static bool start_food(struct making *making, struct builder *builder)
{
    *making = (struct making){ .builder = builder, .index = BUILD_ADD(builder, foods), .origin = ORIGIN_COUNT };
    making->column_count = build_column_count(builder, &making->traced);
    making->food.group = NONE_INDEX;
    making->food.values = builder->values_count;
    for (uint32_t i = 0; i < making->column_count; i++) {
        if (BUILD_ADD(builder, values) == NONE_INDEX)
            return false;
    }
    making->food.first_portion = builder->portions_count;
    return making->index != NONE_INDEX;
}

static const struct group *group_at(const struct builder *builder, uint32_t number)
{
    uint32_t first = builder->base ? builder->base->group_first + builder->base->groups_count : 0;
    if (number >= first && number - first < builder->groups_count)
        return &builder->groups[number - first];
    return builder->base ? library_group_at(builder->base, number) : NULL;
}

/* What its group, or a group above it, says of origin and of `some`. */
static void take_from_groups(struct making *making)
{
    uint32_t number = making->food.group;
    for (uint32_t depth = 0; number != NONE_INDEX && depth < LIMIT_NESTING; depth++) {
        const struct group *group = group_at(making->builder, number);
        if (!group)
            return;
        if (making->origin == ORIGIN_COUNT)
            making->origin = (enum origin)group->origin;
        if (making->food.unmeasured_ml.high == 0)
            making->food.unmeasured_ml = group->unmeasured_ml;
        number = group->parent;
    }
}

/* The parts of the traced nutrient sum to its total at low, best and high; inherent is capped by the total. */
static void split_origins(struct making *making)
{
    uint32_t first = making->column_count - 1 - ORIGIN_COUNT;
    if (making->traced == NONE_INDEX || !(making->food.known >> making->traced & 1))
        return;
    struct range total = *column(making, making->traced), none = range_exact(0);
    struct range inherent = { fmin(making->inherent.low, total.low), fmin(making->inherent.best, total.best),
                              fmin(making->inherent.high, total.high) };
    struct range rest = { total.low - inherent.low, total.best - inherent.best, total.high - inherent.high };
    bool divided = making->has_inherent && making->origin != ORIGIN_COOK;
    enum origin whole = making->origin == ORIGIN_COUNT ? ORIGIN_UNSEPARATED : making->origin;
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        struct range share = divided ? i == ORIGIN_INHERENT ? inherent : i == ORIGIN_MAKER ? rest : none
                                     : i == (uint32_t)whole ? total : none;
        set_column(making, first + i, share);
    }
}

static void finish_food(struct making *making)
{
    struct builder *builder = making->builder;
    take_from_groups(making);
    split_origins(making);
    making->food.portion_count = builder->portions_count - making->food.first_portion;
    builder->foods[making->index] = making->food;
}

/* ---- nutrients ------------------------------------------------------------------------------------------------------ */

static void read_amount(struct making *making, const struct node *node)
{
    struct text name = build_items_text(making->builder, node->items.first);
    uint32_t nutrient = build_nutrient(making->builder, name);
    if (node->kind == NODE_BROKEN)
        return;
    if (nutrient == NONE_INDEX) {
        finding_add(making->builder->findings, FINDING_UNKNOWN_NUTRIENT, build_place(making->builder, node->span), GAPS(name));
        return;
    }
    if (node->quantity.kind == QUANTITY_BAD)
        return;
    if (node->quantity.kind != QUANTITY_NUMBER && node->quantity.kind != QUANTITY_RANGE) {
        build_unknown_statement(making->builder, node, "nutrients");
        return;
    }
    double factor = build_nutrient_factor(making->builder, node, nutrient, node->unit.first);
    if (factor > 0)
        set_column(making, nutrient, build_range(making->builder, &node->quantity, node->unit.first, factor));
}

/* `per 100 g { … }`: another mass is brought to 100 g. */
static void read_per(struct making *making, const struct node *node)
{
    double grams = node->quantity.low * build_factor(making->builder, node, node->unit.first, DIMENSION_MASS);
    for (const struct node *at = node->body; at; at = at->next)
        read_amount(making, at);
    if (grams <= 0 || grams == 100)
        return;
    for (uint32_t i = 0; i < making->column_count; i++)
        *column(making, i) = range_scale(*column(making, i), 100 / grams);
}

/* ---- portions -------------------------------------------------------------------------------------------------------- */

/* How many of the first words are a unit: the longest such run; 1 for a piece word of the food's own. */
static uint32_t unit_word_count(struct builder *builder, const struct text *words, uint32_t count,
                                const struct unit **unit)
{
    for (uint32_t k = count < 3 ? count : 3; k > 0; k--) {
        struct text run = { words[0].bytes, (uint32_t)(words[k - 1].bytes + words[k - 1].length - words[0].bytes) };
        *unit = build_unit(builder, run);
        if (*unit)
            return k;
    }
    return 1;
}

static bool is_own_unit(const struct builder *builder, const struct unit *unit)
{
    return unit >= builder->units && unit < builder->units + builder->units_count;
}

/* The key that a unit is compared by: that of its first name. */
static struct pack_text unit_key(struct builder *builder, const struct unit *unit, const struct text *words, uint32_t count)
{
    char key[KEY_BYTES];
    if (!unit)
        return build_text(builder, (struct text){ key, name_key(words, count, false, key) });
    struct text name = is_own_unit(builder, unit) ? build_string(builder, unit->name)
                                                  : library_text(builder->base, unit->name);
    return build_text(builder, (struct text){ key, name_key_of(name, false, key) });
}

static struct portion make_portion(struct builder *builder, const struct text *words, uint32_t count)
{
    char key[KEY_BYTES];
    const struct unit *unit = NULL;
    uint32_t taken = unit_word_count(builder, words, count, &unit);
    struct portion portion = { .unit = unit_key(builder, unit, words, taken) };
    portion.state = build_text(builder, (struct text){ key, name_key(words + taken, count - taken, false, key) });
    if (unit && unit->dimension == DIMENSION_VOLUME)
        portion.volume_ml = unit->factor.best;
    return portion;
}

static void add_portion(struct builder *builder, struct portion portion)
{
    uint32_t number = BUILD_ADD(builder, portions);
    if (number != NONE_INDEX)
        builder->portions[number] = portion;
}

static void read_portion(struct making *making, const struct node *node)
{
    struct builder *builder = making->builder;
    struct text words[LIMIT_NAME_WORDS];
    uint32_t count = name_words(builder->declaration->text, node->items.first, words, LIMIT_NAME_WORDS);
    double factor = build_factor(builder, node, node->unit.first, DIMENSION_MASS);
    if (count == 0 || factor <= 0 || node->quantity.low <= 0 || node->quantity.kind != QUANTITY_NUMBER)
        return;
    struct portion portion = make_portion(builder, words, count);
    portion.grams = build_range(builder, &node->second, node->unit.first, factor / node->quantity.low);
    add_portion(builder, portion);
}

/* ---- foods -------------------------------------------------------------------------------------------------------------- */

static bool starts_with(struct text words, const char *start)
{
    uint32_t length = (uint32_t)strlen(start);
    return words.length > length && memcmp(words.bytes, start, length) == 0;
}

static struct text rest_of(struct builder *builder, const struct node *node, uint32_t skipped)
{
    const struct item *item = node->items.first;
    for (; item && skipped > 0; skipped--)
        item = item->next;
    return build_items_text(builder, item);
}

static void read_inherent(struct making *making, const struct node *node)
{
    uint32_t nutrient = build_nutrient(making->builder, rest_of(making->builder, node, 1));
    if (nutrient == NONE_INDEX || nutrient != making->traced) {
        build_unknown_statement(making->builder, node, "food");
        return;
    }
    double factor = build_nutrient_factor(making->builder, node, nutrient, node->unit.first);
    making->inherent = build_range(making->builder, &node->quantity, node->unit.first, factor);
    making->has_inherent = factor > 0;
}

static void read_grains(struct making *making, const struct node *node)
{
    making->food.first_grain = build_text_number(making->builder, rest_of(making->builder, node, 1));
    making->food.grain_count = 1;
    for (const struct phrase *more = node->phrases.first; more; more = more->next) {
        build_text_number(making->builder, build_written(making->builder, more->span));
        making->food.grain_count++;
    }
}

static void read_density(struct making *making, const struct node *node)
{
    making->food.density = build_range(making->builder, &node->quantity, node->unit.first, 1);
}

static void read_unmeasured(struct making *making, const struct node *node)
{
    double factor = build_factor(making->builder, node, node->unit.first, DIMENSION_VOLUME);
    making->food.unmeasured_ml = range_between(0, node->quantity.high * factor);
}

struct state_words {
    const char *words;
    enum food_state state;
    uint32_t flag;
};

static const struct state_words state_words[] = {
    { "as whole can", FOOD_WHOLE_CAN, 0 },  { "as drained", FOOD_DRAINED, 0 },
    { "basis not stated", FOOD_STATE_NOT_STATED, 0 }, { "usual salted", FOOD_PLAIN, FOOD_USUALLY_SALTED },
    { "replaces", FOOD_PLAIN, FOOD_REPLACES }, { "in this order", FOOD_PLAIN, 0 },
};

static bool read_state(struct making *making, struct text words)
{
    for (uint32_t i = 0; i < COUNT_OF(state_words); i++) {
        if (!text_is(words, state_words[i].words))
            continue;
        if (state_words[i].state != FOOD_PLAIN)
            making->food.state = state_words[i].state;
        making->food.flags |= state_words[i].flag;
        return true;
    }
    return false;
}

static enum origin read_food_origin(struct text words)
{
    return text_is(words, "origin cook-added") ? ORIGIN_COOK : text_is(words, "origin maker-added") ? ORIGIN_MAKER
                                                                                                 : ORIGIN_INHERENT;
}

static void read_food_words(struct making *making, const struct node *node)
{
    char storage[256];
    struct text words = build_words(making->builder, node->items.first, storage, sizeof storage);
    if (read_state(making, words))
        return;
    if (starts_with(words, "inherent "))
        read_inherent(making, node);
    else if (starts_with(words, "milder "))
        making->food.milder = build_text(making->builder, rest_of(making->builder, node, 1));
    else if (starts_with(words, "grains "))
        read_grains(making, node);
    else if (starts_with(words, "origin "))
        making->origin = read_food_origin(words);
    else if (text_is(words, "density"))
        read_density(making, node);
    else if (text_is(words, "unmeasured"))
        read_unmeasured(making, node);
    else
        build_unknown_statement(making->builder, node, "food");
}

static void read_food_group(struct making *making, const struct node *node)
{
    struct text name = build_items_text(making->builder, node->items.first);
    making->food.group = build_find(making->builder, SPACE_GROUP, name);
    if (making->food.group == NONE_INDEX)
        finding_add(making->builder->findings, FINDING_UNKNOWN_GROUP, build_place(making->builder, node->span), GAPS(name));
}

static void read_source(struct making *making, const struct node *node)
{
    const struct item *string = build_string_item(node->items.first);
    if (string)
        making->food.source = build_text(making->builder, build_written(making->builder, string->span));
}

static void read_food_statement(struct making *making, const struct node *node)
{
    switch (node->kind) {
    case NODE_ALSO: break;                              /* names are given once the food stands */
    case NODE_PER: read_per(making, node); break;
    case NODE_PORTION: read_portion(making, node); break;
    case NODE_GROUP: read_food_group(making, node); break;
    case NODE_SOURCE: read_source(making, node); break;
    case NODE_KNOWLEDGE: read_food_words(making, node); break;
    default: build_unknown_statement(making->builder, node, "food");
    }
}

static bool says_in_order(const struct builder *builder, const struct node *node)
{
    char storage[32];
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_KNOWLEDGE
            && text_is(build_words(builder, at->items.first, storage, sizeof storage), "in this order"))
            return true;
    }
    return false;
}

static void name_food(struct builder *builder, const struct node *node, enum name_space space, uint32_t index, bool ordered)
{
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind != NODE_ALSO)
            continue;
        build_name(builder, space, build_items_text(builder, at->items.first), build_place(builder, at->span), ordered, index);
        for (const struct phrase *more = at->names.first; more; more = more->next)
            build_name(builder, space, build_written(builder, more->span), build_place(builder, more->span), ordered, index);
    }
}

void read_food(struct builder *builder, const struct node *node)
{
    struct making making;
    struct text name = build_items_text(builder, node->items.first);
    bool ordered = says_in_order(builder, node);
    if (!start_food(&making, builder))
        return;
    making.food.name = build_text(builder, name);
    making.food.place = build_place(builder, node->span);
    set_column(&making, making.column_count - 1, range_exact(100));
    for (const struct node *at = node->body; at; at = at->next)
        read_food_statement(&making, at);
    finish_food(&making);
    build_name(builder, SPACE_FOOD, name, build_place(builder, node->items.first ? node->items.first->span : node->span),
               ordered, making.index);
    name_food(builder, node, SPACE_FOOD, making.index, ordered);
}

void read_shelf(struct builder *builder, const struct node *node)
{
    struct text name = build_items_text(builder, node->items.first->next);
    uint32_t index = BUILD_ADD(builder, shelves);
    struct shelf shelf = { .name = build_text(builder, name), .first_kind = builder->texts_count };
    if (index == NONE_INDEX)
        return;
    build_name(builder, SPACE_SHELF, name, build_place(builder, node->span), false, index);
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_ALSO) {
            build_name(builder, SPACE_SHELF, build_items_text(builder, at->items.first), build_place(builder, at->span), false, index);
            continue;
        }
        build_text_number(builder, build_written(builder, at->span));
        shelf.kind_count++;
    }
    builder->shelves[index] = shelf;
}

/* ---- labels --------------------------------------------------------------------------------------------------------------- */

static const struct rounding *rounding_for(struct making *making, uint32_t nutrient)
{
    return rules_rounding(making->builder->label_rules_owner, making->builder->label_rules, nutrient, false);
}

/* The metric part of a serving is rounded, too. */
static struct range printed_measure(struct making *making, double printed)
{
    struct range amounts = range_exact(printed);
    const struct rounding *rounding = rounding_for(making, ROUNDING_SERVING_MASS);
    if (rounding)
        rounding_invert(making->builder->label_rules_owner, rounding, printed, &amounts);
    return amounts;
}

static void take_metric(struct making *making, const struct node *node, double number, struct text written)
{
    const struct unit *unit = build_unit(making->builder, written);
    struct range amounts = unit ? range_scale(printed_measure(making, number * unit->factor.best), 1) : range_exact(0);
    if (unit && unit->dimension == DIMENSION_MASS)
        making->food.serving_grams = amounts;
    else if (unit && unit->dimension == DIMENSION_VOLUME)
        making->food.serving_ml = amounts;
    else
        finding_add(making->builder->findings, FINDING_WRONG_UNIT, build_place(making->builder, node->span),
                    GAPS(written, text_of("mass or volume")));
}

/* `serving 1 cup (240 ml)`: the figure in parentheses. */
static void take_metric_group(struct making *making, const struct node *node)
{
    for (const struct item *item = node->unit.first; item; item = item->next) {
        if (item->kind == ITEM_GROUP && item->inside && item->inside->kind == ITEM_NUMBER)
            take_metric(making, node, item->inside->quantity->low, build_unit_text(making->builder, item->inside->next));
    }
}

/* `serving 1 cup = 240 ml`, `serving 30 g`, `serving 2 slices (56 g)`. */
static void read_serving(struct making *making, const struct node *node)
{
    struct builder *builder = making->builder;
    struct text words[LIMIT_NAME_WORDS], written = build_unit_text(builder, node->unit.first);
    uint32_t count = name_split(written, words, LIMIT_NAME_WORDS);
    const struct unit *unit = build_unit(builder, written);
    if (node->quantity.low <= 0 || count == 0) {
        build_unknown_statement(builder, node, "label");
        return;
    }
    if (unit && unit->dimension == DIMENSION_MASS) {
        take_metric(making, node, node->quantity.low, written);
    } else {
        struct portion portion = make_portion(builder, words, count);
        portion.grams = range_exact(1 / node->quantity.low);
        add_portion(builder, portion);
    }
    if (node->second.kind == QUANTITY_NUMBER)
        take_metric(making, node, node->second.low, build_unit_text(builder, node->per.first));
    take_metric_group(making, node);
}

static void read_servings(struct making *making, const struct node *node)
{
    struct range amounts = range_exact(node->quantity.low);
    const struct rounding *rounding = rounding_for(making, ROUNDING_SERVINGS);
    if (rounding && node->quantity.low > 0)
        rounding_invert(making->builder->label_rules_owner, rounding, node->quantity.low, &amounts);
    making->food.servings = amounts;
}

static void invert_figure(struct making *making, const struct node *node, uint32_t nutrient, double printed, bool less)
{
    struct builder *builder = making->builder;
    const struct rounding *rounding = rounding_for(making, nutrient);
    struct range amounts = less ? range_between(0, printed) : range_exact(printed);
    struct text text = build_written(builder, node->span);
    bool good = less || !rounding || rounding_invert(builder->label_rules_owner, rounding, printed, &amounts);
    if (less && rounding)
        good = amount_compare(rounding->less_than, printed) == 0;
    if (!rounding)
        finding_add(builder->findings, FINDING_LABEL_NO_RULE, build_place(builder, node->span), GAPS(text));
    else if (!good)
        finding_add(builder->findings, FINDING_LABEL_FIGURE, build_place(builder, node->span), GAPS(text));
    set_column(making, nutrient, amounts);
}

static struct text cut_less_than(struct text words, bool *less)
{
    static const char ending[] = " less than";
    uint32_t size = sizeof ending - 1;
    *less = words.length > size && memcmp(words.bytes + words.length - size, ending, size) == 0;
    words.length -= *less ? size : 0;
    return words;
}

static void read_printed(struct making *making, const struct node *node)
{
    char storage[256];
    bool less;
    struct builder *builder = making->builder;
    struct text words = cut_less_than(build_words(builder, node->items.first, storage, sizeof storage), &less);
    uint32_t nutrient = build_nutrient(builder, words);
    if (nutrient == NONE_INDEX) {
        finding_add(builder->findings, FINDING_UNKNOWN_NUTRIENT, build_place(builder, node->span), GAPS(words));
        return;
    }
    if (node->quantity.kind != QUANTITY_NUMBER) {
        if (node->quantity.kind != QUANTITY_BAD)
            build_unknown_statement(builder, node, "label");
        return;
    }
    double factor = build_nutrient_factor(builder, node, nutrient, node->unit.first);
    if (factor > 0)
        invert_figure(making, node, nutrient, node->quantity.low * factor, less);
}

static void read_label_words(struct making *making, const struct node *node)
{
    char storage[256];
    struct text words = build_words(making->builder, node->items.first, storage, sizeof storage);
    if (text_is(words, "serving") || text_is(words, "serving about"))
        read_serving(making, node);
    else if (text_is(words, "servings") || text_is(words, "servings about"))
        read_servings(making, node);
    else if (starts_with(words, "origin ") || starts_with(words, "inherent ") || text_is(words, "density")
             || read_state(making, words))
        read_food_words(making, node);
    else
        read_printed(making, node);
}

static void read_label_statement(struct making *making, const struct node *node)
{
    switch (node->kind) {
    case NODE_ALSO:
    case NODE_NOTE: break;
    case NODE_PORTION: read_portion(making, node); break;
    case NODE_GROUP: read_food_group(making, node); break;
    case NODE_SOURCE: read_source(making, node); break;
    case NODE_KNOWLEDGE: read_label_words(making, node); break;
    default: build_unknown_statement(making->builder, node, "label");
    }
}

void read_label(struct builder *builder, const struct node *node)
{
    struct making making;
    const struct item *title = build_string_item(node->items.first);
    struct text name = title ? build_written(builder, title->span) : build_items_text(builder, node->items.first);
    struct place place = build_place(builder, title ? title->span : node->span);
    if (!start_food(&making, builder))
        return;
    making.food.name = build_text(builder, name);
    making.food.place = place;
    making.food.basis = FOOD_PER_SERVING;
    making.food.flags = FOOD_IS_LABEL;
    making.food.source = build_text(builder, text_of("package label"));
    for (const struct node *at = node->body; at; at = at->next)
        read_label_statement(&making, at);
    if (making.food.serving_grams.high > 0)
        set_column(&making, making.column_count - 1, making.food.serving_grams);
    finish_food(&making);
    if (!title)
        finding_add(builder->findings, FINDING_UNQUOTED_TITLE, place, GAPS(text_of("label"), name));
    build_name(builder, SPACE_LABEL, name, place, true, making.index);
    name_food(builder, node, SPACE_LABEL, making.index, true);
}
