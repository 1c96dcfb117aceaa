/* difference: how much more of a nutrient one recipe, day, label or food holds than another. What is the same in both
 * cancels, so that a pinch of salt whose size nobody knows hides no difference between twins that both hold it. */
#ifndef QUERN_JUDGE_DIFFERENCE_H
#define QUERN_JUDGE_DIFFERENCE_H

#include "judge/judge.h"

/* What an amount is told of: a serving (of a day all of it, of a recipe that does not say, too), 100 g, 100 ml. */
enum share { SHARE_SERVING, SHARE_MASS, SHARE_VOLUME, SHARE_COUNT };

/* One of two that are compared: a recipe or a day that was added up, or a food or label. */
struct compared {
    const struct kitchen *kitchen;
    const struct sums *sums;            /* NULL: a food or label */
    struct food_at food;
    const struct portion *portion;      /* a serving of a food that is no label; NULL: none, then it has no servings */
    struct range grams, ml;             /* of a serving; high 0: nobody says */
    bool estimated;                     /* the grams are the sum of what goes in */
};

/* Fills in one: of a recipe or day what was added up, which must stay; of a food its serving, `portion` or NULL. */
struct compared compared_recipe(const struct sums *sums);
struct compared compared_food(const struct kitchen *kitchen, struct food_at food, const struct portion *portion);

/* How many servings it makes: 1 where nobody says, and of a day and a food. */
struct range compared_servings(const struct compared *one);

/* What a share of it holds of a column, in its unit. Incomplete: `low` is what is known of it. False when nobody knows how
 * much the share is. */
bool compared_amount(const struct compared *one, enum share share, uint32_t column, struct range *amount, bool *complete);

enum change_kind {
    CHANGE_NONE,                        /* surely no difference */
    CHANGE_MORE, CHANGE_LESS,           /* surely */
    CHANGE_UNCERTAIN,                   /* it may be either */
};

/* How much more the second holds than the first; below 0: less. Ends that nobody knows are infinite. */
struct change {
    double low, best, high;
    bool best_known;
    enum change_kind kind;
};

/* Which lines of two recipes belong together. */
struct line_pairs {
    uint32_t *second;                   /* for each line of the first: a line of the second, or NONE_INDEX */
    uint32_t *first;                    /* and the other way round */
    bool identical;                     /* both are the same through and through */
};

/* Pairs lines that are the same, then those of one food in their order; foods and labels have none. The numbers lie in the
 * arena. False when memory failed. */
bool lines_pair(struct line_pairs *pairs, const struct compared *first, const struct compared *second, struct arena *arena);

/* Whether the pair holds one true amount of the column: then it cancels. */
bool pair_cancels(const struct compared *first, const struct compared *second, uint32_t line, uint32_t other, uint32_t column);

/* The difference in a share of each; false when one of the shares cannot be had. */
bool difference_of(const struct compared *first, const struct compared *second, const struct line_pairs *pairs,
                   enum share share, uint32_t column, struct change *change);

/* The difference that a line of the first (or NONE_INDEX) and one of the second (or NONE_INDEX) make per serving. */
struct change difference_of_lines(const struct compared *first, const struct compared *second, uint32_t line, uint32_t other,
                                  uint32_t column);

#endif
