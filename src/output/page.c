/* Amounts for people: rounded once, by the rule pack, best values to the nearest printed figure, bounds outward. */
#include <math.h>

#include "output/page.h"

struct page page_of(struct showing *showing, struct writer *writer, const struct report *report)
{
    struct page page = { .showing = showing, .writer = writer, .kitchen = showing->kitchen, .library = showing->kitchen->library,
                         .sums = report->sums, .recipe = report->sums->at.recipe };
    page.servings = page.recipe->serves.high > 0 ? page.recipe->serves : range_exact(1);
    return page;
}

static double step_at(const struct page *page, const struct rounding *rounding, double amount)
{
    const struct band *bands = &page->kitchen->rules_owner->bands[rounding->first_band];
    for (uint32_t i = 0; i < rounding->band_count; i++) {
        if (amount <= bands[i].up_to)
            return bands[i].step;
    }
    return 0;
}

double page_rounded(const struct page *page, uint32_t nutrient, double amount, enum direction direction)
{
    const struct rounding *rounding = rules_rounding(page->kitchen->rules_owner, page->kitchen->rules, nutrient, false);
    double step = rounding ? step_at(page, rounding, amount) : 0;
    if (step <= 0)                      /* no rule says: three figures */
        step = amount > 0 ? power_of_ten(amount_decade(amount) - 2) : 1;
    return amount_round(amount, step, direction);
}

struct text page_unit(const struct page *page, uint32_t nutrient)
{
    const struct library *owner;
    const struct nutrient *found = library_nutrient_at(page->library, nutrient, &owner);
    return library_text(owner, found->unit);
}

struct text page_name(const struct page *page, uint32_t nutrient)
{
    const struct library *owner;
    const struct nutrient *found = library_nutrient_at(page->library, nutrient, &owner);
    return library_text(owner, found->name);
}

/* `410 mg (380 to 450 mg)`, or `at least 380 mg`. */
void page_range(const struct page *page, char *storage, size_t size, uint32_t nutrient, struct range amount,
                        bool complete)
{
    struct text unit = page_unit(page, nutrient);
    double low = page_rounded(page, nutrient, amount.low, ROUND_DOWN), high = page_rounded(page, nutrient, amount.high, ROUND_UP);
    double best = page_rounded(page, nutrient, amount.best, ROUND_NEAREST);
    if (!complete)
        snprintf(storage, size, "at least %.6g %.*s", low, (int)unit.length, unit.bytes);
    else if (range_is_exact(amount) || (low == best && high == best))
        snprintf(storage, size, "%.6g %.*s", best, (int)unit.length, unit.bytes);
    else
        snprintf(storage, size, "%.6g %.*s (%.6g to %.6g)", best, (int)unit.length, unit.bytes, low, high);
}

const char *page_per(const struct page *page)
{
    return page->recipe->is_day ? " in the day" : page->recipe->serves.high > 0 ? " per serving" : "";
}

const char *page_per_head(const struct page *page)
{
    return page->recipe->is_day ? ", in the day" : page->recipe->serves.high > 0 ? ", per serving" : "";
}

struct range page_per_serving(const struct page *page, struct range total)
{
    return range_divide(total, page->servings);
}
