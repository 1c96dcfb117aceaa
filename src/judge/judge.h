/* judge: whether a recipe keeps its limits and aims, and which cautions stand beside its figures. A limit is kept
 * when the whole range keeps it, broken when none of it does, and in doubt otherwise. */
#ifndef QUERN_JUDGE_H
#define QUERN_JUDGE_H

#include "amount/amount.h"
#include "library/claims.h"

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

/* Sets `value`, `complete` and `estimated` of a verdict whose bound is set; false when the bound cannot be held against
 * the recipe. And notes on a finding what drives the value, or what leaves it in doubt. */
bool verdict_set_value(const struct sums *sums, struct verdict *verdict);
void verdict_note_causes(const struct sums *sums, const struct verdict *verdict, struct findings *findings, struct finding *finding);

/* How the value stands to the bound. `complete` says whether value.high is known. */
enum outcome bound_outcome(const struct bound *bound, struct range value, bool complete);

/* Tells what there is to tell of each line: unknown foods, unmeasured salt, notes. */
void recipe_speak(const struct sums *sums, struct findings *findings);

/* Where a line of the recipe stands, from its amount to the end of its tail. */
struct place recipe_line_place(const struct sums *sums, const struct line *line);

/* ---- reference.c: how rules see a recipe */

/* A reference amount: grams or millilitres, the other 0. */
struct reference {
    double grams, ml;
    const struct reference_amount *category;    /* of the rules, or NULL: the recipe writes the amount */
};

/* False when the recipe says none, or one that nobody knows. */
bool recipe_reference(const struct kitchen *kitchen, const struct recipe *recipe, struct reference *reference);

/* How many millilitres the recipe makes; high 0: nobody says. */
struct range recipe_ml(const struct recipe *recipe);

/* What the recipe counts as: a number among the kinds of the rules, or NONE_INDEX. */
uint32_t recipe_claim_kind(const struct kitchen *kitchen, const struct recipe *recipe);

/* Tells of a kind and of a reference amount that the rules do not know. */
void recipe_speak_claiming(const struct kitchen *kitchen, const struct recipe *recipe, struct findings *findings);

/* ---- claims.c: whether claims hold. A claim holds when all its conditions are kept, is refused when one is surely
 * broken, and is in doubt otherwise. */

#define GROUNDS_MOST 24                 /* conditions of one claim that are looked at */

enum ground_why {
    GROUND_AMOUNT,                      /* `verdict` of `bound` */
    GROUND_LESS,                        /* `less`: by which share there is less than in the compared recipe */
    GROUND_NO_SERVES, GROUND_NO_REFERENCE, GROUND_NO_VOLUME, GROUND_NO_COMPARED,    /* what the recipe does not say */
    GROUND_INGREDIENT,                  /* `words`: a food that may not be in it */
    GROUND_CLAIM, GROUND_COMPARED,      /* another claim, `words`, of this recipe or of the compared one */
    GROUND_NEVER, GROUND_UNCHECKED,
    GROUND_KIND,                        /* not defined for what the recipe counts as */
    GROUND_NOTE,                        /* `words` go with the claim; it decides nothing */
};

struct claim_ground {
    enum ground_why why;
    const struct condition *condition;  /* or NULL */
    enum outcome outcome;
    struct bound bound;
    struct verdict verdict;
    struct range less;
    double share;
    struct text words;
};

struct claim_grounds {
    struct claim_ground at[GROUNDS_MOST];
    uint32_t count;
    enum outcome outcome;               /* OUTCOME_KEPT: the claim is proved */
};

/* What is judged: a recipe, perhaps against another one. */
struct claim_case {
    const struct sums *sums, *compared; /* compared: or NULL */
    const struct recipe *as;            /* whose kind and reference amount hold, or NULL: its own */
    double share;                       /* that the claim names: 0.25 of `25% less sodium` */
    bool footnote;
};

void claim_judge(const struct claim_case *at, const struct claim *claim, struct claim_grounds *grounds);

/* The section of the rules that a ground, or else the claim, comes from. */
struct text claim_source(const struct library *owner, const struct claim *claim, const struct claim_ground *ground);

/* Whether a source says that a figure is from memory: that is told wherever it was used. */
bool claim_is_from_memory(struct text source);

const char *claim_outcome_name(enum outcome outcome);

/* ---- compare.c: by which share a column of one recipe is less than in another, per serving or per `reference`, which
 * holds for both. Lines that are the same in both cancel. False when the basis cannot be had of one of them; `estimated`: from a weight
 * that nobody weighed. */
bool compare_less(const struct sums *sums, const struct sums *other, const struct reference *reference, const struct condition *condition, struct range *less, bool *estimated);

/* ---- claiming.c: the claims of a recipe, its policies and its kitchen */

struct claim_told {
    const struct claim_said *said;      /* NULL: nobody says it, the rules ask */
    const struct policy *policy;        /* NULL: the recipe's own */
    const struct claim *claim;          /* NULL: the rules define none of the name */
    const struct claim_grounds *grounds;
    const struct sums *sums;
};

/* Takes one claim; what it points to lives until it returns. */
typedef void claim_receiver(void *context, const struct claim_told *told);

/* Gives each claim that is said, and then each disclosure where one is. `other` takes the sums of a compared recipe. */
enum status recipe_claims(const struct sums *sums, struct sums *other, claim_receiver *receive, void *context);

/* Gives every claim and mark of the rules. */
void recipe_could_claim(const struct sums *sums, claim_receiver *receive, void *context);

/* Whether a claim of the recipe is compared to another recipe: these are judged when all recipes are. And whether any
 * claim is made of it. */
bool recipe_is_compared(struct recipe_at at);
bool recipe_has_claims(struct recipe_at at);

/* ---- claim_findings.c: tells of claims what is refused, in doubt, or must be said with them. */
enum status recipe_speak_claims(const struct sums *sums, struct sums *other, struct findings *findings);

/* A finding whose notes say what refuses a claim or leaves it in doubt; NULL where it is proved, or memory failed. */
const struct finding *claim_explain(const struct claim_told *told, struct findings *findings);

/* ---- doubling.c: warns of lines that may count the same salt twice; of use where a line is RESOLVED_DOUBLES. */
void recipe_warn_of_doublings(const struct sums *sums, struct findings *findings);

/* ---- measure.c: notes measures that nobody has fixed, each once, where one moves a figure by a tenth of what it is
 * held to. */
void recipe_note_measures(const struct sums *sums, const struct verdicts *verdicts, struct findings *findings);

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
