/* `1/2 can (7 oz)`: does half a can weigh that, or is it half of such a can? Cooks write both. What packages usually hold
 * tells them apart, and is knowledge: stdlib/units/package.quern (`usual`), and the food's own portions. */
#include <math.h>

#include "model/resolve.h"

#define AS_LARGE 0.01               /* 14 oz is 397 g, and sold as 400 */

static bool is_as_large(double a, double b)
{
    return fabs(a - b) <= AS_LARGE * b;
}

/* Whether such a package usually holds so many g or ml, of any food or of this one. */
static bool is_usual(const struct resolving *resolving, struct food_at food, double amount)
{
    const struct unit *package = resolving->package_unit, *unit = resolving->aside.unit;
    const struct library *owner = resolving->package_owner;
    struct text name = library_text(owner, package->name);
    for (uint32_t i = 0; i < package->size_count; i++) {
        const struct package_size *size = &owner->package_sizes[package->first_size + i];
        if (size->dimension == unit->dimension && is_as_large(amount, size->amount))
            return true;
    }
    for (uint32_t i = 0; i < food.food->portion_count && food.food->basis == FOOD_PER_100_G; i++) {
        const struct portion *portion = &food.library->portions[food.food->first_portion + i];
        if (unit->dimension == DIMENSION_MASS && text_equal(library_text(food.library, portion->unit), name) && is_as_large(amount, portion->grams.best))
            return true;
    }
    return false;
}

static void say_reading(struct resolving *resolving, enum words_code reading)
{
    resolve_say(resolving, reading, resolving->aside.span, GAPS(span_text(resolving->tail->text, resolving->aside.span)));
}

/* Both readings: the bounds are those of the two, the best value that of `all_best`. */
static void join_readings(struct resolving *resolving, struct range *grams, double written, bool all_best)
{
    double all = 1 / written;
    struct range either = range_of(all < 1 ? all : 1, all_best ? all : 1, all < 1 ? 1 : all);
    derive_times(resolving, DERIVED_SIZE, text_of("all of it, or each"), either);
    *grams = range_multiply(*grams, either);
    say_reading(resolving, all_best ? FINDING_PACKAGE_PART_OPEN : FINDING_PACKAGE_EACH_OPEN);
}

bool package_read_part(struct resolving *resolving, struct food_at food, struct range *grams)
{
    double written = resolving->tail->written;
    const struct aside *aside = &resolving->aside;
    if (written <= 0 || !resolving->package_unit || aside->each || aside->total || aside->after || aside->low != aside->high)
        return false;
    double amount = aside->low * aside->unit->factor.best;
    bool usual = is_usual(resolving, food, amount), usual_whole = is_usual(resolving, food, amount / written);
    if (written > 1) {                      /* beside several packages it is the size of each, unless that can hardly be */
        if (!usual && usual_whole)
            join_readings(resolving, grams, written, false);
        return false;
    }
    if (usual == usual_whole)
        join_readings(resolving, grams, written, true);
    else if (usual)
        say_reading(resolving, FINDING_PACKAGE_SIZE_READ);
    else
        say_reading(resolving, FINDING_PACKAGE_PART_READ);
    return usual_whole && !usual;
}
