/* class: what a class hands out beside reports: the sheet of salts, the shopping list, the handout and the scaled recipe. Each
 * gathers its figures once and tells them on a sheet, or as JSON. */
#ifndef QUERN_OUTPUT_CLASS_H
#define QUERN_OUTPUT_CLASS_H

#include "model/visited.h"
#include "output/cook.h"
#include "output/written.h"

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
void handing_print_maker(struct showing *showing, struct sheet *sheet);     /* by what the sheet was made, and when */

/* ---- shopping.c: sums up what to buy for recipes, days and weeks of one kitchen. */

#define WARE_PACKAGES 4                 /* sizes of packages, kinds of pieces, that recipes name of one food; more count as weight */

/* Packages of one size. */
struct ware_package {
    const struct unit *unit;
    double number, grams;               /* grams: of one */
};

/* Pieces of one kind: `large`, `clove`; no words where the line has none. */
struct ware_piece {
    struct text words;                  /* keys */
    double number;
};

/* How a food is bought. */
enum buying { BUY_PACKAGES, BUY_PIECES, BUY_VOLUME, BUY_WEIGHT, BUY_SERVINGS, BUY_A_LITTLE };

/* A food to buy, summed over all lines. */
struct ware {
    struct food_at food;
    uint32_t aisle;                     /* its outermost group, NONE_INDEX for a packet of no group */
    bool measured;                      /* some line of it has an amount; else a little is enough */
    bool weight_known, by_volume, by_count;     /* of all measured lines; by_count: in no more kinds than there is room for */
    struct range grams;                 /* as it is eaten */
    double bought, ml, servings;        /* bought: grams with what nobody eats */
    struct ware_piece pieces[WARE_PACKAGES];
    uint32_t piece_count;
    struct ware_package packages[WARE_PACKAGES];
    uint32_t package_count;
    double loose;                       /* grams that no package was named for */
};

/* A recipe that the lines of others are made from, and how much of it. */
struct made {
    const struct recipe *recipe;
    double batches;
};

/* What cannot be summed, as it is written, times the factor. */
struct unsummed {
    struct text words;
    const struct recipe *recipe;
};

/* So many batches of a recipe. */
struct wanted {
    struct recipe_at at;
    double batches;
    bool opened;
};

struct shopping {
    const char *const *names;           /* of recipes, days and weeks; none: every recipe of the kitchen */
    size_t name_count;
    double servings;                    /* that each recipe is cooked for; 0: as written */

    struct allocator allocator;
    struct arena arena;
    struct showing *showing;
    struct sheet *sheet;                /* its words hold what is written */
    struct ware *wares;
    struct made *made, *cooked;         /* cooked: what was asked for */
    struct visited visited;             /* recipes that lines are wanted of, and how much of each: opened up once, when all is known */
    struct wanted *wanted;
    struct unsummed *unsummed;
    uint32_t ware_count, ware_capacity, made_count, made_capacity, cooked_count, cooked_capacity, unsummed_count, unsummed_capacity, wanted_capacity;
    bool failed;
};

telling_kitchen_call telling_shopping;

/* So many whole ones; a crumb more is no further one. */
double ware_whole(double number);

/* How the ware is bought, and how many of it where it is counted: whole packages or pieces. */
enum buying ware_buying(const struct ware *ware, double *count);

/* The package that foods are kept in, a can or jar, that the food itself tells of, as a portion; NULL where it tells of none.
 * A packet may be what one person gets at a table. */
const struct portion *ware_package_portion(const struct library *library, struct food_at food);

/* ---- shopping_told.c */
void shopping_tell(const struct shopping *shopping);
void shopping_tell_json(const struct shopping *shopping);

#endif
