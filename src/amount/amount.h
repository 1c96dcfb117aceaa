/* amount: how much of everything a line, a part and a recipe hold. Pure: no files, no findings. Columns are the
 * library's nutrients in their units, then the origins of the traced one, then grams.
 *
 * A sum is incomplete in a column when some of it is unknown: then `low` is the known part, and best and high say
 * nothing. Sources of the formulas: docs/method.md. */
#ifndef QUERN_AMOUNT_H
#define QUERN_AMOUNT_H

#include "model/model.h"

struct amounts {
    uint64_t incomplete;                    /* a bit for each column */
    struct range column[LIMIT_COLUMNS];
};

/* One line, computed: `driver` (hundreds of grams, servings, batches) times what one of them holds. */
struct line_amount {
    const struct line *line;
    const struct resolved *resolved;        /* NULL: the line is unknown */
    struct range driver;                    /* parts and `kept` included */
    struct range as_written;                /* the driver before anything is discarded */
    const struct range *values;             /* of one of the driver, per column */
    struct range *own;                      /* of the whole line, once a bath or a fate has changed it; then the driver is 1 */
    uint64_t incomplete;                    /* columns that nobody knows for this line */
    bool unknown;                           /* nothing of it is known */
    bool disagrees;                         /* a total in parentheses against the words: the line is unknown */
    bool thrown_too_much;                     /* more is thrown away than there was: the line is unknown */
    bool too_large;                         /* beyond LIMIT_DRIVER: the line is unknown */
    bool estimated;                         /* weighed from a recipe that nobody weighed */
    bool unmeasured;                        /* no upper end */
    bool mass_known;
};

/* Computes one line of a recipe; the totals of recipes that it uses must stand already. */
void line_compute(const struct gathering *gathering, const struct line *line, const struct resolved *resolved,
                  struct line_amount *amount);

/* What one of the driver holds of a column, treatments included. */
struct range line_rate(const struct line_amount *amount, const struct library *library, uint32_t column);

/* What a stage of treatments makes of a rate: `rate` before it, and the grams that went in with it. */
struct range stage_rate(const struct stage *stage, struct range rate, struct range grams, const struct library *library, uint32_t column);

/* What `plus more to taste` may be of a food of which its group says what `some` is: from nothing to that, in the driver's
 * unit. Of another food it has no upper end. */
struct range line_more(const struct resolved *resolved);

/* How much of what a recipe is measured in its whole batch is: servings, 1, grams or millilitres; high 0 when nobody
 * knows. */
struct range recipe_whole(const struct resolved *resolved, const struct library *library);

/* What the line holds of a column. */
struct range line_column(const struct line_amount *amount, const struct library *library, uint32_t column);

/* Whether what the line held as it was measured is known of a column: `as_written` times `values`. */
bool line_known_before(const struct line_amount *amount, uint32_t column);

/* Whether a line of the recipe fills a bath. */
struct sums;
bool line_stands_in_bath(const struct sums *sums, const struct line *line);

/* Grams as measured; high 0 when unknown. */
struct range line_grams(const struct line_amount *amount, const struct library *library);

void amounts_clear(struct amounts *amounts, uint32_t columns);
void amounts_add(struct amounts *amounts, const struct line_amount *line, const struct library *library);

/* The same for some columns only; the others stay as they are. */
void amounts_add_some(struct amounts *amounts, const struct line_amount *line, const struct library *library,
                      const uint8_t *columns, uint32_t count);

static inline bool amounts_complete(const struct amounts *amounts, uint32_t column)
{
    return !(amounts->incomplete >> column & 1);
}

/* What cannot be told apart may be of any origin. The column of it that widens this one, which is another origin's; else
 * NONE_INDEX. And a column's sum with that at its high end, known where both are. */
uint32_t unseparated_beside(const struct library *library, uint32_t column);
struct range amounts_widened(const struct amounts *amounts, const struct library *library, uint32_t column, bool *complete);

/* The batch's grams: `makes` where it is said, else the sum after treatments, which is an estimate. */
struct range recipe_grams(const struct recipe *recipe, const struct amounts *total, const struct library *library,
                          bool *estimated, bool *known);

/* The range of a ratio of two sums over lines: where one line drives both sides its corners are taken together.
 * low 0, and best and high infinite, stand for what is not known: where what it is divided by is not, all of it; where only
 * what is divided is not, the known part of that is the least. */
struct range ratio_of_lines(const struct line_amount *lines, uint32_t count, const struct library *library,
                            uint32_t over, uint32_t under, bool over_known, bool under_known);

/* ---- sums.c */

/* What went into a bath with its lines, what is left in it after the foods, and what of that stays in the dish. */
struct bath_sum {
    uint32_t part;                          /* number of the bath in its gathering */
    bool used;                              /* a food goes into it */
    bool taken_from;                        /* a line takes of it */
    bool keeps_all;                         /* nothing of it is thrown away or taken: nothing in it is lost */
    uint32_t first_guest, guests;           /* of the round that is going on */
    struct range taken, thrown;             /* shares of what is left: that lines take, that is thrown away */
    struct amounts went_in, left, kept;
};

/* What of a bath is thrown away. */
struct amounts bath_discarded(const struct bath_sum *bath, const struct library *library);

/* What cannot be in a dish, or is not known; the judge tells it. */
enum dish_trouble {
    DISH_BATH_UNKNOWN, DISH_BATH_WITHOUT_WATER, DISH_WEIGHT_UNKNOWN, DISH_WATER_NOT_KNOWN, DISH_MASS_TOO_LOW, DISH_TAKEN_TOO_MUCH,
    DISH_BATH_IN_BATH, DISH_BATH_UNUSED, DISH_BATH_NAME_TAKEN, DISH_BATH_TREATMENT, DISH_REDUCED_TOO_FAR,
    DISH_REDUCED_TOO_MUCH, DISH_THROWN_TOO_MUCH, DISH_TOO_LONG,
};


struct dish_told {
    enum dish_trouble trouble;
    uint32_t line, part;                    /* of the line with this number, or of this part; the other, or both, NONE_INDEX */
    const struct visit *visit;              /* of this visit of the line, or NULL */
};

/* ---- what happens in a dish, shown to a witness while it is computed (a trace). Columns change when the call is over. */

enum dish_event_kind {
    DISH_GIVEN,                             /* a line as it begins: `columns`, with `share` as the driver that they hold */
    DISH_MEETS,                             /* foods and their bath before they share its water: `guests` */
    DISH_PARTS,                             /* … and afterwards */
    DISH_TREATED,                           /* what was done to the line when it came out */
    DISH_TAKEN,                             /* the line is a `share` of what is left in the bath, `kept` of that */
    DISH_ENDS,                              /* `share` of what is left in the bath is eaten: `columns` */
    DISH_SHARED,                            /* the line of a bath stands for a share of that */
    DISH_FATE,                              /* a line by itself or with its part: `share` stays; water may have boiled away */
    DISH_CAPPED,                            /* no more than there is in all */
    DISH_LOST,                              /* nobody knows what the line holds */
};

struct guest;

struct dish_event {
    enum dish_event_kind kind;
    uint32_t line, part;                    /* a number of the sums, a part of the gathering; or NONE_INDEX */
    const struct bath_sum *bath;
    const struct guest *guests;
    uint32_t count;
    const struct range *columns;            /* of the line or bath, after it */
    struct range share;
};

/* Sees what happens; what it is shown lives until it returns. */
typedef void dish_witness(void *context, const struct dish_event *event);

/* A computed recipe: valid until the next one is computed with the same `sums`. */
struct sums {
    struct allocator allocator;
    struct recipe_at at;
    struct amounts total;
    struct line_amount *lines;
    struct line *written;                   /* what `lines` point to */
    uint32_t line_count, capacity;
    bool estimated;                         /* a line of it is: no limit on it is kept for certain */
    struct range *own;                      /* the lines' own columns */
    uint32_t own_capacity;
    struct bath_sum *baths;
    uint32_t bath_count, bath_capacity;
    struct range slack[LIMIT_COLUMNS];      /* what the lines' ends spread more than their sum, since a bath is kept whole */
    double ceiling[LIMIT_COLUMNS];          /* most of all that the lines hold before they go into baths, and are given then */
    struct dish_told told[LIMIT_DISH_TOLD];
    uint32_t told_count;
    dish_witness *witness;                  /* sees what happens in a dish, or NULL */
    void *witness_context;
    bool moves;                             /* it has baths, or something in it has a fate */
    bool asked;                             /* only `columns` are added up; the others say nothing */
    uint8_t columns[LIMIT_COLUMNS];
    uint32_t columns_count;
};

void sums_open(struct sums *sums, struct allocator allocator);
void sums_close(struct sums *sums);

/* Limits what is added up to the columns of the set. Who only judges needs few, and a food's figures are most of
 * the memory that a sum touches. Which columns are incomplete is known of all nevertheless. */
void sums_ask(struct sums *sums, uint64_t columns);

/* Nothing holds more of a nutrient than there is in all. Where the whole of the traced one is capped, its origins get what
 * there is of each, which sums to it. */
void sums_cap(const struct sums *sums, const struct library *library, struct range *columns);

/* ---- dish.c: what baths and fates do to the computed lines. STATUS_OK or STATUS_NO_MEMORY. */
enum status dish_settle(struct sums *sums);

/* ---- bath.c */

/* A corner of the ranges: at which end amounts and waters stand, and which reach is taken. */
enum corner {
    CORNER_LEAST,                           /* least of everything */
    CORNER_MOST,                            /* most of everything */
    CORNER_MOST_OF_LEAST,                   /* of the least that there is foods take most: what the bath surely keeps */
    CORNER_LEAST_OF_MOST,                   /* of the most that there is foods take least */
    CORNER_BEST,
    CORNER_COUNT,
};

/* A food in a bath: its columns, and what the visit does. */
struct guest {
    uint32_t line, bath;                    /* numbers in the sums */
    const struct visit *visit;
    struct range *own;
    struct range water, part_of_water;      /* grams of it when it comes out, and against all water there is */
    struct range uptake;                    /* grams of water taken up; below 0: given off */
    double held[CORNER_COUNT], gained;      /* of the column that is being exchanged */
};

/* Exchanges what is dissolved, and water, between foods and the bath that they share (docs/method.md). `bath` and the
 * guests' columns are changed. */
void bath_exchange(const struct library *library, struct range *bath, struct guest *guests, uint32_t count);

/* ---- fate.c */

/* Several sets of columns as one whole: a part's lines, a bath. */
struct whole {
    struct range **columns;
    uint32_t count, first_line;             /* the first of its lines, which follow one another */
    bool mass_known, water_known;
};

/* Boils water away; true, or the trouble. The mass is exact where a weight is said. */
bool fate_reduce(const struct library *library, struct whole *whole, const struct fate *fate, enum dish_trouble *trouble);

/* The share that stays when so much is thrown away; false: more than there was. */
bool fate_thrown(const struct library *library, const struct whole *whole, const struct fate *fate, struct range *share);

/* Grams of one ml of it: dissolved things take up no room, or as much as water. */
struct range fate_density(struct range mass, struct range water);

/* ---- meals.c: which lines of the sums stand in a part, and what these come to. */
void meal_lines(const struct sums *sums, const struct part *part, uint32_t *first, uint32_t *end);
void meal_total(const struct sums *sums, uint32_t first, uint32_t end, struct amounts *total);

/* What the lines of a day come to that stand in no meal; false where there are none. */
bool meal_outside(const struct sums *sums, struct amounts *total);

/* Adds up a recipe. Its tails are resolved on the way; totals of recipes that it uses must stand. */
enum status sums_compute(struct sums *sums, struct recipe_at at);

/* A food as if it were a recipe of one line, 100 g of it or one serving of a label. `at` holds what is said of the whole
 * beside that: a recipe without lines. */
enum status sums_set_food(struct sums *sums, struct recipe_at at, struct food_at food);

#endif
