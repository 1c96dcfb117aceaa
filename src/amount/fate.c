/* What becomes of a whole: its water boils away, or some of it is thrown away and thrown away. */
#include "amount/amount.h"

static struct range sum_of(const struct whole *whole, uint32_t column)
{
    struct range sum = range_exact(0);
    for (uint32_t i = 0; i < whole->count; i++)
        sum = range_add(sum, whole->columns[i][column]);
    return sum;
}

static struct range floored(double low, double best, double high)
{
    return range_of(amount_larger(0, low), amount_larger(0, best), amount_larger(0, high));
}

/* What is no water. The same things weigh in both, so ends go with ends, and where more of all is mostly more water, the
 * least of it comes from the high ones. */
static struct range solids_of(struct range mass, struct range water)
{
    double low = amount_larger(0, mass.low - water.low), best = amount_larger(0, mass.best - water.best), high = amount_larger(0, mass.high - water.high);
    return range_of(amount_smaller(best, amount_smaller(low, high)), best, amount_larger(best, amount_larger(low, high)));
}

struct range fate_density(struct range mass, struct range water)
{
    double most = water.low > 0 ? mass.high / water.low : 1, usual = water.best > 0 ? mass.best / water.best : 1;
    return range_of(1, (1 + amount_larger(1, usual)) / 2, amount_larger(1, most));
}

/* The weight that is aimed at. By volume, what is dissolved takes up no room, or as much as water does. */
static struct range reduced_mass(const struct fate *fate, struct range mass, struct range water, struct range solids)
{
    struct range by = fate->by, ml = fate->ml;
    if (fate->grams.high > 0)
        return fate->grams;
    if (ml.high > 0)
        return range_of(ml.low, ml.best + solids.best / 2, ml.high + solids.high);
    /* By weight at best; by volume what is dissolved would take up no room. */
    return range_of(mass.low * (1 - by.high), mass.best * (1 - by.best), mass.high - by.low * amount_smaller(water.low, mass.high));
}

/* The whole's column is shared out as its members held it at best. */
static void share_out(struct whole *whole, uint32_t column, struct range total)
{
    double best = sum_of(whole, column).best;
    for (uint32_t i = 0; i < whole->count; i++) {
        double share = best > 0 ? whole->columns[i][column].best / best : 1.0 / whole->count;
        whole->columns[i][column] = range_scale(total, share);
    }
}

bool fate_reduce(const struct library *library, struct whole *whole, const struct fate *fate, enum dish_trouble *trouble)
{
    struct range mass = sum_of(whole, library->mass_column), water = sum_of(whole, library->solvent);
    struct range solids = whole->water_known ? solids_of(mass, water) : range_of(0, mass.best / 2, mass.high);
    if (!whole->mass_known)
        return true;
    struct range left = reduced_mass(fate, mass, whole->water_known ? water : range_of(0, mass.best / 2, mass.high), solids);
    *trouble = DISH_REDUCED_TOO_MUCH;
    if (amount_compare(left.low, mass.high) > 0)
        return false;
    *trouble = DISH_REDUCED_TOO_FAR;
    bool by_share = fate->by.high > 0;          /* judged by eye: then at best */
    if (amount_compare(by_share ? left.best : left.high, by_share ? solids.best : solids.low) < 0)
        return false;
    share_out(whole, library->mass_column, left);
    if (whole->water_known)
        share_out(whole, library->solvent, floored(left.low - solids.high, left.best - solids.best, left.high - solids.low));
    return true;
}

bool fate_thrown(const struct library *library, const struct whole *whole, const struct fate *fate, struct range *share)
{
    struct range mass = sum_of(whole, library->mass_column), water = sum_of(whole, library->solvent), left = fate->thrown_grams;
    if (left.high <= 0)
        left = range_multiply(fate->thrown_ml, fate_density(mass, whole->water_known ? water : range_exact(0)));
    *share = range_exact(0);
    if (mass.low <= 0 || amount_compare(left.low, mass.high) > 0)
        return false;
    *share = floored(1 - left.high / mass.low, 1 - left.best / mass.best, 1 - left.low / mass.high);
    return true;
}
