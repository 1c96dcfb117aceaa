/* figures: amounts of a whole recipe as reports give them, and the cautions that stand beside them. */
#ifndef QUERN_OUTPUT_FIGURES_H
#define QUERN_OUTPUT_FIGURES_H

#include "output/output.h"

/* What a serving holds; false where the recipe does not say how many there are. */
bool figures_per_serving(const struct sums *sums, const struct library *library, struct amounts *serving);

/* What 100 g of the finished dish hold: where the batch is weighed, by its weight; else by ratios of the lines, since one
 * line drives both. False where the weight is unknown; `estimated`: nobody weighed it. */
bool figures_per_mass(const struct sums *sums, const struct library *library, struct amounts *hundred, bool *estimated);

/* What a serving weighs, in grams; false where nobody knows. */
bool figures_serving_grams(const struct sums *sums, const struct library *library, struct range *grams, bool *estimated);

/* Gives every caution of the recipe or day, what it calls for first. */
void report_cautions(const struct kitchen *kitchen, const struct report *report, caution_receiver *receive, void *context);

/* ---- spoons.c */

/* How much of a nutrient a spoon of a food holds that the rules name for it: salt, by the teaspoon. */
struct spoonful {
    double holds;                       /* in the nutrient's unit */
    struct text unit, food;
};

/* The number-th of them; false when there is no such one, or the library has no figures for it. */
bool spoon_of(const struct kitchen *kitchen, uint32_t nutrient, uint32_t number, struct spoonful *spoon);

#endif
