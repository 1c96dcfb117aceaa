/* Which notes about how a line was read are told; see notes.c. */
#ifndef QUERN_JUDGE_NOTES_H
#define QUERN_JUDGE_NOTES_H

#include "judge/judge.h"

/* A note, and the food that it was told of; how often it came again, and where first. */
struct told_note {
    struct finding *finding;
    const struct food *food;
    uint32_t again;
    struct place next;
};

/* The notes that one recipe has told. Open and close it; then notes that came again say so. */
struct speaking {
    const struct sums *sums;
    uint32_t first, end;                /* the line that is spoken of, or the lines of a part */
    struct allocator allocator;
    struct table told;
    struct told_note *notes;
    uint32_t count, capacity;
};

void speaking_open(struct speaking *speaking, const struct sums *sums);
void speaking_close(struct speaking *speaking, struct findings *findings);

/* Drops, of what was added about these lines behind the finding `before` (NULL: of all), the notes that do not matter or were told. */
void speaking_settle(struct speaking *speaking, uint32_t first, uint32_t end, struct findings *findings, struct finding *before);

/* Whether what the line holds of the traced nutrient is so wide that it is worth a word, a serving; or not known. */
bool line_is_wide(const struct sums *sums, const struct line_amount *amount);

#endif
