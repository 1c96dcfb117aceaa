/* The one range type: amounts that are not known exactly, and the comparison that rounding noise cannot decide.
 * All amounts here are 0 or more, so products and sums of low ends are low ends. Whatever makes a range keeps its ends
 * in order, but for the noise of floating point. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "base/base.h"

#define DECADES 22              /* powers of ten that a double holds exactly */

double power_of_ten(int exponent)
{
    double power = 1;
    for (int i = 0; i < abs(exponent); i++)
        power *= 10;
    return exponent < 0 ? 1 / power : power;
}

int amount_decade(double amount)
{
    int decade = 0;
    while (decade < DECADES && power_of_ten(decade + 1) <= amount)
        decade++;
    while (decade > -DECADES && power_of_ten(decade) > amount)
        decade--;
    return decade;
}

double amount_round(double amount, double step, enum direction direction)
{
    double steps = amount / step, whole = floor(steps + 0.5 + 1e-9);
    if (direction != ROUND_NEAREST && fabs(steps - whole) >= 1e-9 * amount_larger(1, steps))
        whole = direction == ROUND_DOWN ? floor(steps) : ceil(steps);
    return whole * step;
}

struct range range_exact(double value)
{
    return (struct range){ value, value, value };
}

static bool is_above(double a, double b)
{
    return a > b && amount_compare(a, b) != 0;
}

bool range_in_order(struct range range)
{
    return !is_above(range.low, range.best) && !is_above(range.best, range.high);
}

struct range range_of(double low, double best, double high)
{
    struct range range = { low, best, high };
    assert(range_in_order(range));
    return range;
}

struct range range_between(double low, double high)
{
    return range_of(low, (low + high) / 2, high);
}

struct range range_add(struct range a, struct range b)
{
    return range_of(a.low + b.low, a.best + b.best, a.high + b.high);
}

struct range range_without(struct range all, struct range part)
{
    return range_of(amount_larger(0, all.low - part.high), amount_larger(0, all.best - part.best),
                    amount_larger(0, all.high - part.low));
}

struct range range_multiply(struct range a, struct range b)
{
    return range_of(a.low * b.low, a.best * b.best, a.high * b.high);
}

struct range range_scale(struct range a, double factor)
{
    return range_of(a.low * factor, a.best * factor, a.high * factor);
}

struct range range_divide(struct range a, struct range b)
{
    return range_of(a.low / b.high, a.best / b.best, a.high / b.low);
}

struct range range_join(struct range a, struct range b)
{
    return range_of(amount_smaller(a.low, b.low), (a.best + b.best) / 2, amount_larger(a.high, b.high));
}

bool range_is_exact(struct range range)
{
    return amount_compare(range.low, range.high) == 0;
}

int amount_compare(double a, double b)
{
    double larger = amount_larger(fabs(a), fabs(b));
    if (a == b || (isfinite(larger) && fabs(a - b) <= 1e-9 * larger))
        return 0;
    return a < b ? -1 : 1;
}
