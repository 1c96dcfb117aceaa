/* Shared by the files of the handout for patients. */
#ifndef QUERN_OUTPUT_HANDOUT_H
#define QUERN_OUTPUT_HANDOUT_H

#include "output/class.h"

struct handout {
    struct page *page;
    struct sheet *sheet;
    const struct report *report;
    uint32_t traced;
    double factor;
};

/* ---- handout_first.c: what is told before any figure: that the recipe has errors, a policy that is for somebody else, a limit that a
 * clinician set and that is over or in doubt, whatever the nutrient, and the cautions that come first. */
void handout_tell_first(const struct handout *handout);

/* The other limits and goals, kept ones too, but for upper limits of the traced nutrient, which the first figure tells. */
void handout_tell_limits(const struct handout *handout);

/* Whether a verdict is told first; and whether it is an upper limit of the traced nutrient for a serving or the day. */
bool handout_is_urgent(const struct verdict *verdict);
bool handout_is_plain(const struct handout *handout, const struct verdict *verdict);

/* `Over the limit of 500 mg (Heart group).` */
struct text handout_outcome(const struct handout *handout, const struct verdict *verdict);

/* The cautions that were not told first, and by what the sheet was made. */
void handout_tell_cautions(const struct handout *handout);

#endif
