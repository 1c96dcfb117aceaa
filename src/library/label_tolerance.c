/* What the law lets a laboratory find where a label prints a figure. Whoever asks for it gets ranges of their own: a
 * side on which the law sets no bound is open. */
#include <string.h>

#include "library/label.h"

static const struct tolerance *tolerance_of(const struct making *making, uint32_t nutrient)
{
    return rules_tolerance(making->builder->label_rules_owner, making->builder->label_rules, nutrient);
}

/* Here only what is printed is kept. A side may reach further by rounding than by tolerance: the wider
 * of the two then holds. */
void label_tolerate(struct making *making, uint32_t nutrient, double printed)
{
    const struct tolerance *tolerance = tolerance_of(making, nutrient);
    if (!tolerance)
        return;
    making->printed[nutrient] = printed;
    making->tolerated |= (uint64_t)1 << nutrient;
    if (tolerance->high == 0)
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
        if (!(making->tolerated >> i & 1))
            continue;
        const struct tolerance *tolerance = tolerance_of(making, i);
        struct range *amount = making_column(making, i);
        amount->low = amount_smaller(amount->low, tolerance->low * making->printed[i]);
        amount->high = amount_larger(amount->high, tolerance->high * making->printed[i]);
    }
    making_split_origins(making);
    if (making->traced != NONE_INDEX && food->open >> making->traced & 1)
        food->open |= (((uint64_t)1 << ORIGIN_COUNT) - 1) << (making->column_count - 1 - ORIGIN_COUNT);
    food->values = plain;
    food->tolerated = row;
    builder->foods[making->index] = *food;
}
