/* What the law lets a laboratory find where a label prints a figure. Whoever asks for it gets ranges of their own: a
 * side on which the law sets no bound is open. */
#include <math.h>
#include <string.h>

#include "library/label.h"

/* The tolerance of a nutrient by the rules in force, or by those that they name for labels; NULL where neither has one. */
static const struct tolerance *tolerance_of(const struct making *making, uint32_t nutrient, const struct library **owner)
{
    *owner = making->builder->label_rules_owner;
    const struct rules *rules = rules_of_tolerance(making->builder->base, making->builder->label_rules, owner);
    return rules_tolerance(*owner, rules, nutrient);
}

void label_tolerate(struct making *making, uint32_t nutrient, double printed)
{
    const struct library *owner;
    const struct tolerance *tolerance = tolerance_of(making, nutrient, &owner);
    if (!tolerance || !tolerance->band_count)
        return;
    making->printed[nutrient] = printed;
    making->tolerated |= (uint64_t)1 << nutrient;
}

/* Hundreds of grams in a serving as it is printed, or of millilitres where it is measured so: the printed figure is of that. 0
 * where the label does not say. */
static double hundreds(const struct food *food)
{
    return (food->serving_grams.high > 0 ? food->serving_grams.best : food->serving_ml.best) / 100;
}

/* What the band lets a laboratory find in a serving; high is infinite on an open side, and where an amount of 100 g is meant
 * and nobody knows how many of them a serving is. */
static struct range within_band(const struct tolerance_band *band, double printed, double hundred)
{
    if (band->within > 0 && hundred <= 0)
        return (struct range){ 0, printed, INFINITY };
    if (band->within > 0)
        return (struct range){ amount_larger(0, printed - band->within * hundred), printed, printed + band->within * hundred };
    return (struct range){ band->low * printed, printed, band->high > 0 ? band->high * printed : INFINITY };
}

/* By the first band that the figure stays under; where nobody knows what 100 g have, each counts. */
static struct range lawful(const struct library *owner, const struct tolerance *tolerance, double printed, double hundred)
{
    struct range found = range_exact(printed);
    for (uint32_t i = 0; i < tolerance->band_count; i++) {
        const struct tolerance_band *band = &owner->tolerance_bands[tolerance->first_band + i];
        if (hundred > 0 && amount_compare(printed / hundred, band->under) >= 0)
            continue;
        struct range within = within_band(band, printed, hundred);
        found.low = amount_smaller(found.low, within.low);
        found.high = amount_larger(found.high, within.high);
        if (hundred > 0)
            break;
    }
    return found;
}

/* A side may reach further by rounding than by tolerance: the wider of the two then counts. An open side keeps what rounding
 * allows and is marked. */
static void widen_column(struct making *making, uint32_t nutrient)
{
    const struct library *owner;
    const struct tolerance *tolerance = tolerance_of(making, nutrient, &owner);
    struct range found = lawful(owner, tolerance, making->printed[nutrient], hundreds(&making->food));
    struct range *amount = making_column(making, nutrient);
    amount->low = amount_smaller(amount->low, found.low);
    if (isfinite(found.high))
        amount->high = amount_larger(amount->high, found.high);
    else
        making->food.open |= (uint64_t)1 << nutrient;
}

void label_widen(struct making *making)
{
    struct builder *builder = making->builder;
    struct food *food = &making->food;
    uint32_t plain = food->values, row = builder->values_count;
    if (!making->tolerated)
        return;
    for (uint32_t i = 0; i < making->column_count; i++) {
        if (BUILD_ADD(builder, values) == NONE_INDEX)
            return;
    }
    memcpy(builder->values + row, builder->values + plain, making->column_count * sizeof *builder->values);
    food->values = row;
    for (uint32_t i = 0; i < LIMIT_NUTRIENTS && making->tolerated >> i; i++) {
        if (making->tolerated >> i & 1)
            widen_column(making, i);
    }
    making_split_origins(making);
    if (making->traced != NONE_INDEX && food->open >> making->traced & 1)
        food->open |= (((uint64_t)1 << ORIGIN_COUNT) - 1) << (making->column_count - 1 - ORIGIN_COUNT);
    food->values = plain;
    food->tolerated = row;
    builder->foods[making->index] = *food;
}
