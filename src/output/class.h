/* class: what a class hands out beside reports: the sheet of salts, the shopping list, the handout and the scaled recipe. Each
 * gathers its figures once and tells them on a sheet, or as JSON. */
#ifndef QUERN_OUTPUT_CLASS_H
#define QUERN_OUTPUT_CLASS_H

#include "output/cook.h"
#include "output/written.h"

/* How the form of the call looks on a sheet. */
enum look telling_look(const struct telling *telling);

/* ---- salts.c: what a spoonful of each salt and salty seasoning of the kitchen's library holds. The kitchen may be empty; its
 * rules must be chosen. */
telling_kitchen_call telling_salts;

/* ---- scaled.c, handout.c: a recipe to cook from, or to hand to patients; a telling_report_call whose task is a struct handing. */

struct handing {
    bool for_patients;
    double servings;                    /* how many are cooked for; 0: as the recipe says */
};

telling_report_call telling_scaled;
telling_report_call telling_handout;

/* How many times the recipe as written; false, told, where it does not say how many it serves. */
bool handing_factor(struct telling *telling, const struct recipe *recipe, double *factor);

/* What is told at the head: how many it is for. */
void handing_print_serves(const struct page *page, struct sheet *sheet, double factor);

/* The ingredients in US and metric measures, what was rounded, and the steps. */
void handing_print_ingredients(const struct page *page, struct sheet *sheet, double factor);
void handing_print_steps(const struct page *page, struct sheet *sheet, const struct written *written, double factor);

/* The cautions, and where the figures are from. */
void handing_print_cautions(struct showing *showing, struct sheet *sheet, const struct report *report);

#endif
