/* A label under construction: how its figures are held against each other, what the law lets them miss, when its
 * packet was seen and what its ingredients hold. */
#ifndef QUERN_LIBRARY_LABEL_H
#define QUERN_LIBRARY_LABEL_H

#include "library/making.h"

/* label_check.c: findings where figures of one label cannot stand side by side. `amounts` is what a printed figure of
 * the nutrient may stand for, in its unit; `percent` what is printed of its daily value. */
void label_check_percent(struct making *making, const struct node *node, uint32_t nutrient, struct range amounts, double percent);

/* The same of figures that follow from others, once all are read: energy, and the weight of the serving. */
void label_check_sums(struct making *making, const struct node *label);

/* label_tolerance.c: remembers what the law lets a laboratory find of a nutrient that is printed so, and, when the
 * label is finished, stores the row of its ranges that holds it. */
void label_tolerate(struct making *making, uint32_t nutrient, double printed);
void label_widen(struct making *making);

/* label_converted.c: the nutrient that the rules print converted under this name, and by which factor; NONE_INDEX where they do
 * not. And notes which rules do. */
uint32_t label_converted(const struct making *making, struct text words, double *factor);
void label_note_converting(struct making *making, struct finding *finding, struct text words);

/* label_date.c: `seen 2026-02-01`. */
void label_read_seen(struct making *making, const struct node *node);

/* label_ingredients.c: `ingredients "water, salt"`. */
void label_read_ingredients(struct making *making, const struct node *node);

/* Notes, once all figures are read, what the list holds that matters beside them. */
void label_note_listed(struct making *making, const struct node *label);

#endif
