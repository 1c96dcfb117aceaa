/* The one range type: amounts that are not known exactly, and the comparison that rounding noise cannot decide.
 * All amounts here are 0 or more, so products and sums of low ends are low ends. */
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

struct range range_of(double low, double best, double high)
{
    return (struct range){ low, best, high };
}

struct range range_between(double low, double high)
{
    return (struct range){ low, (low + high) / 2, high };
}

struct range range_add(struct range a, struct range b)
{
    return (struct range){ a.low + b.low, a.best + b.best, a.high + b.high };
}

struct range range_multiply(struct range a, struct range b)
{
    return (struct range){ a.low * b.low, a.best * b.best, a.high * b.high };
}

struct range range_scale(struct range a, double factor)
{
    return (struct range){ a.low * factor, a.best * factor, a.high * factor };
}

struct range range_divide(struct range a, struct range b)
{
    return (struct range){ a.low / b.high, a.best / b.best, a.high / b.low };
}

struct range range_join(struct range a, struct range b)
{
    return (struct range){ amount_smaller(a.low, b.low), (a.best + b.best) / 2, amount_larger(a.high, b.high) };
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
