/* judge: whether a recipe keeps its limits and aims, and which cautions stand beside its figures. A limit is kept
 * when the whole range keeps it, broken when none of it does, and in doubt otherwise. */
#ifndef QUERN_JUDGE_H
#define QUERN_JUDGE_H

#include "amount/amount.h"

enum outcome { OUTCOME_KEPT, OUTCOME_BROKEN, OUTCOME_IN_DOUBT };

struct verdict {
    const struct bound *bound;
    const struct policy *policy;            /* NULL: the recipe's own */
    struct range value;                     /* in the nutrient's unit; high infinite, low 0 where unknown */
    bool complete;
    bool estimated;                         /* per mass, from a cooked weight that nobody weighed */
    enum outcome outcome;
};

struct verdicts {
    struct verdict *at;
    uint32_t count, capacity;
};

/* Judges the recipe's limits, its policies' and the kitchen's, into `verdicts`. Findings about policies that do
 * not exist, and about what is broken, missed or in doubt, go to `findings`, which may be NULL. */
enum status recipe_judge(const struct sums *sums, struct verdicts *verdicts, struct findings *findings);
void verdicts_close(struct verdicts *verdicts, struct allocator allocator);

/* How the value stands to the bound. `complete` says whether value.high is known. */
enum outcome bound_outcome(const struct bound *bound, struct range value, bool complete);

/* Tells what there is to tell of each line: unknown foods, unmeasured salt, notes. */
void recipe_speak(const struct sums *sums, struct findings *findings);

/* Where a line of the recipe stands, from its amount to the end of its tail. */
struct place recipe_line_place(const struct sums *sums, const struct line *line);

/* ---- doubling.c: warns of lines that may count the same salt twice; of use where a line is RESOLVED_DOUBLES. */
void recipe_warn_of_doublings(const struct sums *sums, struct findings *findings);

/* ---- measure.c: notes measures that nobody has fixed, each once, where one moves a figure by a tenth of what it is
 * held to. */
void recipe_note_measures(const struct sums *sums, const struct verdicts *verdicts, struct findings *findings);

/* ---- packets.c: how old the packets of a recipe are, by its policies and the kitchen's; a label once. */
void recipe_check_packets(const struct sums *sums, struct findings *findings);

/* Packets of the kitchen that were seen tomorrow or later. */
void kitchen_check_packets(struct kitchen *kitchen);

/* The label of a line, or NULL in it. */
struct food_at line_label(const struct line_amount *amount);

/* Whether a line before this one has the label. */
bool label_told_before(const struct sums *sums, uint32_t line, const struct food *label);

/* ---- cautions.c: which cautions of the rules stand beside a recipe's figures.
 *
 * `persons` are words for whom it is cooked (child, pregnancy, care), as `when for …` of a caution says them. */
struct cautious {
    const struct kitchen *kitchen;
    const struct sums *sums;                /* what is eaten, line by line */
    uint64_t aims;                          /* a bit for each column of which more is wished for */
    const struct text *persons;
    uint32_t person_count;
};

/* The columns that the recipe's own limits and aims wish more of, or its policies' or the kitchen's, whether they are
 * computed or not. */
uint64_t recipe_aims(struct recipe_at at);

/* Whether it stands. `because` is what it stands for: a food, an ingredient, an aim, a person; empty for one that
 * stands everywhere. 200 bytes of storage are enough. */
bool caution_stands(const struct cautious *cautious, const struct caution *caution, char *storage, size_t size, struct text *because);

/* ---- order.c: totals of the recipes that others are made from, in order of reference; a cycle is one finding. */
enum status kitchen_total_sources(struct kitchen *kitchen);

/* ---- check.c: the second pass over a kitchen that was read and linked: resolves, adds up and judges every recipe,
 * in as many threads as there are gatherings. All there is to say lies in the gatherings' findings afterwards. */
enum status kitchen_judge(struct kitchen *kitchen);

const char *outcome_name(enum outcome outcome);

/* The column of the first nutrient that is counted in kilocalories, or NONE_INDEX. */
uint32_t energy_column(const struct library *library);

/* ---- words.c: texts in `storage`, which 200 bytes are enough for */

/* An amount for people: three figures, or all of a whole number, with its unit. */
struct text print_amount(char *storage, size_t size, double amount, struct text unit);

/* The name of the nutrient of a column, and the unit in which a bound of it is computed: "1" for a ratio. */
struct text column_name(const struct library *library, uint32_t column);
struct text bound_column_unit(const struct library *library, const struct bound *bound);

/* What is bounded: `sodium from cook-added per serving`, `sodium to potassium by mass`. */
struct text bound_subject(const struct library *library, const struct bound *bound, char *storage, size_t size);

/* A limit of the bound, as it was written, in the unit in which it was written. */
struct text bound_limit(const struct library *library, const struct bound *bound, double limit, char *storage, size_t size);

/* What the recipe holds: a value, `at least` one, or one with its range. So many figures that each is as plainly
 * above or below the limit as it truly is. */
struct text verdict_value(const struct library *library, const struct verdict *verdict, double limit, char *storage,
                          size_t size);

#endif
