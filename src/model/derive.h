/* derivation: how a tail came to what was resolved of it, step by step, for who wants to do the sum again by hand. It is
 * noted while somebody asks for it and nothing is computed from it. Shared by the files that resolve, and read by those
 * that tell. */
#ifndef QUERN_MODEL_DERIVE_H
#define QUERN_MODEL_DERIVE_H

#include "model/model.h"

enum derived_kind {
    /* How much one of the written amount is: `factor` over `per` of each, multiplied with one another. */
    DERIVED_SOME,               /* millilitres of `some`, or what stands for an amount that is not written */
    DERIVED_AMOUNT,             /* a number in parentheses */
    DERIVED_UNIT,               /* grams, millilitres or pieces in one of the unit */
    DERIVED_SIZE,               /* heaped, large */
    DERIVED_PORTION,            /* the food's own: grams (of a label servings) of so many millilitres, or of one piece */
    DERIVED_DENSITY,            /* grams of a millilitre */
    DERIVED_PIECE,              /* grams of one; words `sizes`: medium at best, from small to large, since no word says which */
    DERIVED_SERVING,            /* the label's serving, in what is measured */
    DERIVED_PACKAGE,            /* servings in the package */
    DERIVED_MADE,               /* a portion that the recipe declares, in what its batch is measured in */
    DERIVED_SPOON,              /* how far spoons err */
    DERIVED_EDIBLE,             /* without bones and peel */

    /* What was done to it, one after the other; of the column that was asked for. */
    DERIVED_TREATMENT,          /* it begins: its effects follow, or it has none on the column */
    DERIVED_KEEPS,              /* share that stays, of what was added before, too */
    DERIVED_LOST,               /* nobody knows what stays: the known part is 0 */
    DERIVED_UNKNOWN,            /* nobody knows, though a share is computed */
    DERIVED_REPLACED,           /* share of its own that stays (0 or 1); what was added before goes */
    DERIVED_ADDS,               /* per 100 g that went in */
    DERIVED_MASS,               /* weight after against before */
    DERIVED_WATER,              /* the change of weight is water */
    DERIVED_LIQUID,             /* food against food and liquid, of its own and of the weight */
    DERIVED_STRONGER,           /* food and liquid against the drained food, of its own */
    DERIVED_KEPT,               /* share of all of it that stays, weight and all */
    DERIVED_VISIT,              /* it goes into the bath of this name; what follows is done to what comes out */
    DERIVED_SECOND,             /* the second reading of a can begins: its figures are for the drained food */
    DERIVED_JOINED,             /* the two readings are joined */
};

struct derived_step {
    enum derived_kind kind;
    bool of_thrown;               /* it measures what is thrown away, not the line */
    struct text words;          /* as written, or a name */
    struct text source;         /* no bytes: it is said in the line, or nobody says */
    const char *in;             /* what a unit is measured in: g, ml; NULL for pieces and all else */
    struct range factor, per;
    uint32_t evidence;          /* of the treatment, EVIDENCE_NONE for none */
};

struct derivation {
    struct arena *arena;        /* of steps and words */
    uint32_t column;            /* of which effects are noted */
    struct derived_step *steps;
    uint32_t count, capacity;
    bool of_thrown, failed;
    struct text name, source;   /* of the treatment that is being applied */
    uint32_t evidence;
};

/* Resolves the tail once more, as tail_resolve or, with a part, tail_resolve_within do, and notes how. Nothing of it is
 * told. False when memory failed. */
bool tail_derive(struct gathering *gathering, uint32_t tail, uint32_t part, struct derivation *derivation);

/* ---- for those who resolve: `derivation` may be NULL, and then nothing is noted */

struct resolving;

/* Notes a step; words and source are copied. */
void derive_note(struct derivation *derivation, enum derived_kind kind, struct text words, struct text source, struct range factor, struct range per);

/* What was noted of a measure is forgotten: another one is taken. */
void derive_restart(struct derivation *derivation);

/* One of the unit; and a number or a size before it, unless it is 1. */
void derive_unit(const struct resolving *resolving, const struct unit *unit);
void derive_times(const struct resolving *resolving, enum derived_kind kind, struct text words, struct range times);

/* A portion of the food, of so many millilitres, or of a piece (ml 0); `grams` are those of `per`, where equal ones were
 * joined. */
void derive_portion(const struct resolving *resolving, struct food_at food, const struct portion *portion, struct range grams, double per, bool joined);

/* Grams of one, of a food with pieces but no word for which: `portions` (some may be NULL) are those it comes from. */
void derive_pieces(const struct resolving *resolving, struct food_at food, const char *words, const struct portion *const *portions, uint32_t count, struct range grams);

/* A figure of the food as a whole: its density, its serving. */
void derive_of_food(const struct resolving *resolving, struct food_at food, enum derived_kind kind, const char *words, struct range factor, struct range per);

/* A treatment begins; its effect on a column, noted when it is the one that was asked for. */
void derive_treatment(const struct resolving *resolving, const struct library *owner, const struct treatment *treatment, struct text written, uint32_t evidence);
void derive_effect(const struct resolving *resolving, enum derived_kind kind, uint32_t column, struct range share);

#endif
