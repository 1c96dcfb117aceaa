/* What a measure of a food weighs, for those who have no line: portion.c. */
#ifndef QUERN_MODEL_PORTION_H
#define QUERN_MODEL_PORTION_H

#include "library/library.h"

/* Grams of a volume of the food, of which nothing more is said; false where nobody knows. */
bool food_volume_grams(struct food_at food, struct range ml, struct range *grams);

#endif
