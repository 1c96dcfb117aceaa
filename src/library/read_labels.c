/* Package labels: per serving, every amount that a printed figure can stand for under the rules in force. */
#include <math.h>
#include <string.h>

#include "library/label.h"

/* How a figure is rounded, and in which library that stands. */
struct rounded {
    const struct rounding *rounding;        /* NULL: nothing tells */
    const struct library *owner;
    struct text stand_in;                   /* the rules that tell it, where those in force do not; else empty */
};

/* By the rules in force; where they are silent, by those that they name for it, else by the usual ones: a printed figure
 * must not pass for an exact one. */
static struct rounded rounding_for(struct making *making, uint32_t nutrient)
{
    char key[KEY_BYTES];
    const struct rules *rules = making->builder->label_rules;
    struct rounded rounded = { NULL, making->builder->label_rules_owner, { "", 0 } };
    struct text usual = text_of(USUAL_RULES), named = rules ? library_text(rounded.owner, rules->labels_as) : usual;
    struct text others[] = { named.length ? named : usual, usual };
    rounded.rounding = rules_rounding(rounded.owner, rules, nutrient, false);
    for (uint32_t i = 0; i < COUNT_OF(others) && !rounded.rounding; i++) {
        rules = making->builder->base ? library_rules(making->builder->base, (struct text){ key, name_key_of(others[i], false, key) }, &rounded.owner) : NULL;
        rounded.rounding = rules_rounding(rounded.owner, rules, nutrient, false);
        rounded.stand_in = rounded.rounding && !(i == 0 && named.length) ? others[i] : text_of("");
    }
    return rounded;
}

/* The metric part of a serving is rounded, too. */
static struct range printed_measure(struct making *making, double printed)
{
    struct range amounts = range_exact(printed);
    struct rounded rounded = rounding_for(making, ROUNDING_SERVING_MASS);
    if (rounded.rounding)
        rounding_invert(rounded.owner, rounded.rounding, printed, &amounts);
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
        if (item->kind == ITEM_GROUP && item->inside && item->inside->kind == ITEM_NUMBER && item->inside->quantity->kind != QUANTITY_BAD)
            take_metric(making, node, item->inside->quantity->low, build_unit_text(making->builder, item->inside->next));
    }
}

/* `serving 1 cup = 240 ml`, `serving 30 g`, `serving 2 slices (56 g)`. */
/* Behind the measure of a serving stands at most its metric part in parentheses. */
static bool behind_measure(const struct item *item)
{
    while (item && item->kind == ITEM_WORD)
        item = item->next;
    return item && (item->kind != ITEM_GROUP || item->next);
}

static void read_serving(struct making *making, const struct node *node)
{
    struct builder *builder = making->builder;
    struct text words[LIMIT_NAME_WORDS + 1], written = build_unit_text(builder, node->unit.first);
    uint32_t count = name_split(written, words, COUNT_OF(words));
    const struct unit *unit = build_unit(builder, written);
    bool again = making->food.serving_grams.high > 0 || making->food.serving_ml.high > 0
              || builder->portions_count > making->food.first_portion;
    if (node->quantity.kind == QUANTITY_BAD || node->second.kind == QUANTITY_BAD)
        return;                                     /* told; and nothing is computed with it */
    if (node->quantity.low <= 0 || count == 0 || count > LIMIT_NAME_WORDS || again || behind_measure(node->unit.first)) {
        build_unknown_statement(builder, node, "label");
        return;
    }
    if (unit && unit->dimension == DIMENSION_MASS) {
        take_metric(making, node, node->quantity.low, written);
    } else {
        struct portion portion = making_portion(builder, words, count);
        portion.grams = range_exact(1 / node->quantity.low);
        making_add_portion(builder, portion);
    }
    if (node->second.kind == QUANTITY_NUMBER)
        take_metric(making, node, node->second.low, build_unit_text(builder, node->per.first));
    take_metric_group(making, node);
}

static void read_servings(struct making *making, const struct node *node)
{
    if (node->quantity.kind == QUANTITY_BAD || !build_only_amount(making->builder, node))
        return;
    struct range amounts = range_exact(node->quantity.low);
    struct rounded rounded = rounding_for(making, ROUNDING_SERVINGS);
    if (rounded.rounding && node->quantity.low > 0)
        rounding_invert(rounded.owner, rounded.rounding, node->quantity.low, &amounts);
    making->food.servings = amounts;
}

/* What is printed on a label: of which nutrient, and how much of it one of the printed unit is: a label that prints salt
 * prints sodium by a factor. */
struct printing {
    uint32_t nutrient, rounded_as;          /* rounded_as: the nutrient, or ROUNDING_CONVERTED */
    double rate;                            /* of the nutrient, in its unit, for one of it of what is printed */
};

static struct range invert_figure(struct making *making, const struct node *node, struct printing printing, double printed, bool less)
{
    struct builder *builder = making->builder;
    struct rounded rounded = rounding_for(making, printing.rounded_as);
    const struct rounding *rounding = rounded.rounding;
    struct range amounts = less ? range_between(0, printed) : range_exact(printed);
    struct text text = build_written(builder, node->span);
    struct place place = build_place(builder, node->span);
    bool good = less || !rounding || rounding_invert(rounded.owner, rounding, printed, &amounts);
    if (less && rounding) {
        good = amount_compare(rounding->less_than, printed) == 0;
        if (good)                           /* `less than 0.01 g` may stand for all that may be printed as nothing */
            amounts.high = amount_larger(amounts.high, rounding->zero_under);
    }
    if (!rounding)
        finding_add(builder->findings, FINDING_LABEL_NO_RULE, place, GAPS(text));
    else if (!good)
        finding_add(builder->findings, FINDING_LABEL_FIGURE, place, GAPS(text));
    else if (rounded.stand_in.length)
        finding_add(builder->findings, FINDING_LABEL_USUAL_ROUNDING, place, GAPS(text, rounded.stand_in));
    amounts = range_scale(amounts, printing.rate);
    making_set_column(making, printing.nutrient, amounts);
    return amounts;
}

/* The item that holds the percent of the daily value: `25%` or `(25%)`, or NULL. */
static const struct item *percent_item(const struct item *item)
{
    const struct item *inside = item->kind == ITEM_GROUP ? item->inside : item;
    return inside && inside->kind == ITEM_NUMBER && inside->quantity->is_percent && (inside == item || !inside->next) ? inside : NULL;
}

/* Behind a printed figure stand its unit and at most one percent; `percent` is NULL where there is none. False after a
 * finding: whatever else stands there would be lost. */
static bool only_percent(struct builder *builder, const struct node *node, const struct item **percent)
{
    const struct item *extra = node->unit.first;
    *percent = NULL;
    while (extra && extra->kind == ITEM_WORD)
        extra = extra->next;
    if (extra && percent_item(extra)) {
        *percent = percent_item(extra);
        extra = extra->next;
    }
    if (!extra && !node->has_body && !node->phrases.first)
        return true;
    struct span span = extra ? extra->span : node->span;
    finding_add(builder->findings, FINDING_EXTRA_WORDS, build_place(builder, span), GAPS(build_written(builder, span)));
    return false;
}

static struct text cut_less_than(struct text words, bool *less)
{
    static const char ending[] = " less than";
    uint32_t size = sizeof ending - 1;
    *less = words.length > size && memcmp(words.bytes + words.length - size, ending, size) == 0;
    words.length -= *less ? size : 0;
    return words;
}

/* What the words of a printed figure mean; the nutrient is NONE_INDEX after a finding. */
static struct printing find_printing(struct making *making, const struct node *node, struct text words)
{
    struct builder *builder = making->builder;
    double factor;
    uint32_t nutrient = build_nutrient(builder, words), converted = label_converted(making, words, &factor);
    if (nutrient == NONE_INDEX && converted != NONE_INDEX)
        return (struct printing){ converted, ROUNDING_CONVERTED, 1 / factor };
    if (nutrient == NONE_INDEX)
        label_note_converting(making, build_unknown(builder, node, SPACE_NUTRIENT, words), words);
    return (struct printing){ nutrient, nutrient, 1 };
}

static void read_printed(struct making *making, const struct node *node)
{
    char storage[256];
    bool less;
    struct builder *builder = making->builder;
    struct text words = cut_less_than(build_words(builder, node->items.first, storage, sizeof storage), &less);
    struct printing printing = find_printing(making, node, words);
    if (printing.nutrient == NONE_INDEX)
        return;
    if (node->quantity.kind != QUANTITY_NUMBER) {
        if (node->quantity.kind != QUANTITY_BAD)
            build_unknown_statement(builder, node, "label");
        return;
    }
    const struct item *percent;
    double factor = build_nutrient_factor(builder, node, printing.nutrient, node->unit.first);
    if (!only_percent(builder, node, &percent) || factor <= 0 || !making_is_new(making, node, printing.nutrient))
        return;
    double printed = node->quantity.low * factor;
    struct range amounts = invert_figure(making, node, printing, printed, less);
    label_tolerate(making, printing.nutrient, printed * printing.rate);
    if (percent)
        label_check_percent(making, node, printing.nutrient, amounts, percent->quantity->low * 100);
}

static void read_label_words(struct making *making, const struct node *node)
{
    char storage[256];
    struct text words = build_words(making->builder, node->items.first, storage, sizeof storage);
    if (text_is(words, "medicine") && node->quantity.kind == QUANTITY_NONE)
        making->food.flags |= FOOD_IS_MEDICINE;
    else if (text_is(words, "serving") || text_is(words, "serving about"))
        read_serving(making, node);
    else if (text_is(words, "servings") || text_is(words, "servings about"))
        read_servings(making, node);
    else if (text_starts(words, "seen ") || text_is(words, "seen"))
        label_read_seen(making, node);
    else if (text_is(words, "ingredients") || (text_starts(words, "ingredients ") && node->quantity.kind == QUANTITY_NONE))
        label_read_ingredients(making, node);
    else if (text_starts(words, "origin ") || text_starts(words, "inherent ") || text_is(words, "density")
             || making_read_state(making, node, words))
        making_read_words(making, node);
    else
        read_printed(making, node);
}

static void read_label_statement(struct making *making, const struct node *node)
{
    switch (node->kind) {
    case NODE_ALSO:
    case NODE_NOTE: break;
    case NODE_PORTION: making_read_portion(making, node); break;
    case NODE_GROUP: making_read_group(making, node); break;
    case NODE_SOURCE: making_read_source(making, node); break;
    case NODE_KNOWLEDGE: read_label_words(making, node); break;
    default: build_unknown_statement(making->builder, node, "label");
    }
}

/* A figure that cannot be is not known. */
static void forget_figure(struct making *making, uint32_t nutrient)
{
    making->food.known &= ~(UINT64_C(1) << nutrient);
    making->tolerated &= ~(UINT64_C(1) << nutrient);
    *making_column(making, nutrient) = (struct range){ 0, 0, 0 };
}

/* A serving cannot hold more than itself of anything that is weighed. */
static void check_figures(struct making *making, const struct node *node)
{
    struct builder *builder = making->builder;
    for (const struct node *at = node->body; at; at = at->next) {
        char storage[256];
        bool less;
        struct text words = cut_less_than(build_words(builder, at->items.first, storage, sizeof storage), &less);
        uint32_t nutrient = at->kind == NODE_KNOWLEDGE ? build_nutrient(builder, words) : NONE_INDEX;
        const struct rules *rules = builder->label_rules;
        bool converted = rules && rules->converted_nutrient != NONE_INDEX && text_equal(library_text(builder->label_rules_owner, rules->converted), words);
        if (nutrient == NONE_INDEX && converted)
            nutrient = rules->converted_nutrient;
        if (nutrient == NONE_INDEX || !(making->food.known >> nutrient & 1) || text_is(build_nutrient_unit(builder, nutrient), "kcal"))
            continue;
        double grams = making_column(making, nutrient)->low * build_nutrient_at(builder, nutrient)->unit_factor * (converted ? rules->converted_factor : 1);
        if (making->food.serving_grams.high <= 0 || grams <= making->food.serving_grams.high)
            continue;
        finding_add(builder->findings, FINDING_FIGURE_SENSELESS, build_place(builder, at->span), GAPS(build_written(builder, at->span)));
        forget_figure(making, nutrient);
    }
}

void read_label(struct builder *builder, const struct node *node)
{
    struct making making;
    const struct item *title = build_string_item(node->items.first);
    struct text name = title ? build_written(builder, title->span) : build_items_text(builder, node->items.first);
    struct place place = build_place(builder, title ? title->span : node->span);
    if (!making_start(&making, builder))
        return;
    making.food.name = build_text(builder, name);
    making.food.place = place;
    making.food.basis = FOOD_PER_SERVING;
    making.food.flags = FOOD_IS_LABEL;
    making.food.source = build_text(builder, text_of("package label"));
    for (const struct node *at = node->body; at; at = at->next)
        read_label_statement(&making, at);
    if (making.food.serving_grams.high > 0)
        making_set_column(&making, making.column_count - 1, making.food.serving_grams);
    check_figures(&making, node);
    label_check_sums(&making, node);
    label_note_listed(&making, node);
    making_finish(&making);
    label_widen(&making);
    if (!title)
        finding_add(builder->findings, FINDING_UNQUOTED_TITLE, place, GAPS(text_of("label"), name));
    build_name(builder, SPACE_LABEL, name, place, true, making.index);
    making_name(builder, node, SPACE_LABEL, making.index, true);
}
