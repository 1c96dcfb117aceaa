/* What several reports tell alike: amounts in words, and cautions, each once. */
#ifndef QUERN_OUTPUT_TOLD_H
#define QUERN_OUTPUT_TOLD_H

#include "output/sheet.h"

/* `1108 mg (1101 to 1115)`, `at least 380 mg`, `unknown`: three figures, or all of a whole number; ranges are rounded
 * outward. */
struct text told_amount(struct sheet *sheet, struct range amount, bool complete, struct text unit);

/* The same as a cell, with the figure behind it where there is one. */
struct sheet_cell told_cell(struct sheet *sheet, struct range amount, bool complete, struct text unit);

/* The unit of a nutrient. */
struct text told_unit(const struct library *library, uint32_t nutrient);

/* Cautions that stand beside a report of several recipes or foods; their texts lie in the arena. */
struct told_caution {
    struct text words, source, because;     /* because: no bytes for one that stands everywhere */
};

struct told_cautions {
    struct arena *arena;
    struct told_caution *at;
    uint32_t count, capacity;
};

/* Adds one to the told cautions that `context` is, unless its words are there already. */
void told_cautions_add(void *context, const struct caution_told *told);

/* Adds those that stand beside a recipe or day that was added up; `verdicts` may hold none. */
void told_cautions_of(struct told_cautions *cautions, const struct sums *sums, const struct verdicts *verdicts);
bool told_cautions_hold(const struct told_cautions *cautions, struct text words);

/* Tells them under a heading, those first that something calls for. */
void told_cautions_tell(const struct told_cautions *cautions, struct sheet *sheet);

#endif
