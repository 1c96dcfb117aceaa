/* Mass balance between foods and the bath that they share. Of a nutrient a food holds S and the bath B; all water there
 * is, W of the foods and V of the bath, would be equally strong at equilibrium. A food comes so far as its treatment
 * tells (e), with the water W' that it holds when it comes out:
 *
 *     S' = own * S + e * W'/(V + all W) * (B + what the other foods give)
 *
 * where `own` is what the treatment says that the food keeps, or by balance 1 - e * (1 - W'/(V + all W)). What is in no
 * food is in the bath. Ends of ranges are taken corner by corner; see docs/method.md. */
#include "amount/amount.h"

static double end_of(struct range range, enum corner corner)
{
    if (corner == CORNER_BEST)
        return range.best;
    return corner == CORNER_LEAST || corner == CORNER_MOST_OF_LEAST ? range.low : range.high;
}

/* What a food takes: the other end where amounts and shares part. */
static double share_end(struct range range, enum corner corner)
{
    if (corner == CORNER_BEST)
        return range.best;
    return corner == CORNER_LEAST || corner == CORNER_LEAST_OF_MOST ? range.low : range.high;
}

struct exchange {
    const struct library *library;
    struct guest *guests;
    uint32_t count, column;
    enum corner corner;
    double bath;                /* of the column, at the corner */
};

static bool is_balanced(const struct guest *guest, uint32_t column)
{
    return guest->visit->balanced >> column & 1;
}

/* Of a share that takes away, where the food holds least, there is most. */
static double turned_end(struct range range, enum corner corner)
{
    if (corner == CORNER_BEST)
        return range.best;
    return corner == CORNER_LEAST || corner == CORNER_LEAST_OF_MOST ? range.high : range.low;
}

/* What of its own the food keeps. */
static double own_share(const struct exchange *exchange, const struct guest *guest)
{
    double water = share_end(guest->part_of_water, exchange->corner);
    double reach = turned_end(guest->visit->reach[exchange->column], exchange->corner);
    if (!is_balanced(guest, exchange->column))
        return share_end(guest->visit->own[exchange->column], exchange->corner);
    return amount_larger(0, 1 - reach * (1 - water));
}

/* What a food gives to all that share the bath: what it does not keep, or by balance so much as it has come to
 * equilibrium. */
static double given_by(const struct exchange *exchange, const struct guest *guest)
{
    struct range own = guest->visit->own[exchange->column], reach = guest->visit->reach[exchange->column];
    double share = is_balanced(guest, exchange->column)
                       ? amount_smaller(1, share_end(reach, exchange->corner))
                       : amount_larger(0, 1 - turned_end(own, exchange->corner));
    return share * end_of(guest->own[exchange->column], exchange->corner);
}

/* Divides a column at a corner; returns what is left in the bath. No more is taken than is given: gains shrink alike, and
 * those of the traced nutrient's origins with it. */
static double divide(const struct exchange *exchange, double *scale)
{
    double given = exchange->bath, taken = 0, offered = exchange->bath;
    for (uint32_t i = 0; i < exchange->count; i++)
        offered += given_by(exchange, &exchange->guests[i]);
    for (uint32_t i = 0; i < exchange->count; i++) {
        struct guest *guest = &exchange->guests[i];
        double own = end_of(guest->own[exchange->column], exchange->corner), kept = own_share(exchange, guest) * own;
        double reach = share_end(guest->visit->reach[exchange->column], exchange->corner);
        double offer = amount_larger(0, offered - given_by(exchange, guest));
        guest->gained = reach * share_end(guest->part_of_water, exchange->corner) * offer;
        guest->held[exchange->corner] = kept;
        given += own - kept;
        taken += guest->gained;
    }
    if (exchange->column < exchange->library->nutrient_total)
        *scale = taken > given && taken > 0 ? amount_larger(0, given) / taken : 1;
    for (uint32_t i = 0; i < exchange->count; i++)
        exchange->guests[i].held[exchange->corner] += *scale * exchange->guests[i].gained;
    return amount_larger(0, given - *scale * taken);
}

static struct range around(double low, double best, double high)
{
    return range_of(amount_smaller(low, best), best, amount_larger(high, best));
}

/* `scales`: of each corner, kept from the traced nutrient on. */
static void exchange_column(const struct library *library, struct range *bath, struct guest *guests, uint32_t count, uint32_t column,
                            double *scales)
{
    double left[CORNER_COUNT], own_scales[CORNER_COUNT];
    double *used = column == library->traced || column >= library->nutrient_total ? scales : own_scales;
    for (enum corner corner = 0; corner < CORNER_COUNT; corner++)
        left[corner] = divide(&(struct exchange){ library, guests, count, column, corner, end_of(bath[column], corner) }, &used[corner]);
    for (uint32_t i = 0; i < count; i++)
        guests[i].own[column] = around(guests[i].held[CORNER_LEAST], guests[i].held[CORNER_BEST], guests[i].held[CORNER_MOST]);
    bath[column] = around(left[CORNER_MOST_OF_LEAST], left[CORNER_BEST], left[CORNER_LEAST_OF_MOST]);
}

/* ---- water ---------------------------------------------------------------------------------------------------------- */

static struct range moved(struct range amount, struct range by)
{
    return range_of(amount_larger(0, amount.low + by.low), amount_larger(0, amount.best + by.best),
                    amount_larger(0, amount.high + by.high));
}

static struct range turned(struct range range)
{
    return range_of(-range.high, -range.best, -range.low);
}

/* Grams of water for a weight; below 0 it is given off, and most of it by the heaviest. */
static struct range uptake_grams(struct range share, struct range mass)
{
    return range_of(share.low * (share.low < 0 ? mass.high : mass.low), share.best * mass.best,
                    share.high * (share.high < 0 ? mass.low : mass.high));
}

/* The water that a food holds when it comes out, against all water there is. */
static void set_water(const struct library *library, const struct range *bath, struct guest *guests, uint32_t count)
{
    struct range all = bath[library->solvent];
    for (uint32_t i = 0; i < count; i++)
        all = range_add(all, guests[i].own[library->solvent]);
    for (uint32_t i = 0; i < count; i++) {
        struct guest *guest = &guests[i];
        struct range own = guest->own[library->solvent];
        guest->uptake = uptake_grams(guest->visit->uptake, guest->own[library->mass_column]);
        guest->water = moved(own, guest->uptake);
        double most = all.high - own.high + own.low, least = all.low - own.low + own.high;
        guest->part_of_water = range_of(most > 0 ? amount_smaller(1, guest->water.low / most) : 0,
                                        all.best > 0 ? amount_smaller(1, guest->water.best / all.best) : 0,
                                        least > 0 ? amount_smaller(1, guest->water.high / least) : 1);
    }
}

static void move_water(const struct library *library, struct range *bath, struct guest *guests, uint32_t count)
{
    struct range all = range_exact(0);
    for (uint32_t i = 0; i < count; i++) {
        guests[i].own[library->solvent] = guests[i].water;
        guests[i].own[library->mass_column] = moved(guests[i].own[library->mass_column], guests[i].uptake);
        all = range_add(all, guests[i].uptake);
    }
    bath[library->solvent] = moved(bath[library->solvent], turned(all));
    bath[library->mass_column] = moved(bath[library->mass_column], turned(all));
}

void bath_exchange(const struct library *library, struct range *bath, struct guest *guests, uint32_t count)
{
    double scales[CORNER_COUNT] = { 1, 1, 1, 1, 1 };
    set_water(library, bath, guests, count);
    for (uint32_t i = 0; i < library->mass_column; i++) {
        if (i != library->solvent)
            exchange_column(library, bath, guests, count, i, scales);
    }
    move_water(library, bath, guests, count);
}
