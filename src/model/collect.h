/* Shared by the files of the first pass: collect*.c, bound.c, missing.c. */
#ifndef QUERN_MODEL_COLLECT_H
#define QUERN_MODEL_COLLECT_H

#include <string.h>

#include "model/model.h"

/* The written text of a span of the file being read, and its place. */
struct text collect_written(const struct gathering *gathering, struct span span);
struct place collect_place(const struct gathering *gathering, struct span span);

/* Says that a statement has no place in a `where`. */
void collect_misplaced(struct gathering *gathering, const struct node *node, const char *where);

/* A copy of the text in the gathering's arena. */
struct text collect_keep(struct gathering *gathering, struct text text);

/* The quoted name of a block; words without quotes are a finding and are taken as the name. */
struct text collect_title(struct gathering *gathering, const struct node *node, struct span *span);

/* Words where a quoted name should stand: a finding, and they are taken as the name. */
struct text collect_unquoted_title(struct gathering *gathering, enum node_kind kind, struct span span);

/* Says that this kind of block has no block behind its name. */
void collect_need_block(struct gathering *gathering, const struct node *node);

/* Says that `what` is not computed yet. */
void collect_not_computed(struct gathering *gathering, const struct node *node, const char *what);

/* The keyword that begins statements of this kind, or "line". */
const char *collect_node_word(enum node_kind kind);

/* ---- a recipe while it is collected: collect.c, collect_yields.c */

struct collecting {
    struct gathering *gathering;
    uint32_t recipe;            /* number; records may move while they grow */
    uint32_t part;
    bool said_serves, said_makes;
};

/* Its record, until the next one is added. */
struct recipe *collect_recipe_of(const struct collecting *collecting);
/* NULL, and the gathering knows that memory failed. */
void *collect_record_failed(struct gathering *gathering);

/* Appends a zeroed record; NULL when memory failed. */
#define ADD_RECORD(gathering, name) (array_grow(&(gathering)->kitchen->allocator, &(gathering)->name,           \
                                                (gathering)->name##_count, &(gathering)->name##_capacity,       \
                                                sizeof *(gathering)->name)                                      \
    ? memset(&(gathering)->name[(gathering)->name##_count++], 0, sizeof *(gathering)->name)                     \
    : collect_record_failed(gathering))

/* A line that a finding speaks of: the sum lacks it. */
void collect_broken_line(struct collecting *collecting, struct span span);

/* A finding, and a line that is unknown, where the block of the node has added no line since `first_line`: nothing to eat is
 * more often forgotten than meant, and never counts as zero. */
void collect_need_food(struct collecting *collecting, const struct node *node, uint32_t first_line);

/* What stands behind the one thing that a statement holds would be lost: it is a finding, and the recipe lacks it. */
void collect_reject(struct collecting *collecting, const struct item *extra);

/* Takes a statement that recipes and days share: a line, `follow`, `expect`, a note; false: it is another. */
bool collect_shared_statement(struct collecting *collecting, const struct node *node);

/* An ingredient line. */
void collect_ingredient(struct collecting *collecting, const struct node *node);

/* `follow "Policy"` of a recipe, a day or a week. */
void collect_follow(struct gathering *gathering, const struct node *node);

/* The recipe or day begins, and has ended: its record is made, and counts what was added since. False when memory failed. */
bool collect_begin(struct collecting *collecting, const struct node *node, struct text name, struct span title);
void collect_end(struct collecting *collecting);

/* ---- bound.c: the nutrient's units in one of the written unit; 0 after a finding. `divisor` is set for mmol and mEq. */
double collect_unit_factor(struct gathering *gathering, uint32_t nutrient, struct text words, struct span span, double *divisor);

/* ---- expect.c: `expect sodium 310 mg (within 5%)`; false where the statement is another. */
bool collect_expectation(struct collecting *collecting, const struct node *node);

/* ---- collect_yields.c: `serves`, `makes` and portions; a recipe that says none of them */
const struct yields *collect_no_yields(void);
void collect_serves(struct collecting *collecting, const struct node *node);
void collect_makes(struct collecting *collecting, const struct node *node);
void collect_portion(struct collecting *collecting, const struct node *node);

/* ---- collect_claims.c: `claim "…", compared to "…", with footnote`; and what rules need to know of a recipe:
 * `reference amount "soups"`, `counts as meal` (false where the statement is another). */
void collect_claim(struct gathering *gathering, const struct node *node, const char *where);
bool collect_claim_in_day(struct gathering *gathering, const struct node *node);     /* a finding; false where it is no claim */
bool collect_claiming(struct collecting *collecting, const struct node *node);

/* ---- missing.c: says that a line lacks its amount, in the words that mend it best. `name` is what it does say. */
void collect_missing_amount(struct gathering *gathering, const struct node *node, struct place place, struct text name);

/* ---- spoon_error.c: `spoon error 10%` of a policy; false where the statement is another. A bad share is a finding. */
bool collect_spoon_error(struct gathering *gathering, const struct node *node, double *error);

/* collect_packets.c: `packets at most 365 days old`, `tolerance legal`; false when the statement is neither. */
bool collect_packets(struct gathering *gathering, const struct node *node, struct packet_policy *packets);

/* ---- collect.c: one declaration into records */
void collect_recipe(struct gathering *gathering, const struct node *node);
void collect_policy(struct gathering *gathering, const struct node *node);

/* ---- collect_person.c: the name of a block behind which may stand whom it is for, and that: `for adult woman 35 under care`;
 * NULL where it does not say, or a finding speaks of it. And a phrase that has no place in a `where`. */
struct text collect_title_of_person(struct gathering *gathering, const struct node *node, struct span *title);
const struct eater *collect_eater(struct gathering *gathering, const struct node *node);
void collect_refuse_phrase(struct gathering *gathering, const struct phrase *phrase, const char *where);

/* ---- collect_day.c */
void collect_day(struct gathering *gathering, const struct node *node);
void collect_week(struct gathering *gathering, const struct node *node);

/* ---- collect.c again */

/* A line outside any block may have been meant for the recipe above it, which is incomplete then. */
void collect_lost_line(struct gathering *gathering, struct span span);

#endif
