/* written: what a recipe says for people and the sums do not read: its introduction, notes, sources and the steps of its
 * method. It is not kept by the first pass, which a large kitchen would pay for; it is read again where it is shown. */
#ifndef QUERN_OUTPUT_WRITTEN_H
#define QUERN_OUTPUT_WRITTEN_H

#include "output/output.h"

enum written_kind { WRITTEN_STEP, WRITTEN_NOTE, WRITTEN_SOURCE };

struct written_words {
    enum written_kind kind;
    struct text words;                  /* without quotes, as written */
    struct written_words *next;
};

struct written {
    struct text introduction;           /* the ## comments before it, one blank between their lines; or no bytes */
    struct written_words *first;        /* in the order of the recipe */
};

/* Reads a recipe's or day's words into `written`, which lives in `arena`. Where its file can no longer be read there are
 * none. False when memory fails. */
bool written_read(struct sources *sources, const struct recipe *recipe, struct arena *arena, struct written *written);

#endif
