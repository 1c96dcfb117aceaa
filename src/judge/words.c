/* Amounts, limits and values as people read them. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "judge/judge.h"

int print_number(char *storage, size_t size, double amount, int digits)
{
    int whole = amount >= 1 && amount < 1e15 ? amount_decade(amount) + 1 : 1;
    return snprintf(storage, size, "%.*g", digits > whole ? digits : whole, amount < 1e-9 ? 0 : amount);
}

static struct text print_amount_against(char *storage, size_t size, double amount, double limit, struct text unit)
{
    int length = print_number(storage, size, amount, 3), digits = 3;
    bool plain = text_is(unit, "1");
    while (isfinite(amount) && digits < 15 && amount_compare(strtod(storage, NULL), limit) != amount_compare(amount, limit))
        length = print_number(storage, size, amount, ++digits);
    if (!plain && length > 0 && (size_t)length < size)
        length += snprintf(storage + length, size - (size_t)length, " %.*s", (int)unit.length, unit.bytes);
    return (struct text){ storage, length < 0 ? 0 : (size_t)length < size ? (uint32_t)length : (uint32_t)size - 1 };
}

struct text print_amount(char *storage, size_t size, double amount, struct text unit)
{
    return print_amount_against(storage, size, amount, -1, unit);
}

struct text bound_column_unit(const struct library *library, const struct bound *bound)
{
    const struct library *owner;
    if (bound->over != NONE_INDEX)
        return text_of("1");
    uint32_t nutrient = bound->column < library->nutrient_total ? bound->column : library->traced;
    const struct nutrient *found = library_nutrient_at(library, nutrient, &owner);
    return library_text(owner, found->unit);
}

/* A limit in mmol or mEq is spoken of in mmol or mEq. */
static struct text shown_unit(const struct library *library, const struct bound *bound)
{
    return bound->divisor != 1 ? bound->unit : bound_column_unit(library, bound);
}

/* A limit as it was written; several that may be meant from the least to the most. */
struct text bound_limit(const struct library *library, const struct bound *bound, double limit, char *storage, size_t size)
{
    if (bound->slack > 0) {
        char low[48], high[48];
        double slack = bound->slack / bound->divisor;
        print_amount_against(low, sizeof low, bound->has_most ? limit : limit - slack, limit, text_of("1"));
        print_amount_against(high, sizeof high, bound->has_most ? limit + slack : limit, limit, shown_unit(library, bound));
        int length = snprintf(storage, size, "%s to %s", low, high);
        return (struct text){ storage, length < 0 ? 0 : (size_t)length < size ? (uint32_t)length : (uint32_t)size - 1 };
    }
    return print_amount_against(storage, size, limit, limit, shown_unit(library, bound));
}

struct text column_name(const struct library *library, uint32_t column)
{
    const struct library *owner;
    uint32_t nutrient = column < library->nutrient_total ? column : library->traced;
    const struct nutrient *found = library_nutrient_at(library, nutrient, &owner);
    return library_text(owner, found->name);
}

#define MEAL_SHOWN 60           /* bytes of a meal's name */

static int print_basis(char *storage, size_t size, const struct bound *bound)
{
    switch (bound->basis) {
    case PER_SERVING: return snprintf(storage, size, " per serving");
    case PER_RECIPE: return snprintf(storage, size, " per recipe");
    case PER_MASS: return snprintf(storage, size, " per %g g", bound->per);
    case PER_ENERGY: return snprintf(storage, size, " per %g kcal", bound->per);
    case PER_DAY: return snprintf(storage, size, " per day");
    case PER_MEAL: return snprintf(storage, size, " per meal");
    case PER_VOLUME: return snprintf(storage, size, " per %g ml", bound->per);
    case PER_REFERENCE: return snprintf(storage, size, " per reference amount");
    case PER_NOT_COMPUTED: break;
    }
    return 0;
}

struct text verdict_subject(const struct library *library, const struct verdict *verdict, char *storage, size_t size)
{
    const struct bound *bound = verdict->bound;
    struct text name = column_name(library, bound->column);
    bool parted = bound->origin < ORIGIN_COUNT;
    int length = snprintf(storage, size, "%.*s%s%s", (int)name.length, name.bytes, parted ? " from " : "", parted ? origin_name((enum origin)bound->origin) : "");
    if (bound->over != NONE_INDEX) {
        struct text under = column_name(library, bound->over);
        length += snprintf(storage + length, size - (size_t)length, " to %.*s%s", (int)under.length, under.bytes,
                           bound->by_moles ? " by moles" : " by mass");
    } else {
        length += print_basis(storage + length, size - (size_t)length, bound);
    }
    if (verdict->is_average)
        length += snprintf(storage + length, size - (size_t)length, " on average");
    if (verdict->meal) {
        uint32_t shown = verdict->meal->name.length > MEAL_SHOWN ? MEAL_SHOWN : verdict->meal->name.length;
        while (shown > 0 && shown < verdict->meal->name.length && (verdict->meal->name.bytes[shown] & 0xc0) == 0x80)
            shown--;                                                /* no letter is cut in two */
        length += snprintf(storage + length, size - (size_t)length, " (%.*s)", (int)shown, verdict->meal->name.bytes);
    }
    return (struct text){ storage, (uint32_t)length };
}

struct text verdict_value(const struct library *library, const struct verdict *verdict, double limit, char *storage,
                               size_t size)
{
    char low[48], best[48], high[48];
    struct text unit = shown_unit(library, verdict->bound), none = text_of("1");
    struct range value = range_scale(verdict->value, 1 / verdict->bound->divisor);
    int length;
    struct text lowest = print_amount_against(low, sizeof low, value.low, limit, unit);
    if (!isfinite(verdict->value.best) && value.low <= 0) {
        length = snprintf(storage, size, "unknown");
    } else if (!isfinite(verdict->value.high) || !verdict->complete) {
        length = snprintf(storage, size, "at least %.*s", (int)lowest.length, lowest.bytes);
    } else if (range_is_exact(verdict->value)) {
        length = snprintf(storage, size, "%.*s", (int)lowest.length, lowest.bytes);
    } else {
        print_amount_against(low, sizeof low, value.low, limit, none);
        print_amount_against(best, sizeof best, value.best, limit, unit);
        struct text highest = print_amount_against(high, sizeof high, value.high, limit, unit);
        if (text_is(highest, best) && strncmp(low, best, strlen(low)) == 0 && best[strlen(low)] == ' ')
            length = snprintf(storage, size, "%s", best);       /* they differ by less than is shown */
        else
            length = snprintf(storage, size, "%s (%s to %.*s)", best, low, (int)highest.length, highest.bytes);
    }
    return (struct text){ storage, (uint32_t)length };
}
