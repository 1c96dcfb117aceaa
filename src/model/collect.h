/* Shared by collect.c and bound.c. */
#ifndef QUERN_MODEL_COLLECT_H
#define QUERN_MODEL_COLLECT_H

#include "model/model.h"

struct text collect_written(const struct gathering *gathering, struct span span);
struct place collect_place(const struct gathering *gathering, struct span span);
void collect_misplaced(struct gathering *gathering, const struct node *node, const char *where);

#endif
