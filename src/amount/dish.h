/* Shared by dish.c (the order of things, parts as wholes) and dish_baths.c. */
#ifndef QUERN_AMOUNT_DISH_H
#define QUERN_AMOUNT_DISH_H

#include "amount/amount.h"

struct dish {
    struct sums *sums;
    struct gathering *gathering;
    const struct library *library;
    const struct recipe *recipe;
    struct table baths;                 /* from keys of names to numbers among the sums' baths */
    struct guest *guests;               /* room for all lines, twice */
    struct range **columns;             /* room for all lines */
    bool has_errors;                    /* a finding speaks of a line already */
    struct range *eaten;                /* of each line: the share that is eaten of what goes into a bath */
};

/* The part with this number of the gathering. */
struct part *dish_part(const struct dish *dish, uint32_t part);

/* What stands behind the part, or NULL; and what becomes of it, or NULL. */
const struct resolved *dish_part_resolved(const struct dish *dish, uint32_t part);

/* The innermost of the parts around a line that is a bath, or NONE_INDEX. */
uint32_t dish_bath_around(const struct dish *dish, const struct line *line);

/* Remembers what the judge will tell: of a line, of a visit of it, or of a part; the others NONE_INDEX and NULL. */
void dish_tell(const struct dish *dish, enum dish_trouble trouble, uint32_t line, uint32_t part, const struct visit *visit);

/* Shows what happened to a witness, if there is one. */
void dish_show(const struct dish *dish, struct dish_event event);

/* Nobody knows what the line holds: the finding says why. */
void dish_lose_line(const struct dish *dish, uint32_t number);

/* Multiplies every column. */
void dish_scale(const struct dish *dish, struct range *columns, struct range share);

static inline bool dish_knows(uint64_t incomplete, uint32_t column)
{
    return !(incomplete >> column & 1);
}

/* ---- dish_baths.c: foods go into baths, lines take of them, what is left is kept or thrown away. */
enum status dish_settle_baths(struct dish *dish);

#endif
