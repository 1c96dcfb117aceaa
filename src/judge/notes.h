/* Which notes about how a line was read are told; see notes.c. */
#ifndef QUERN_JUDGE_NOTES_H
#define QUERN_JUDGE_NOTES_H

#include "judge/judge.h"

#define NOTED_FROM 5.0                  /* of the traced nutrient, in its unit (mg of sodium), a serving: what labels print as 0 */

/* A note, and the food that it was told of. */
struct told_note {
    const struct finding *finding;
    const struct food *food;
};

/* The notes that one recipe has told. Open and close it. */
struct speaking {
    const struct sums *sums;
    const struct line_amount *amount;   /* the line that is spoken of */
    struct allocator allocator;
    struct table told;
    struct told_note *notes;
    uint32_t count, capacity;
};

void speaking_open(struct speaking *speaking, const struct sums *sums);
void speaking_close(struct speaking *speaking);

/* Drops, of what was added about the line behind the finding `before` (NULL: of all), the notes that do not matter or were told. */
void speaking_settle(struct speaking *speaking, const struct line_amount *amount, struct findings *findings, struct finding *before);

#endif
