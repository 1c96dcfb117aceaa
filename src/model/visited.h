/* Recipes that a walk over recipes has been to, numbered from 0 in the order in which it met them. Open and close
 * it; `failed`: memory failed, and the walk has not seen all. */
#ifndef QUERN_MODEL_VISITED_H
#define QUERN_MODEL_VISITED_H

#include "model/model.h"

struct visited {
    struct allocator allocator;
    struct table table;
    const struct recipe **recipes;
    uint32_t count, capacity;
    bool failed;
};

/* An empty set, and its end. */
void visited_open(struct visited *visited, struct allocator allocator);
void visited_close(struct visited *visited);

/* The recipe's number; `*first`: it was not met before. NONE_INDEX when memory failed. */
uint32_t visited_number(struct visited *visited, const struct recipe *recipe, bool *first);

#endif
