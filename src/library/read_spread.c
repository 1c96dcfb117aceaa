/* How foods vary: what the source reports of its samples, and what range one helping of the food may come from.
 *
 * A standard error is of the mean of n samples; what one cook buys differs by the samples' own deviation, which is
 * the error times the root of n. Two deviations to each side hold about 95 of 100 samples where they lie about the mean
 * as a normal distribution has it; what was really seen, lowest and highest, is held in any case. */
#include <string.h>

#include "library/making.h"

#define FEWEST_SAMPLES 3u           /* of two, nobody can tell how samples differ */

static void read_spread_figure(struct making *making, const struct node *node, struct spread *spread)
{
    char storage[64];
    struct text words = build_words(making->builder, node->items.first, storage, sizeof storage);
    double *figure = text_is(words, "standard error") ? &spread->error : text_is(words, "lowest") ? &spread->lowest
                     : text_is(words, "highest") ? &spread->highest : NULL;
    if (!figure || node->quantity.kind != QUANTITY_NUMBER) {
        build_unknown_statement(making->builder, node, "food");
        return;
    }
    double factor = build_nutrient_factor(making->builder, node, spread->nutrient, node->unit.first);
    if (factor > 0)
        *figure = node->quantity.low * factor;
}

void making_read_spread(struct making *making, const struct node *node)
{
    struct builder *builder = making->builder;
    const struct item *named = node->items.first->next;
    struct spread spread = { .nutrient = named ? build_nutrient(builder, build_items_text(builder, named)) : NONE_INDEX,
                             .error = -1, .lowest = -1, .highest = -1 };
    bool counted = node->quantity.kind == QUANTITY_NUMBER && node->quantity.low >= 1 && node->quantity.low <= 1e6;
    if (spread.nutrient == NONE_INDEX || !counted || !text_is(build_unit_text(builder, node->unit.first), "samples")) {
        build_unknown_statement(builder, node, "food");
        return;
    }
    spread.samples = (uint32_t)node->quantity.low;
    for (const struct node *at = node->body; at; at = at->next)
        read_spread_figure(making, at, &spread);
    if (spread.lowest >= 0 && spread.highest >= 0 && amount_compare(spread.lowest, spread.highest) > 0)
        finding_add(builder->findings, FINDING_BOUNDS_OUTSIDE, build_place(builder, node->span), NO_GAPS);
    uint32_t number = BUILD_ADD(builder, spreads);
    if (number == NONE_INDEX)
        return;
    builder->spreads[number] = spread;
    making->food.spread_count++;
}

/* By Newton's rule: the C library's is not worth loading its mathematics for. */
static double root_of(double number)
{
    double root = number;
    for (double next = (root + 1) / 2; next < root; next = (root + number / root) / 2)
        root = next;
    return root;
}

struct range spread_widen(const struct spread *spread, struct range amount)
{
    if (spread->samples >= FEWEST_SAMPLES && spread->error >= 0) {
        double deviations = 2 * spread->error * root_of(spread->samples);
        amount.low = amount_smaller(amount.low, amount_larger(0, amount.best - deviations));
        amount.high = amount_larger(amount.high, amount.best + deviations);
    }
    if (spread->lowest >= 0)
        amount.low = amount_smaller(amount.low, spread->lowest);
    if (spread->highest >= 0)
        amount.high = amount_larger(amount.high, spread->highest);
    return amount;
}

/* The widened ranges stand in a row of their own, so that nothing is computed when a kitchen asks for them. */
void making_widen(struct making *making)
{
    struct builder *builder = making->builder;
    uint32_t plain = making->food.values, varied = builder->values_count;
    if (making->food.spread_count == 0)
        return;
    for (uint32_t i = 0; i < making->column_count; i++) {
        if (BUILD_ADD(builder, values) == NONE_INDEX)
            return;
    }
    memcpy(builder->values + varied, builder->values + plain, making->column_count * sizeof *builder->values);
    making->food.values = varied;
    for (uint32_t i = 0; i < making->food.spread_count; i++) {
        const struct spread *spread = &builder->spreads[making->food.first_spread + i];
        struct range *amount = making_column(making, spread->nutrient);
        if (making->food.known >> spread->nutrient & 1)
            *amount = spread_widen(spread, *amount);
    }
    making_split_origins(making);
    making->food.values = plain;
    making->food.varied = varied;
}
