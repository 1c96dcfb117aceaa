/* What a rule pack says of labels beyond rounding: which of their figures follow from others, what the law lets a
 * laboratory find, and which percents of the daily value are so small that they may be printed as none. */
#include <math.h>
#include <string.h>

#include "library/build.h"

/* The words behind `marker` in `words`, which then end before it; empty where it does not stand. */
static struct text cut_behind(struct text *words, const char *marker)
{
    uint32_t size = (uint32_t)strlen(marker);
    for (uint32_t i = 0; i + size <= words->length; i++) {
        if (memcmp(words->bytes + i, marker, size) != 0)
            continue;
        struct text behind = { words->bytes + i + size, words->length - i - size };
        words->length = i;
        return behind;
    }
    return (struct text){ "", 0 };
}

/* `9 kcal per g`: in the checked figure's unit, for one of the part's own; 0 when a unit is none of them. */
static double rate_factor(const struct builder *builder, struct text over, struct text under, uint32_t checked, uint32_t nutrient)
{
    const struct unit *mass = build_unit(builder, under), *unit = build_unit(builder, over);
    if (!mass || mass->dimension != DIMENSION_MASS || !unit)
        return 0;
    double factor = build_nutrient_at(builder, nutrient)->unit_factor / mass->factor.best;
    if (checked == ROUNDING_SERVING_MASS)
        return unit->dimension == DIMENSION_MASS ? factor * unit->factor.best : 0;
    const struct unit *own = build_unit(builder, build_nutrient_unit(builder, checked));
    return own && own->dimension == unit->dimension ? factor * unit->factor.best / own->factor.best : 0;
}

/* `fat 9 kcal per g`, `fibre 0 to 4 kcal per g of carbohydrate`, `alcohol 7 kcal per g if printed`. */
static void read_part(struct builder *builder, const struct node *node, uint32_t checked)
{
    struct check_part part = { .whole = NONE_INDEX };
    struct text over = build_unit_text(builder, node->unit.first), name = build_items_text(builder, node->items.first);
    struct text under = cut_behind(&over, " per "), whole = cut_behind(&under, " of ");
    uint32_t length = under.length;
    cut_behind(&under, " if printed");
    part.if_printed = under.length < length;
    part.nutrient = build_known(builder, node, SPACE_NUTRIENT, name);
    if (whole.length)
        part.whole = build_known(builder, node, SPACE_NUTRIENT, whole);
    if (part.nutrient == NONE_INDEX || (whole.length && part.whole == NONE_INDEX))
        return;
    double factor = rate_factor(builder, over, under, checked, part.nutrient);
    part.least = node->quantity.low * factor;
    part.most = node->quantity.high * factor;
    uint32_t number = factor > 0 && build_only_amount(builder, node) ? BUILD_ADD(builder, check_parts) : NONE_INDEX;
    if (number != NONE_INDEX)
        builder->check_parts[number] = part;
    else if (factor <= 0)
        build_unknown_statement(builder, node, "check");
}

static const char *const words_of_check[] = { "within", "source" }, *const words_of_tolerance[] = { "low", "high", "within", "source" };

void read_label_check(struct builder *builder, const struct node *node)
{
    char storage[64];
    struct text words = build_words(builder, node->items.first->next, storage, sizeof storage);
    struct label_check check = { .nutrient = ROUNDING_SERVING_MASS, .first_part = builder->check_parts_count };
    if (!text_is(words, "serving mass"))
        check.nutrient = build_known(builder, node, SPACE_NUTRIENT, words);
    uint32_t number = check.nutrient == NONE_INDEX ? NONE_INDEX : BUILD_ADD(builder, label_checks);
    if (number == NONE_INDEX)
        return;
    for (const struct node *at = node->body; at; at = at->next) {
        words = build_words(builder, at->items.first, storage, sizeof storage);
        if (at->kind == NODE_SOURCE)
            check.source = build_text(builder, build_quoted(builder, at->items.first));
        else if (at->kind == NODE_KNOWLEDGE && text_is(words, "within") && at->quantity.is_percent && build_only_amount(builder, at))
            check.within = at->quantity.low;
        else if (at->kind == NODE_KNOWLEDGE && (at->quantity.kind == QUANTITY_NUMBER || at->quantity.kind == QUANTITY_RANGE))
            read_part(builder, at, check.nutrient);
        else
            build_unknown_word(builder, at, "check", words_of_check, COUNT_OF(words_of_check));
    }
    check.part_count = builder->check_parts_count - check.first_part;
    builder->label_checks[number] = check;
}

static void add_tolerance_band(struct builder *builder, struct tolerance *tolerance, struct tolerance_band band)
{
    uint32_t number = BUILD_ADD(builder, tolerance_bands);
    if (number == NONE_INDEX)
        return;
    builder->tolerance_bands[number] = band;
    tolerance->band_count++;
}

/* The factor of a unit of one word, which more may follow. */
static double word_factor(struct builder *builder, const struct node *node, uint32_t nutrient, const struct item *unit)
{
    struct item word = { 0 };
    if (!unit)
        return 0;
    word = *unit;
    word.next = NULL;
    return build_nutrient_factor(builder, node, nutrient, &word);
}

static bool is_word(const struct builder *builder, const struct item *item, const char *word)
{
    return item && text_is(build_written(builder, item->span), word);
}

/* Behind `within 20%` and `within 0.15 g`: `under 0.5 g`, and `per 100 g` wherever there is an amount. False where something else is. */
static bool read_band_end(struct builder *builder, const struct node *node, uint32_t nutrient, struct tolerance_band *band)
{
    const struct item *item = node->unit.first;
    bool amounts = !node->quantity.is_percent;
    if (amounts) {
        band->within = node->quantity.low * word_factor(builder, node, nutrient, item);
        band->low = band->high = 0;
        item = item ? item->next : NULL;
    }
    if (is_word(builder, item, "under") && item->next && item->next->quantity) {
        band->under = item->next->quantity->low * word_factor(builder, node, nutrient, item->next->next);
        item = item->next->next ? item->next->next->next : NULL;
        amounts = true;
    }
    bool per = item && text_is(items_between(builder->declaration->text, item, NULL), "per 100 g");
    return amounts ? per && band->under > 0 && (node->quantity.is_percent || band->within > 0) : !item;
}

/* `within 0.15 g under 0.5 g per 100 g`, `within 20%`: to either side. */
static void read_within(struct builder *builder, const struct node *node, struct tolerance *tolerance)
{
    const struct quantity *within = &node->quantity;
    struct tolerance_band band = { .under = INFINITY, .low = 1 - within->low, .high = 1 + within->low };
    bool good = within->kind == QUANTITY_NUMBER && within->low > 0 && (!within->is_percent || within->low <= 1);
    bool open = tolerance->band_count > 0 && builder->tolerance_bands[tolerance->first_band + tolerance->band_count - 1].under == INFINITY;
    if (!good || open || !read_band_end(builder, node, tolerance->nutrient, &band))
        finding_add(builder->findings, FINDING_TOLERANCE_BAND, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
    else
        add_tolerance_band(builder, tolerance, band);
}

void read_tolerance(struct builder *builder, const struct node *node)
{
    char storage[64];
    struct tolerance tolerance = { .first_band = builder->tolerance_bands_count };
    struct tolerance_band shares = { .under = INFINITY };
    tolerance.nutrient = build_known(builder, node, SPACE_NUTRIENT, build_words(builder, node->items.first->next, storage, sizeof storage));
    uint32_t number = tolerance.nutrient == NONE_INDEX ? NONE_INDEX : BUILD_ADD(builder, tolerances);
    if (number == NONE_INDEX)
        return;
    for (const struct node *at = node->body; at; at = at->next) {
        struct text words = build_words(builder, at->items.first, storage, sizeof storage);
        bool share = at->kind == NODE_KNOWLEDGE && at->quantity.kind == QUANTITY_NUMBER && at->quantity.is_percent;
        if (at->kind == NODE_SOURCE)
            tolerance.source = build_text(builder, build_quoted(builder, at->items.first));
        else if (share && text_is(words, "low") && at->quantity.low <= 1 && build_only_amount(builder, at))
            shares.low = at->quantity.low;
        else if (share && text_is(words, "high") && at->quantity.low >= 1 && build_only_amount(builder, at))
            shares.high = at->quantity.low;
        else if (at->kind == NODE_KNOWLEDGE && text_is(words, "within"))
            read_within(builder, at, &tolerance);
        else
            build_unknown_word(builder, at, "tolerance", words_of_tolerance, COUNT_OF(words_of_tolerance));
    }
    if (shares.low > 0 || shares.high > 0)
        add_tolerance_band(builder, &tolerance, shares);
    builder->tolerances[number] = tolerance;
}

static void set_small_percent(struct builder *builder, const struct node *node, struct text name, double small)
{
    uint32_t nutrient = build_known(builder, node, SPACE_NUTRIENT, name);
    for (uint32_t i = builder->rules[builder->rules_count - 1].first_rounding; i < builder->roundings_count; i++) {
        if (builder->roundings[i].nutrient == nutrient && builder->roundings[i].is_percent)
            builder->roundings[i].small = small;
    }
}

/* `zero percents under 2% of vitamin d, calcium`: such a percent may be printed 0. */
void read_small_percents(struct builder *builder, const struct node *node)
{
    struct text of = build_unit_text(builder, node->unit.first);
    if (!node->quantity.is_percent || text_behind(of, "of ").length == 0) {
        build_unknown_statement(builder, node, "rule pack");
        return;
    }
    double small = node->quantity.low * 100;
    set_small_percent(builder, node, text_behind(of, "of "), small);
    for (const struct phrase *more = node->phrases.first; more; more = more->next)
        set_small_percent(builder, node, build_written(builder, more->span), small);
}
