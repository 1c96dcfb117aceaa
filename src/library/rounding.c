/* How labels round, and what a printed figure can stand for. The bands come from a rule pack; halves go up, as
 * docs/method.md ("Rounding") argues. */
#include <math.h>

#include "library/library.h"

const struct rounding *rules_rounding(const struct library *owner, const struct rules *rules, uint32_t nutrient,
                                      bool percent)
{
    for (uint32_t i = 0; rules && i < rules->rounding_count; i++) {
        const struct rounding *rounding = &owner->roundings[rules->first_rounding + i];
        if (rounding->nutrient == nutrient && (rounding->is_percent != 0) == percent)
            return rounding;
    }
    return NULL;
}

const struct daily_value *rules_daily_value(const struct library *owner, const struct rules *rules, uint32_t nutrient)
{
    for (uint32_t i = 0; rules && i < rules->daily_value_count; i++) {
        const struct daily_value *value = &owner->daily_values[rules->first_daily_value + i];
        if (value->nutrient == nutrient)
            return value;
    }
    return NULL;
}

const struct rules *rules_of_labels(const struct library *base, const struct rules *rules, const struct library **owner)
{
    char key[KEY_BYTES];
    struct text named = rules ? library_text(*owner, rules->labels_as) : (struct text){ "", 0 };
    return named.length && base ? library_rules(base, (struct text){ key, name_key_of(named, false, key) }, owner) : NULL;
}

const struct rules *rules_of_tolerance(const struct library *base, const struct rules *rules, const struct library **owner)
{
    if (!rules || rules->tolerance_count)
        return rules;
    rules = rules_of_labels(base, rules, owner);
    return rules && rules->tolerance_count ? rules : NULL;
}

const struct tolerance *rules_tolerance(const struct library *owner, const struct rules *rules, uint32_t nutrient)
{
    for (uint32_t i = 0; rules && i < rules->tolerance_count; i++) {
        const struct tolerance *tolerance = &owner->tolerances[rules->first_tolerance + i];
        if (tolerance->nutrient == nutrient)
            return tolerance;
    }
    return NULL;
}

/* The nearest multiple of a step, halves up; the noise of binary fractions does not make a half a little less. */
static double nearest(double amount, double step)
{
    double steps = amount / step, whole = floor(steps);
    return (whole + (amount_compare(steps - whole, 0.5) >= 0 ? 1 : 0)) * step;
}

static const struct band *find_band(const struct library *owner, const struct rounding *rounding, double amount)
{
    const struct band *bands = &owner->bands[rounding->first_band];
    for (uint32_t i = 0; i < rounding->band_count; i++) {
        if (amount_compare(amount, bands[i].up_to) <= 0)
            return &bands[i];
    }
    return NULL;
}

bool rounding_is_zero(const struct rounding *rounding, double amount)
{
    int compared = amount_compare(amount, rounding->zero_under);
    return compared < 0 || (compared == 0 && rounding->zero_includes);
}

double rounding_step(const struct library *owner, const struct rounding *rounding, double amount)
{
    const struct band *band = find_band(owner, rounding, amount);
    return band ? band->step : 0;
}

double rounding_print(const struct library *owner, const struct rounding *rounding, double amount)
{
    const struct band *band = find_band(owner, rounding, amount);
    if (!band || rounding_is_zero(rounding, amount))
        return band ? 0 : amount;
    return nearest(amount, band->step);
}

static bool is_multiple(double amount, double step)
{
    double steps = amount / step;
    return fabs(steps - floor(steps + 0.5)) < 1e-6;
}

static void widen(struct range *amounts, bool *found, double low, double high)
{
    if (low > high)
        return;
    amounts->low = *found ? amount_smaller(amounts->low, low) : low;
    amounts->high = *found ? amount_larger(amounts->high, high) : high;
    *found = true;
}

bool rounding_invert(const struct library *owner, const struct rounding *rounding, double printed,
                     struct range *amounts)
{
    const struct band *bands = &owner->bands[rounding->first_band], *last = NULL;
    double from = rounding->zero_is_mandatory ? rounding->zero_under : 0;
    bool found = false;
    *amounts = range_exact(printed);
    if (printed == 0 && rounding->zero_under > 0)
        widen(amounts, &found, 0, rounding->zero_under);
    for (uint32_t i = 0; i < rounding->band_count; from = bands[i++].up_to) {
        double half = bands[i].step / 2;
        last = &bands[i];
        if (rounding->finer || is_multiple(printed, bands[i].step))
            widen(amounts, &found, amount_larger(printed - half, from),
                  amount_smaller(printed + half, bands[i].up_to));
        if (printed <= bands[i].up_to && !found)
            break;
    }
    if (!found && last) {
        amounts->low = amount_larger(printed - last->step / 2, 0);
        amounts->high = printed + last->step / 2;
    }
    /* What is printed may lie outside of all that may print so: salt that must print as nothing below 0.0125 g. */
    amounts->best = amount_larger(amounts->low, amount_smaller(printed, amounts->high));
    return found;
}
