/* Recipes that a walk has been to: recipes are made of recipes, and a walk that goes into each as often as it is named would never
 * end, though the file is small. */
#include "model/visited.h"

void visited_open(struct visited *visited, struct allocator allocator)
{
    *visited = (struct visited){ .allocator = allocator };
    table_open(&visited->table, allocator);
}

void visited_close(struct visited *visited)
{
    table_close(&visited->table);
    visited->allocator.resize(visited->allocator.context, visited->recipes, 0);
    *visited = (struct visited){ .allocator = visited->allocator };
}

uint32_t visited_number(struct visited *visited, const struct recipe *recipe, bool *first)
{
    uint32_t position;
    uint64_t hash = hash_bytes(&recipe, sizeof recipe);
    *first = false;
    for (uint32_t found = table_find(&visited->table, hash, &position); found != TABLE_NONE; found = table_next(&visited->table, hash, &position)) {
        if (visited->recipes[found] == recipe)
            return found;
    }
    if (!array_grow(&visited->allocator, &visited->recipes, visited->count, &visited->capacity, sizeof *visited->recipes)
        || !table_add(&visited->table, hash, visited->count)) {
        visited->failed = true;
        return NONE_INDEX;
    }
    *first = true;
    visited->recipes[visited->count] = recipe;
    return visited->count++;
}
