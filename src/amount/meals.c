/* Meals: some lines of a day, which follow one another. Nothing that is in one meal passes into another, so that a
 * meal's sum is that of its lines. */
#include "amount/amount.h"

void meal_lines(const struct sums *sums, const struct part *part, uint32_t *first, uint32_t *end)
{
    *first = part->first_line - sums->at.recipe->first_line;
    *end = part->line_end - sums->at.recipe->first_line;
}

void meal_total(const struct sums *sums, uint32_t first, uint32_t end, struct amounts *total)
{
    const struct library *library = sums->at.gathering->kitchen->library;
    amounts_clear(total, library->column_count);
    for (uint32_t i = first; i < end; i++)
        amounts_add(total, &sums->lines[i], library);
}

bool meal_outside(const struct sums *sums, struct amounts *total)
{
    const struct library *library = sums->at.gathering->kitchen->library;
    bool any = false;
    amounts_clear(total, library->column_count);
    for (uint32_t i = 0; i < sums->line_count; i++) {
        if (sums->lines[i].line->part != NONE_INDEX)
            continue;
        any = true;
        amounts_add(total, &sums->lines[i], library);
    }
    return any;
}
