/* Ratios of sums. Each line has one driver (its weight) and two rates. To find the largest ratio, the rates stand
 * at the corners that help, and each driver at its high end where the line alone is richer than the whole, else
 * at its low end: the classic iteration for a ratio of two linear sums, which ends after a few rounds. */
#include <math.h>

#include "amount/amount.h"

struct side {
    const struct line_amount *lines;
    const struct library *library;
    uint32_t count, over, under;
    bool largest;
};

static double corner(struct range range, bool high)
{
    return high ? range.high : range.low;
}

/* One round: the ratio when each driver stands where it helps against `against`. */
static double round_of(const struct side *side, double against)
{
    double above = 0, below = 0;
    for (uint32_t i = 0; i < side->count; i++) {
        double over = corner(line_rate(&side->lines[i], side->library, side->over), side->largest);
        double under = corner(line_rate(&side->lines[i], side->library, side->under), !side->largest);
        bool helps = side->largest ? over > against * under : over < against * under;
        double driver = corner(side->lines[i].driver, helps);
        above += driver * over;
        below += driver * under;
    }
    return below > 0 ? above / below : side->largest ? INFINITY : 0;
}

static double extreme(const struct side *side, double start)
{
    double ratio = start;
    for (int i = 0; i < 64 && isfinite(ratio); i++) {
        double next = round_of(side, ratio);
        if (next == ratio || (side->largest ? next < ratio : next > ratio))
            break;
        ratio = next;
    }
    return ratio;
}

static double sum_of(const struct side *side, uint32_t column, int end)
{
    double sum = 0;
    for (uint32_t i = 0; i < side->count; i++) {
        struct range amount = line_column(&side->lines[i], side->library, column);
        sum += end < 0 ? amount.low : end > 0 ? amount.high : amount.best;
    }
    return sum;
}

struct range ratio_of_lines(const struct line_amount *lines, uint32_t count, const struct library *library,
                            uint32_t over, uint32_t under, bool over_known, bool under_known)
{
    struct side side = { lines, library, count, over, under, true };
    double below = sum_of(&side, under, 0), start = below > 0 ? sum_of(&side, over, 0) / below : 0, low = 0;
    double high = over_known && under_known ? extreme(&side, start) : INFINITY;
    side.largest = false;
    if (under_known && below > 0)
        low = extreme(&side, start);
    return range_of(low, over_known && under_known && below > 0 ? start : INFINITY, high);
}
