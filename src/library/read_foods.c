/* Foods and shelves. A food holds amounts per 100 g, and says what its measures weigh. */
#include <string.h>

#include "library/making.h"

/* ---- columns ---------------------------------------------------------------------------------------------------- */

struct range *making_column(struct making *making, uint32_t number)
{
    return &making->builder->values[making->food.values + number];
}

void making_set_column(struct making *making, uint32_t number, struct range amount)
{
    *making_column(making, number) = amount;
    making->food.known |= (uint64_t)1 << number;
}

bool making_start(struct making *making, struct builder *builder)
{
    *making = (struct making){ .builder = builder, .index = BUILD_ADD(builder, foods), .origin = ORIGIN_COUNT };
    making->column_count = build_column_count(builder, &making->traced);
    making->food.group = NONE_INDEX;
    making->food.values = builder->values_count;
    for (uint32_t i = 0; i < making->column_count; i++) {
        if (BUILD_ADD(builder, values) == NONE_INDEX)
            return false;
    }
    making->food.varied = making->food.tolerated = making->food.values;
    making->food.first_listed = builder->listed_count;
    making->food.refuse = range_exact(-1);
    making->food.first_grain = builder->texts_count;
    making->food.first_portion = builder->portions_count;
    making->food.first_spread = builder->spreads_count;
    return making->index != NONE_INDEX;
}

/* What its group, or a group above it, says of origin and of `some`. */
static void take_from_groups(struct making *making)
{
    uint32_t number = making->food.group;
    for (uint32_t depth = 0; number != NONE_INDEX && depth < LIMIT_GROUP_DEPTH; depth++) {
        const struct group *group = build_group_at(making->builder, number);
        if (!group)
            return;
        if (making->origin == ORIGIN_COUNT)
            making->origin = (enum origin)group->origin;
        if (making->food.unmeasured_ml.high == 0)
            making->food.unmeasured_ml = group->unmeasured_ml;
        number = group->parent;
    }
}

/* The parts of the traced nutrient sum to its total at best. Its own part and the total are two figures, so what the maker
 * added is most where the total is high and its own low. Inherent is capped by the total. */
void making_split_origins(struct making *making)
{
    uint32_t first = making->column_count - 1 - ORIGIN_COUNT;
    if (making->traced == NONE_INDEX || !(making->food.known >> making->traced & 1))
        return;
    struct range total = *making_column(making, making->traced), none = range_exact(0);
    struct range inherent = range_of(amount_smaller(making->inherent.low, total.low),
                                     amount_smaller(making->inherent.best, total.best),
                                     amount_smaller(making->inherent.high, total.high));
    struct range rest = range_without(total, making->inherent);
    bool divided = making->has_inherent && making->origin != ORIGIN_COOK;
    enum origin whole = making->origin == ORIGIN_COUNT ? ORIGIN_UNSEPARATED : making->origin;
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        struct range share = divided ? i == ORIGIN_INHERENT ? inherent : i == ORIGIN_MAKER ? rest : none
                                     : i == (uint32_t)whole ? total : none;
        making_set_column(making, first + i, share);
    }
}

void making_finish(struct making *making)
{
    struct builder *builder = making->builder;
    take_from_groups(making);
    making_split_origins(making);
    making_widen(making);
    making->food.portion_count = builder->portions_count - making->food.first_portion;
    builder->foods[making->index] = making->food;
}

/* ---- nutrients ------------------------------------------------------------------------------------------------------ */

bool making_is_new(struct making *making, const struct node *node, uint32_t nutrient)
{
    bool is_new = !(making->food.known >> nutrient & 1), is_computed = making->computed >> nutrient & 1;
    if (is_computed)
        finding_add(making->builder->findings, FINDING_COMPUTED_FIGURE, build_place(making->builder, node->span),
                    GAPS(build_items_text(making->builder, node->items.first)));
    else if (!is_new)
        finding_add(making->builder->findings, FINDING_REPEATED_STATEMENT, build_place(making->builder, node->span),
                    GAPS(build_items_text(making->builder, node->items.first)));
    return is_new;
}

/* 100 g of a food cannot hold more than 100 g of anything, 250 g not more than 250 g; energies are not weighed. */
static bool is_possible(struct making *making, const struct node *node, uint32_t nutrient, struct range amount,
                        double grams)
{
    const struct nutrient *found = build_nutrient_at(making->builder, nutrient);
    struct text unit = build_nutrient_unit(making->builder, nutrient);
    if (text_is(unit, "kcal") || amount_compare(amount.best * found->unit_factor, grams) <= 0)
        return true;
    finding_add(making->builder->findings, FINDING_FIGURE_SENSELESS, build_place(making->builder, node->span),
                GAPS(build_written(making->builder, node->span)));
    return false;
}

static void read_amount(struct making *making, const struct node *node, double grams)
{
    struct text name = build_items_text(making->builder, node->items.first);
    if (node->kind == NODE_BROKEN)
        return;
    uint32_t nutrient = build_known(making->builder, node, SPACE_NUTRIENT, name);
    if (nutrient == NONE_INDEX)
        return;
    if (node->quantity.kind == QUANTITY_BAD)
        return;
    if (node->quantity.kind != QUANTITY_NUMBER && node->quantity.kind != QUANTITY_RANGE) {
        build_unknown_statement(making->builder, node, "nutrients");
        return;
    }
    double factor = build_nutrient_factor(making->builder, node, nutrient, node->unit.first);
    struct range amount = build_range(making->builder, &node->quantity, node->unit.first, factor);
    if (factor > 0 && build_only_amount(making->builder, node) && making_is_new(making, node, nutrient)
        && is_possible(making, node, nutrient, amount, grams))
        making_set_column(making, nutrient, amount);
}

/* `per 100 g { … }`: another mass is brought to 100 g, and a further block says nothing of what stood before it. */
static void read_per(struct making *making, const struct node *node)
{
    uint64_t before = making->food.known;
    if (node->quantity.kind == QUANTITY_BAD)
        return;
    double grams = node->quantity.low * build_factor(making->builder, node, node->unit.first, DIMENSION_MASS);
    if (grams <= 0) {               /* a wrong unit has been told of */
        if (node->quantity.low <= 0)
            finding_add(making->builder->findings, FINDING_FIGURE_SENSELESS, build_place(making->builder, node->span),
                        GAPS(text_of("per 0")));
        return;
    }
    for (const struct node *at = node->body; at; at = at->next)
        read_amount(making, at, grams);
    if (grams == 100)
        return;
    for (uint32_t i = 0; i < making->column_count; i++) {
        if (!((before | making->computed) >> i & 1))
            *making_column(making, i) = range_scale(*making_column(making, i), 100 / grams);
    }
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

struct portion making_portion(struct builder *builder, const struct text *words, uint32_t count)
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

void making_add_portion(struct builder *builder, struct portion portion)
{
    uint32_t number = BUILD_ADD(builder, portions);
    if (number != NONE_INDEX)
        builder->portions[number] = portion;
}

void making_read_portion(struct making *making, const struct node *node)
{
    struct builder *builder = making->builder;
    if (builder->portions_count - making->food.first_portion >= LIMIT_PORTIONS) {
        if (!making->told_portions)
            finding_add(builder->findings, FINDING_TOO_MANY_PORTIONS, build_place(builder, node->span), NO_GAPS);
        making->told_portions = true;
        return;
    }
    struct text words[LIMIT_NAME_WORDS + 1];
    uint32_t count = name_words(builder->declaration->text, node->items.first, words, COUNT_OF(words));
    if (count > LIMIT_NAME_WORDS) {
        finding_add(builder->findings, FINDING_NAME_TOO_LONG, build_place(builder, node->span), GAPS(build_items_text(builder, node->items.first)));
        return;
    }
    double factor = build_factor(builder, node, node->unit.first, DIMENSION_MASS);
    if (count == 0 || factor <= 0 || node->quantity.kind == QUANTITY_BAD || node->second.kind == QUANTITY_BAD
        || !build_only_amount(builder, node))
        return;
    if (node->quantity.low <= 0 || node->quantity.kind != QUANTITY_NUMBER || node->second.low <= 0) {
        finding_add(builder->findings, FINDING_FIGURE_SENSELESS, build_place(builder, node->span),
                    GAPS(build_written(builder, node->span)));
        return;
    }
    struct portion portion = making_portion(builder, words, count);
    portion.grams = build_range(builder, &node->second, node->unit.first, factor / node->quantity.low);
    portion.source = build_text(builder, build_quoted(builder, node->unit.first));
    making_add_portion(builder, portion);
}

/* ---- foods -------------------------------------------------------------------------------------------------------------- */

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
    double factor = build_only_amount(making->builder, node) ? build_nutrient_factor(making->builder, node, nutrient, node->unit.first) : 0;
    making->inherent = build_range(making->builder, &node->quantity, node->unit.first, factor);
    making->has_inherent = factor > 0;
}

static void read_milder(struct making *making, const struct node *node)
{
    build_only_words(making->builder, node);
    making->food.milder = build_text(making->builder, rest_of(making->builder, node, 1));
}

static void read_grains(struct making *making, const struct node *node)
{
    build_text_number(making->builder, rest_of(making->builder, node, 1));
    making->food.grain_count++;
    for (const struct phrase *more = node->phrases.first; more; more = more->next) {
        build_text_number(making->builder, build_written(making->builder, more->span));
        making->food.grain_count++;
    }
}

static void read_density(struct making *making, const struct node *node)
{
    struct text unit = build_unit_text(making->builder, node->unit.first);
    if (!text_is(unit, "g per ml") || node->quantity.is_percent || node->quantity.low <= 0 || !build_only_amount(making->builder, node)) {
        finding_add(making->builder->findings, FINDING_WRONG_UNIT, build_place(making->builder, node->span),
                    GAPS(unit, text_of("density; write it in g per ml")));
        return;
    }
    making->food.density = build_range(making->builder, &node->quantity, node->unit.first, 1);
}

/* What stands behind the comma of `refuse 36% peel, weighed with it`; REFUSE_KINDS: nothing that is known. */
static enum refuse_kind find_refuse_kind(const struct builder *builder, const struct phrase *phrase)
{
    static const char *const words[REFUSE_KINDS] = { "", "weighed with it", "weighed with or without it", "seldom weighed with it", "may be eaten" };
    char storage[64];
    struct text written = phrase ? build_words(builder, phrase->items, storage, sizeof storage) : text_of("");
    enum refuse_kind kind = REFUSE_IF_SAID;
    while (kind < REFUSE_KINDS && !text_is(written, words[kind]))
        kind++;
    return phrase && phrase->next ? REFUSE_KINDS : kind;
}

/* Behind the percents stand a range, what it is in words, and a source, each once and in this order. */
static bool is_refuse(const struct item *item)
{
    if (item && item->kind == ITEM_GROUP)
        item = item->next;
    while (item && item->kind == ITEM_WORD)
        item = item->next;
    return !item || (item->kind == ITEM_STRING && !item->next);
}

/* `refuse 32% (27% to 40%) bone "source", weighed with it`: what of the food as bought nobody eats. */
static void read_refuse(struct making *making, const struct node *node)
{
    struct builder *builder = making->builder;
    bool counted = node->quantity.kind == QUANTITY_NUMBER || node->quantity.kind == QUANTITY_RANGE;
    struct range share = build_range(builder, &node->quantity, node->unit.first, 1);
    enum refuse_kind kind = find_refuse_kind(builder, node->phrases.first);
    if (!counted || !node->quantity.is_percent || share.high >= 1 || kind == REFUSE_KINDS) {
        finding_add(builder->findings, FINDING_FIGURE_SENSELESS, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
        return;
    }
    if (!is_refuse(node->unit.first)) {
        finding_add(builder->findings, FINDING_EXTRA_WORDS, build_place(builder, node->span), GAPS(build_items_text(builder, node->unit.first)));
        return;
    }
    making->food.refuse = share;
    making->food.refuse_kind = kind;
    making->food.refuse_source = build_text(builder, build_quoted(builder, node->unit.first));
    for (const struct item *item = node->unit.first; item; item = item->next) {
        if (item->kind == ITEM_WORD)
            making->food.refuse_what = build_text(builder, build_unit_text(builder, item));
        if (item->kind == ITEM_WORD)
            break;
    }
}

static void read_unmeasured(struct making *making, const struct node *node)
{
    if (!build_only_amount(making->builder, node))
        return;
    double factor = build_factor(making->builder, node, node->unit.first, DIMENSION_VOLUME);
    making->food.unmeasured_ml = node->quantity.kind == QUANTITY_BAD ? range_exact(0) : range_between(0, node->quantity.high * factor);
}

struct state_words {
    const char *words;
    enum food_state state;
    uint32_t flag;
};

static const struct state_words state_words[] = {
    { "as whole can", FOOD_WHOLE_CAN, 0 },  { "as drained", FOOD_DRAINED, 0 },
    { "basis not stated", FOOD_STATE_NOT_STATED, 0 }, { "usual salted", FOOD_PLAIN, FOOD_USUALLY_SALTED },
    { "instead of the library's", FOOD_PLAIN, FOOD_INSTEAD }, { "in this order", FOOD_PLAIN, 0 },
};

bool making_read_state(struct making *making, const struct node *node, struct text words)
{
    for (uint32_t i = 0; i < COUNT_OF(state_words); i++) {
        if (!text_is(words, state_words[i].words))
            continue;
        build_only_words(making->builder, node);
        if (state_words[i].state != FOOD_PLAIN && making->food.state != FOOD_PLAIN && making->food.state != (uint32_t)state_words[i].state)
            finding_add(making->builder->findings, FINDING_CONTRADICTING, build_place(making->builder, node->span),
                        GAPS(build_written(making->builder, node->span)));
        if (state_words[i].state != FOOD_PLAIN)
            making->food.state = state_words[i].state;
        making->food.flags |= state_words[i].flag;
        return true;
    }
    return false;
}

void making_read_words(struct making *making, const struct node *node)
{
    char storage[256];
    struct text words = build_words(making->builder, node->items.first, storage, sizeof storage);
    if (text_is(words, "replaces")) {
        build_former_word(making->builder, node->items.first, "instead of the library's");
        making->food.flags |= FOOD_INSTEAD;
        return;
    }
    if (making_read_state(making, node, words))
        return;
    if (text_starts(words, "inherent "))
        read_inherent(making, node);
    else if (text_starts(words, "milder "))
        read_milder(making, node);
    else if (text_starts(words, "grains "))
        read_grains(making, node);
    else if (text_starts(words, "origin "))
        making->origin = build_origin(making->builder, node);
    else if (text_is(words, "density"))
        read_density(making, node);
    else if (text_starts(words, "measured "))
        making_read_spread(making, node);
    else if (text_is(words, "refuse"))
        read_refuse(making, node);
    else if (text_is(words, "unmeasured"))
        read_unmeasured(making, node);
    else
        build_unknown_statement(making->builder, node, "food");
}

void making_read_group(struct making *making, const struct node *node)
{
    struct text name = build_items_text(making->builder, node->items.first);
    making->food.group = build_find(making->builder, SPACE_GROUP, name);
    if (making->food.group == NONE_INDEX)
        finding_add(making->builder->findings, FINDING_UNKNOWN_GROUP, build_place(making->builder, node->span), GAPS(name));
}

void making_read_source(struct making *making, const struct node *node)
{
    const struct item *string = build_string_item(node->items.first);
    if (string)
        making->food.source = build_text(making->builder, build_written(making->builder, string->span));
}

void making_read_statement(struct making *making, const struct node *node)
{
    switch (node->kind) {
    case NODE_ALSO: break;                              /* names are given once the food stands */
    case NODE_PER: read_per(making, node); break;
    case NODE_PORTION: making_read_portion(making, node); break;
    case NODE_GROUP: making_read_group(making, node); break;
    case NODE_SOURCE: making_read_source(making, node); break;
    case NODE_KNOWLEDGE: making_read_words(making, node); break;
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

void making_name(struct builder *builder, const struct node *node, enum name_space space, uint32_t index, bool ordered)
{
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind != NODE_ALSO)
            continue;
        build_name(builder, space, build_items_text(builder, at->items.first), build_place(builder, at->span), ordered, index);
        for (const struct phrase *more = at->names.first; more; more = more->next)
            build_name(builder, space, build_written(builder, more->span), build_place(builder, more->span), ordered, index);
    }
}

bool making_open(struct making *making, struct builder *builder, const struct node *node, const struct item *name)
{
    if (!making_start(making, builder))
        return false;
    making->food.name = build_text(builder, build_items_text(builder, name));
    making->food.place = build_place(builder, node->span);
    making_set_column(making, making->column_count - 1, range_exact(100));
    return true;
}

void making_close(struct making *making, const struct node *node, const struct item *name)
{
    struct builder *builder = making->builder;
    bool ordered = says_in_order(builder, node);
    making_finish(making);
    build_name(builder, SPACE_FOOD, build_items_text(builder, name), build_place(builder, name ? name->span : node->span),
               ordered, making->index);
    making_name(builder, node, SPACE_FOOD, making->index, ordered);
}

void read_food(struct builder *builder, const struct node *node)
{
    struct making making;
    if (!making_open(&making, builder, node, node->items.first))
        return;
    for (const struct node *at = node->body; at; at = at->next)
        making_read_statement(&making, at);
    making_close(&making, node, node->items.first);
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
