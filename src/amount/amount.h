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
    uint64_t incomplete;                    /* columns that nobody knows for this line */
    bool unknown;                           /* nothing of it is known */
    bool disagrees;                         /* a total in parentheses against the words: the line is unknown */
    bool left_too_much;                     /* more is left over than there was: the line is unknown */
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

/* What the line holds of a column. */
struct range line_column(const struct line_amount *amount, const struct library *library, uint32_t column);

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

/* The batch's grams: `makes` where it is said, else the sum after treatments, which is an estimate. */
struct range recipe_grams(const struct recipe *recipe, const struct amounts *total, const struct library *library,
                          bool *estimated, bool *known);

/* The range of a ratio of two sums over lines: where one line drives both sides its corners are taken together.
 * low 0 and high infinite stand for what is not known. */
struct range ratio_of_lines(const struct line_amount *lines, uint32_t count, const struct library *library,
                            uint32_t over, uint32_t under, bool over_known, bool under_known);

/* ---- sums.c */

/* A computed recipe: valid until the next one is computed with the same `sums`. */
struct sums {
    struct allocator allocator;
    struct recipe_at at;
    struct amounts total;
    struct line_amount *lines;
    struct line *written;                   /* what `lines` point to */
    uint32_t line_count, capacity;
    bool estimated;                         /* a line of it is: no limit on it is kept for certain */
    bool asked;                             /* only `columns` are added up; the others say nothing */
    uint8_t columns[LIMIT_COLUMNS];
    uint32_t columns_count;
};

void sums_open(struct sums *sums, struct allocator allocator);
void sums_close(struct sums *sums);

/* Limits what is added up to the columns of the set. Who only judges needs few, and a food's figures are most of
 * the memory that a sum touches. Which columns are incomplete is known of all nevertheless. */
void sums_ask(struct sums *sums, uint64_t columns);

/* Adds up a recipe. Its tails are resolved on the way; totals of recipes that it uses must stand. */
enum status sums_compute(struct sums *sums, struct recipe_at at);

#endif
