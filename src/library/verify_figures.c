/* Verification of the figures in packs. Texts and places are looked at in verify.c, so that no read goes astray; here it is
 * what the reader of our own language would never have let in: what is no number, has no end or lies below 0, ends that do
 * not stand in order, flags that nobody gives. Such a figure does no harm to memory, but it would be added up and told. */
#include <float.h>
#include <math.h>

#include "library/pack.h"

#define TREATMENT_FLAGS (2u * TREATMENT_SALT_UNSAID - 1)
#define CONDITION_FLAGS (2u * CONDITION_ADDED - 1)
#define FOOD_FLAGS (2u * FOOD_IS_MEDICINE - 1)

/* Every amount there is: not a negative zero either, which would be printed. */
static bool is_amount(double figure)
{
    return figure >= 0 && figure <= LIMIT_AMOUNT && !signbit(figure);
}

static bool is_factor(double figure)
{
    return figure > 0 && figure <= LIMIT_AMOUNT;
}

/* Where some kinds of thing have no figure, and say so by one below 0. */
static bool is_amount_or_unsaid(double figure)
{
    return figure == -1 || is_amount(figure);
}

/* An end up to which something is so; the last one may be infinite. */
static bool is_end(double figure)
{
    return figure > 0 && !isnan(figure);
}

static bool is_flag(uint32_t flag)
{
    return flag <= 1;
}

static bool is_nutrient(const struct library *library, uint32_t nutrient)
{
    return nutrient == NONE_INDEX || nutrient < library->nutrient_total;
}

bool pack_range_fits(struct range range)
{
    return is_amount(range.low) && is_amount(range.best) && is_amount(range.high) && range_in_order(range);
}

/* A share of a whole, or nothing said of it. */
static bool is_share_or_unsaid(struct range range)
{
    return (range.low == -1 && range.best == -1 && range.high == -1) || (pack_range_fits(range) && range.high <= 1);
}

static bool is_factor_range(struct range range)
{
    return pack_range_fits(range) && range.low > 0;
}

/* ---- foods --------------------------------------------------------------------------------------------------------- */

static uint64_t column_bits(const struct library *library)
{
    return library->column_count < 64 ? (UINT64_C(1) << library->column_count) - 1 : UINT64_MAX;
}

bool food_figures_fit(const struct library *library, const struct food *food)
{
    return pack_range_fits(food->density) && pack_range_fits(food->unmeasured_ml) && pack_range_fits(food->serving_grams)
        && pack_range_fits(food->serving_ml) && pack_range_fits(food->servings) && is_share_or_unsaid(food->refuse)
        && food->flags <= FOOD_FLAGS && !((food->known | food->open) & ~column_bits(library));
}

bool portion_figures_fit(const struct portion *portion)
{
    return is_factor_range(portion->grams) && is_amount(portion->volume_ml);
}

bool spread_figures_fit(const struct library *library, const struct spread *spread)
{
    return spread->nutrient < library->nutrient_total && is_amount_or_unsaid(spread->error) && is_amount_or_unsaid(spread->lowest)
        && is_amount_or_unsaid(spread->highest);
}

/* ---- words, treatments ------------------------------------------------------------------------------------------------- */

static bool vocabulary_figures_fit(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->nutrients_count; i++) {
        const struct nutrient *nutrient = &library->nutrients[i];
        good = good && is_factor(nutrient->unit_factor) && is_amount(nutrient->mole) && is_amount(nutrient->charge)
            && is_flag(nutrient->traced) && nutrient->role <= NUTRIENT_SOLVENT;
    }
    for (uint32_t i = 0; i < library->units_count; i++)
        good = good && pack_range_fits(library->units[i].factor) && library->units[i].flags <= (UNIT_HOLDS_PLAIN | UNIT_OF_VOLUMES);
    for (uint32_t i = 0; i < library->package_sizes_count; i++)
        good = good && is_factor(library->package_sizes[i].amount)
            && (library->package_sizes[i].dimension == DIMENSION_MASS || library->package_sizes[i].dimension == DIMENSION_VOLUME);
    for (uint32_t i = 0; i < library->groups_count; i++)
        good = good && pack_range_fits(library->groups[i].unmeasured_ml) && is_flag(library->groups[i].fresh)
            && library->groups[i].uses <= (GROUP_SALTY | GROUP_AT_HAND);
    for (uint32_t i = 0; i < library->elements_count; i++)
        good = good && is_factor(library->elements[i].weight);
    return good;
}

static bool treatment_figures_fit(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->treatments_count; i++) {
        const struct treatment *treatment = &library->treatments[i];
        good = good && pack_range_fits(treatment->mass) && pack_range_fits(treatment->kept) && range_in_order(treatment->uptake)
            && treatment->uptake.low >= -1 && treatment->uptake.best >= -1 && treatment->uptake.high <= LIMIT_AMOUNT
            && treatment->from <= FROM_DRAINED && treatment->flags <= TREATMENT_FLAGS && treatment->step_count <= LIMIT_PHRASES;
    }
    for (uint32_t i = 0; i < library->effects_count; i++)
        good = good && pack_range_fits(library->effects[i].share) && library->effects[i].kind <= EFFECT_BECOMES;
    return good;
}

/* ---- rules --------------------------------------------------------------------------------------------------------------- */

static bool label_figures_fit(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->roundings_count; i++) {
        const struct rounding *rounding = &library->roundings[i];
        good = good && is_flag(rounding->zero_is_mandatory) && is_flag(rounding->finer) && is_flag(rounding->is_percent) && is_flag(rounding->zero_includes)
            && is_amount(rounding->zero_under) && is_amount(rounding->less_than) && is_amount(rounding->small);
    }
    for (uint32_t i = 0; i < library->bands_count; i++)
        good = good && is_factor(library->bands[i].step) && is_end(library->bands[i].up_to);
    for (uint32_t i = 0; i < library->daily_values_count; i++)
        good = good && is_factor(library->daily_values[i].amount);
    for (uint32_t i = 0; i < library->panel_lines_count; i++)
        good = good && library->panel_lines[i].depth <= LIMIT_NESTING && library->panel_lines[i].flags <= PANEL_WITHOUT_PERCENT;
    for (uint32_t i = 0; i < library->label_checks_count; i++)
        good = good && is_amount(library->label_checks[i].within);
    for (uint32_t i = 0; i < library->check_parts_count; i++) {
        const struct check_part *part = &library->check_parts[i];
        good = good && is_amount(part->least) && is_amount(part->most) && part->least <= part->most && is_flag(part->if_printed);
    }
    for (uint32_t i = 0; i < library->tolerance_bands_count; i++) {
        const struct tolerance_band *band = &library->tolerance_bands[i];
        good = good && is_end(band->under) && is_amount(band->low) && is_amount(band->high) && is_amount(band->within)
            && (band->high == 0 || band->low <= band->high);
    }
    return good;
}

static bool claim_kind_fits(const struct library *library, const struct claim_kind *kind)
{
    return (kind->within == NONE_INDEX || kind->within < library->claim_kinds_count) && is_flag(kind->is_usual) && is_amount(kind->grams)
        && is_amount(kind->ml) && is_amount(kind->serving_grams) && is_amount(kind->serving_ml) && is_amount(kind->least_serving_grams)
        && is_amount(kind->least_reference_grams) && is_amount(kind->portion_grams);
}

static bool claim_figures_fit(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->measures_count; i++)
        good = good && is_factor(library->measures[i].ml);
    for (uint32_t i = 0; i < library->claim_kinds_count; i++)
        good = good && claim_kind_fits(library, &library->claim_kinds[i]);
    for (uint32_t i = 0; i < library->portion_classes_count; i++)
        good = good && is_flag(library->portion_classes[i].counts);
    for (uint32_t i = 0; i < library->reference_amounts_count; i++)
        good = good && is_amount(library->reference_amounts[i].grams) && is_amount(library->reference_amounts[i].ml);
    for (uint32_t i = 0; i < library->conditions_count; i++) {
        const struct condition *condition = &library->conditions[i];
        good = good && is_amount(condition->most) && is_amount(condition->least) && is_amount(condition->per)
            && condition->flags <= CONDITION_FLAGS && (condition->claim_kind == NONE_INDEX || condition->claim_kind < library->claim_kinds_count);
    }
    return good;
}

static bool rules_figures_fit(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->rules_count; i++)
        good = good && is_amount(library->rules[i].yield_within) && is_amount(library->rules[i].yield_least) && is_amount(library->rules[i].converted_factor);
    for (uint32_t i = 0; i < library->cautions_count; i++)
        good = good && is_nutrient(library, library->cautions[i].nutrient) && is_flag(library->cautions[i].comes_first);
    for (uint32_t i = 0; i < library->whens_count; i++)
        good = good && is_amount(library->whens[i].amount) && is_nutrient(library, library->whens[i].nutrient);
    for (uint32_t i = 0; i < library->equivalents_count; i++)
        good = good && library->equivalents[i].nutrient < library->nutrient_total;
    return good && label_figures_fit(library) && claim_figures_fit(library);
}

/* ---- people -------------------------------------------------------------------------------------------------------------- */

static bool ages_fit(double low, double high)
{
    return is_amount(low) && is_end(high) && low <= high;
}

static bool intake_figures_fit(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->persons_count; i++) {
        const struct person *person = &library->persons[i];
        good = good && person->sexes <= SEX_ANY && is_flag(person->needs_age) && is_flag(person->of_policies) && ages_fit(person->low, person->high)
            && ages_fit(person->usual_low, person->usual_high);
    }
    for (uint32_t i = 0; i < library->intakes_count; i++)
        good = good && is_flag(library->intakes[i].only);
    for (uint32_t i = 0; i < library->intake_figures_count; i++) {
        const struct intake_figure *figure = &library->intake_figures[i];
        good = good && figure->sexes <= SEX_ANY && is_flag(figure->strict) && is_flag(figure->is_goal) && is_flag(figure->shown_only)
            && ages_fit(figure->low, figure->high) && is_factor(figure->amount);
    }
    return good;
}

bool pack_figures_fit(const struct library *library)
{
    return vocabulary_figures_fit(library) && treatment_figures_fit(library) && rules_figures_fit(library) && intake_figures_fit(library);
}
