/* A food or label under construction: what the readers of foods, labels, compounds and blends share. */
#ifndef QUERN_LIBRARY_MAKING_H
#define QUERN_LIBRARY_MAKING_H

#include <string.h>

#include "library/build.h"

struct making {
    struct builder *builder;
    uint32_t index, column_count, traced;
    struct food food;
    uint64_t computed;          /* a bit for each column that follows from what it is made of: nobody may give it */
    struct range inherent;
    bool has_inherent, told_portions;
    enum origin origin;
    uint64_t tolerated;         /* of a label: a bit for each nutrient for which the law has a tolerance, */
    double printed[LIMIT_NUTRIENTS];    /* and what is printed of it */
};

/* Takes a food with unknown columns; false when memory failed. */
bool making_start(struct making *making, struct builder *builder);

/* The same with its name, its place and its 100 g; then its statements one by one; then it is finished and gets its
 * names. `name` is the first item of the name, or NULL where nobody wrote one, which is a finding. */
bool making_open(struct making *making, struct builder *builder, const struct node *node, const struct item *name);
void making_read_statement(struct making *making, const struct node *node);
void making_close(struct making *making, const struct node *node, const struct item *name);

/* Knowledge without a keyword ends its name at a number or a comma; what stands behind it would be lost: a finding. */
void making_check_name(struct builder *builder, const struct node *node);

/* `compound sodium citrate` without its block, for findings that speak of all of it. */
struct place making_head_place(const struct builder *builder, const struct node *node);

/* read_spread.c: `measured sodium 12 samples { … }`, and the food's ranges once more, widened by them. */
void making_read_spread(struct making *making, const struct node *node);
void making_widen(struct making *making);

/* Parts the traced nutrient by origin, in the row of values that the food has now. */
void making_split_origins(struct making *making);
struct range *making_column(struct making *making, uint32_t number);

/* Takes from its groups what the food does not say itself, parts the origins, and stores it. */
void making_finish(struct making *making);

/* False, after a finding, when the nutrient stands there already. */
bool making_is_new(struct making *making, const struct node *node, uint32_t nutrient);

/* Makes a column known. */
void making_set_column(struct making *making, uint32_t number, struct range amount);

/* A portion from the words of its unit and state, without its weight; and its place in the pack. */
struct portion making_portion(struct builder *builder, const struct text *words, uint32_t count);
void making_add_portion(struct builder *builder, struct portion portion);

/* Statements that foods and labels share. making_read_state tells whether the words were a state. */
void making_read_portion(struct making *making, const struct node *node);
bool making_read_state(struct making *making, const struct node *node, struct text words);
void making_read_words(struct making *making, const struct node *node);
void making_read_group(struct making *making, const struct node *node);
void making_read_source(struct making *making, const struct node *node);

/* Gives the food the names of its `also` lines. */
void making_name(struct builder *builder, const struct node *node, enum name_space space, uint32_t index, bool ordered);

#endif
