/* class: what a class hands out beside reports: the sheet of salts, the shopping list, the handout and the scaled recipe. Each
 * gathers its figures once and tells them on a sheet, or as JSON. */
#ifndef QUERN_OUTPUT_CLASS_H
#define QUERN_OUTPUT_CLASS_H

#include "output/page.h"
#include "output/sheet.h"

/* How the form of the call looks on a sheet. */
enum look telling_look(const struct telling *telling);

/* ---- salts.c: what a spoonful of each salt and salty seasoning of the kitchen's library holds. The kitchen may be empty; its
 * rules must be chosen. */
telling_kitchen_call telling_salts;

#endif
