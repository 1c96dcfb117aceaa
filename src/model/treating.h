/* Shared by steps.c (what was done), treat.c (which treatment), effects.c (what it does) and visit.c (baths). */
#ifndef QUERN_MODEL_TREATING_H
#define QUERN_MODEL_TREATING_H

#include "model/resolve.h"

/* One phrase, or one word before the name, that says what was done. */
struct step {
    struct text written, key;       /* the phrase, and its words as a key */
    struct text bath;               /* `in "pot"`: its name; else no bytes */
    struct span span;
    uint32_t part;                  /* whose phrase it is, or NONE_INDEX: the line's own */
};

struct treating {
    struct resolving *resolving;
    struct step steps[LIMIT_PHRASES];
    uint32_t step_count;
    char storage[LIMIT_PHRASES * 64];
    uint32_t used;
    enum food_state state;          /* of the food as the steps go on */
    bool weighed_after, repeated;
    bool by_maker;                  /* a step before told what the maker has added */
    bool too_long;                  /* said already */
    struct stage *stage;            /* what is being made: before the first bath, or after one */
    struct range *keeps, *adds;     /* its arrays while they are made, or NULL */
    struct range swollen;           /* weight after against before of the baths in which it swelled, as dry foods do */
    struct visit *visits;           /* room for LIMIT_PHRASES, or NULL */
};

#define SWELLS 1.2                  /* a food that weighs so many times as much after a bath was dry */

struct found {
    const struct library *library;
    const struct treatment *treatment;
    uint32_t distance;
    bool wrong_state;               /* one for this group exists, but for another state of the food */
    bool other_group;               /* it exists for other foods */
    bool other_way;                 /* it exists for the food, but in a bath only, or out of one */
};

/* ---- steps.c: fills `steps`; words [peeled_first, peeled_end) were taken off the name. */
void steps_gather(struct treating *treating, uint32_t peeled_first, uint32_t peeled_end);

/* ---- effects.c */

/* Begins a stage: everything stays, nothing is added. */
void effects_begin(struct treating *treating, struct stage *stage);

/* Goes on with a stage that was left, in arrays of its own. */
void effects_resume(struct treating *treating, struct stage *stage);

/* What stays of each column in the stage, made when it is first asked for; NULL when memory failed. */
struct range *effects_keeps(struct treating *treating);

/* The same of what is added to each column, per 100 g that went into the stage. */
struct range *effects_adds(struct treating *treating);

/* The share of a nutrient that the treatment leaves, of the whole before or per weight; false: nobody knows. */
bool effects_share(const struct treating *treating, const struct found *found, uint32_t nutrient, struct range *share);

/* The treatment's effect of this kind on the nutrient, by its name or else by `others`; NULL: none. */
const struct effect *effects_find(const struct found *found, uint32_t nutrient, enum effect_kind kind);

/* Applies keeps, strength, mass, adds and becomes to the stage. */
void effects_apply(struct treating *treating, const struct found *found);

/* ---- treat.c: all flags of the treatments under a key that are for the food. */
uint32_t treat_flags(const struct resolving *resolving, struct text key);

/* ---- refuse.c: takes bone, shell, peel and stone off a weight that holds them, or may. */
void refuse_leave_edible(struct treating *treating);

/* ---- visit.c: the food goes into a bath; what follows begins a new stage. */
void visit_add(struct treating *treating, const struct found *found, const struct step *step);

#endif
