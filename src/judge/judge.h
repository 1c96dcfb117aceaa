/* judge: whether a recipe keeps its limits and goals, and which cautions stand beside its figures. A limit is kept
 * when the whole range keeps it, broken when none of it does, and in doubt otherwise. */
#ifndef QUERN_JUDGE_H
#define QUERN_JUDGE_H

#include "amount/amount.h"
#include "library/claims.h"

enum outcome { OUTCOME_KEPT, OUTCOME_BROKEN, OUTCOME_IN_DOUBT };

struct verdict {
    const struct bound *bound;
    const struct policy *policy;            /* NULL: the recipe's own, or published */
    const struct published *published;      /* the published figure that it is; or NULL */
    const struct part *meal;                /* of a day, whose value it is; or NULL */
    uint32_t first_line, line_end;          /* the lines of the sums that the value comes from */
    struct range value;                     /* in the nutrient's unit; low 0 and high infinite where unknown, and best too of a ratio */
    bool complete;
    bool estimated;                         /* from a cooked weight that nobody weighed */
    bool is_average;                        /* of the days of a week */
    enum outcome outcome;
};

/* Whether a day is held to a published figure. */
enum published_use {
    PUBLISHED_JUDGED,
    PUBLISHED_SHOWN,                        /* it is no limit and no goal, or belongs to rules that the kitchen does not follow */
    PUBLISHED_CLINICIAN,                    /* a clinician's figure for the nutrient stands in its place */
    PUBLISHED_UNDER_CARE,                   /* who eats is under care */
};

/* A published figure for who eats the day: the strictest of those that may be meant, and how far they differ. */
struct published {
    struct bound bound;                     /* judged, or only shown; its place is that of the eater */
    const struct library *owner;
    const struct intake *intake;
    const struct intake_figure *figure;     /* one of them, for its source */
    double least, most;                     /* of the figures that may be meant */
    enum published_use use;
};

/* Who eats: the kinds of person that words and age say, and what they say together. */

struct who {
    const struct person *persons[LIMIT_EATER_KINDS];
    const struct library *owners[LIMIT_EATER_KINDS];
    uint32_t count;
    bool too_many;                          /* of them: nobody says then what is published for them */
    uint32_t sexes;                         /* bits of enum sex */
    struct text state;                      /* such as pregnant; of most there is none */
    double low, high;                       /* ages in months */
};

struct published_set {
    struct published *at;
    uint32_t count, capacity;
    struct who who;
    const struct published *low;            /* the adequate intake that the day surely stays under, or NULL */
};

struct verdicts {
    struct verdict *at;
    uint32_t count, capacity;
    struct published_set published;         /* of a day that says for whom it is; of a recipe that does, `who` alone */
};

/* Judges the recipe's limits, its policies' and the kitchen's, into `verdicts`. Findings about policies that do
 * not exist, and about what is broken, missed or in doubt, go to `findings`, which may be NULL. */
enum status recipe_judge(const struct sums *sums, struct verdicts *verdicts, struct findings *findings);
void verdicts_close(struct verdicts *verdicts, struct allocator allocator);

/* Sets `value`, `complete` and `estimated` of a verdict whose bound is set; false when the bound cannot be held against
 * the recipe. And notes on a finding what drives the value, or what leaves it in doubt. */
bool verdict_set_value(const struct sums *sums, struct verdict *verdict);

/* Sets the outcome from these. What keeps its bound by a weight that nobody weighed is in doubt, unless it would keep it even if the
 * dish weighed as little as the rules of the kitchen say that one may. */
void verdict_decide(const struct kitchen *kitchen, struct verdict *verdict);
void verdict_note_causes(const struct sums *sums, const struct verdict *verdict, struct findings *findings, struct finding *finding);

/* How the value stands to the bound. `complete` says whether value.high is known. */
enum outcome bound_outcome(const struct bound *bound, struct range value, bool complete);

/* Notes the lines that hold most of a column, as shares of it; amounts are divided by `divisor`. */
void note_largest_lines(const struct sums *sums, uint32_t column, double divisor, struct findings *findings, struct finding *finding);

/* ---- eaters.c: who eats, from the words and the age behind `for`; false where they say nobody, after a finding, which goes to
 * `findings` if that is not NULL. `ask_age`: some kinds of person say nothing without an age. */
bool eater_read(const struct kitchen *kitchen, const struct eater *eater, bool ask_age, struct findings *findings, struct who *who);

/* Whether figures for adults in general, such as daily values of labels, may stand beside what this person eats: nobody is
 * said (NULL), or somebody of whom no other figures come first: no child, nobody pregnant or under care. */
bool eater_takes_adult_values(const struct kitchen *kitchen, const struct eater *eater);

/* The daily value of the rules in force that may be printed beside what a recipe or a day holds; NULL where the rules have none, or
 * where it would be an adult's beside somebody else's food: see above, also where a clinician set a limit or a goal, or figures are
 * published for who eats. And what these rules call it. */
const struct daily_value *recipe_daily_value(const struct kitchen *kitchen, const struct recipe *recipe, const struct verdicts *verdicts, uint32_t nutrient);
struct text kitchen_daily_name(const struct kitchen *kitchen);

/* Whether a policy is for who eats; for everybody where nobody is said. One that does not say for whom it is, is for the kind of
 * person that the library says: `meant by policies`. And whom it is for, in words: `for adult`; 200 bytes are enough. */
bool policy_is_for(const struct kitchen *kitchen, const struct policy *policy, const struct eater *eater);
struct text policy_person(const struct kitchen *kitchen, const struct policy *policy, char *storage, size_t size);

/* Tells what is wrong with the words behind the names of policies. */
void kitchen_check_policies(struct kitchen *kitchen);

/* ---- intakes.c: the published figures for who eats the day, and which of them it is held to; `verdicts` holds its other
 * bounds already, the clinician's among them. What is wrong with the head goes to `findings`, which may be NULL. Of a recipe
 * only who eats it is found: a serving is compared with no figure for a day. False when memory failed. */
bool day_find_published(const struct sums *sums, struct verdicts *verdicts, struct findings *findings);

/* What is said beside a recipe or day because of who eats it, or eats little of what is adequate; gives how many of them. */
struct eater_caution {
    struct text words, source;
};
#define EATER_CAUTIONS (LIMIT_EATER_KINDS + 2)
uint32_t eater_cautions(const struct recipe *recipe, const struct verdicts *verdicts, struct eater_caution *cautions);

/* ---- verdicts.c: a bound that is broken or in doubt, as a finding; one of a policy stands at the title of what is held
 * to it. `title` is that. NULL when memory failed. */
struct finding *verdict_tell(const struct library *library, const struct verdict *verdict, struct place title, struct findings *findings);

/* Which side of the bound is spoken of, the bound as people say it (`over the limit of` or, in doubt, `at most`), and its
 * figure in the unit in which it was written. */
bool bound_uses_most(const struct verdict *verdict);
const char *bound_words(const struct verdict *verdict);
double bound_against(const struct verdict *verdict);

/* ---- contradict.c: tells of two bounds that nothing can keep both; `title` as above. */
void tell_contradictions(const struct library *library, struct place title, const struct verdicts *verdicts, struct findings *findings);

/* ---- expect.c: tells of best values that are no longer as expected. */
void recipe_check_expectations(const struct sums *sums, struct findings *findings);

/* ---- weeks.c */

/* Days side by side, column by column. */
struct week_sum {
    uint32_t days;                          /* named in it; one that does not exist counts, too */
    uint32_t complete[LIMIT_COLUMNS];       /* how many of them are complete in the column */
    struct amounts average;                 /* complete where every day is; else low is what all days surely hold */
    struct range of_complete[LIMIT_COLUMNS];/* the average of the complete days alone; 0 where there is none */
    struct recipe_at highest[LIMIT_COLUMNS];/* the day with the highest best value, or known part; NULL in it: none */
    struct range highest_value[LIMIT_COLUMNS];
    bool highest_complete[LIMIT_COLUMNS];
};

/* The day that a week names as its number-th, or NULL in it. */
struct recipe_at week_day(const struct kitchen *kitchen, struct week_at at, uint32_t number);

/* Adds up the days of a week, one after the other in `sums`. STATUS_OK or STATUS_NO_MEMORY. */
enum status week_compute(const struct kitchen *kitchen, struct week_at at, struct sums *sums, struct week_sum *week);

/* Tells of days that weeks name and nobody declares. */
void kitchen_name_weeks(struct kitchen *kitchen);

/* ---- week_limits.c: what a week is held to, its own bounds and those that its policies hold per day */

/* The day that goes furthest beyond a bound, or comes nearest to it. */
struct week_furthest {
    struct recipe_at day;                   /* NULL in it: no day has a value */
    struct verdict verdict;
};

struct week_verdicts {
    struct verdicts averages;
    struct week_furthest *days;             /* one for each of them */
    uint32_t days_capacity;
};

/* Judges the averages of a computed week; what is broken or in doubt goes to `findings`, which may be NULL. `sums` takes
 * one day after the other. STATUS_OK or STATUS_NO_MEMORY; close it in any case. */
enum status week_judge(const struct kitchen *kitchen, struct week_at at, struct sums *sums, const struct week_sum *week,
                       struct week_verdicts *verdicts, struct findings *findings);
void week_verdicts_close(struct week_verdicts *verdicts, struct allocator allocator);

/* Judges all weeks of the kitchen and tells what there is to tell of them; `columns`: those that bounds ask for. */
enum status kitchen_judge_weeks(struct kitchen *kitchen, uint64_t columns);

/* Tells what there is to tell of each line: unknown foods, unmeasured salt, notes. */
void recipe_speak(const struct sums *sums, struct findings *findings);

/* Where a line of the recipe stands, from its amount to the end of its tail; of a line that could not be read, only where
 * it begins. */
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

/* ---- claim_kinds.c: whether a recipe has what its kind asks for */
enum kind_lack { KIND_LACKS_NOTHING, KIND_LACKS_WEIGHT, KIND_LACKS_REFERENCE, KIND_LACKS_PORTIONS, KIND_UNCHECKED };

struct kind_found {
    enum outcome outcome;
    enum kind_lack lack;                /* what decides, unless it is kept */
    bool weighed;
    struct range serving;               /* grams of one, if weighed */
};

/* Whether a recipe is what its kind says; `reference` as recipe_reference sets it. */
struct kind_found recipe_meets_kind(const struct sums *sums, const struct claim_kind *kind, const struct reference *reference);

/* Grams of a class of food that a serving has. */
struct range kind_class_grams(const struct sums *sums, const struct portion_class *class);

/* ---- claims.c: whether claims hold. A claim holds when all its conditions are kept, is refused when one is surely
 * broken, and is in doubt otherwise. */

enum ground_why {
    GROUND_AMOUNT,                      /* `verdict` of `bound` */
    GROUND_LESS,                        /* `less`: by which share there is less than in the compared recipe */
    GROUND_NO_SERVES, GROUND_NO_REFERENCE, GROUND_NO_VOLUME, GROUND_NO_COMPARED,    /* what the recipe does not say */
    GROUND_INGREDIENT,                  /* `words`: a food that may not be in it */
    GROUND_CLAIM, GROUND_COMPARED,      /* another claim, `words`, of this recipe or of the compared one */
    GROUND_NEVER, GROUND_UNCHECKED,
    GROUND_KIND,                        /* not defined for what the recipe counts as */
    GROUND_UNLIKE,                      /* `kind`: it is not, or may not be, what it counts as */
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
    struct verdict other;               /* of less: `verdict` of this recipe and of the compared one; unbound when not to be had */
    struct text words;
    struct kind_found kind;
};

/* Begins as zeros and is closed by claim_grounds_close; in between it may be used for one claim after another. */
struct claim_grounds {
    struct claim_ground *at;            /* they point into each other, so there is room for all before the first */
    uint32_t count, capacity;
    enum outcome outcome;               /* OUTCOME_KEPT: the claim is proved */
};

/* What is judged: a recipe, perhaps against another one. */
struct claim_case {
    const struct sums *sums, *compared; /* compared: or NULL */
    const struct recipe *as;            /* whose kind and reference amount hold, or NULL: its own */
    double share;                       /* that the claim names: 0.25 of `25% less sodium` */
    bool footnote;
};

/* Every condition is looked at, however many the claim has. */
enum status claim_judge(const struct claim_case *at, const struct claim *claim, struct claim_grounds *grounds);
void claim_grounds_close(struct claim_grounds *grounds, struct allocator allocator);

/* The section of the rules that a ground, or else the claim, comes from. */
struct text claim_source(const struct library *owner, const struct claim *claim, const struct claim_ground *ground);

/* Whether a source says that a figure is from memory: that is told wherever it was used. */
bool claim_is_from_memory(struct text source);

const char *claim_outcome_name(enum outcome outcome);

/* ---- compare.c: by which share a column of one recipe is less than in another, per serving or per `reference`, which
 * holds for both. Lines that are the same in both cancel. False when the basis cannot be had of one of them; `estimated`: from a weight
 * that nobody weighed. */
bool compare_less(const struct sums *sums, const struct sums *other, const struct reference *reference, const struct condition *condition, struct range *less, bool *estimated);

/* Whether two lines are of one food or recipe; and whether they hold one true amount of it, whatever it is: written in the
 * same words, amount and treatment, and nothing in a bath has changed either. The recipes may stand in two kitchens. */
bool lines_have_one_subject(const struct sums *sums, uint32_t first, const struct sums *other, uint32_t second);
bool lines_have_one_amount(const struct sums *sums, uint32_t first, const struct sums *other, uint32_t second);

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
enum status recipe_could_claim(const struct sums *sums, claim_receiver *receive, void *context);

/* Whether a claim of the recipe is compared to another recipe: these are judged when all recipes are. And whether any
 * claim is made of it. */
bool recipe_is_compared(struct recipe_at at);
bool recipe_has_claims(struct recipe_at at);

/* ---- claim_findings.c: tells of claims what is refused, in doubt, or must be said with them. */
enum status recipe_speak_claims(const struct sums *sums, struct sums *other, struct findings *findings);

/* A finding whose notes say what refuses a claim or leaves it in doubt, or by how much there is less in one that is proved;
 * NULL where there is nothing to say, or memory failed. */
const struct finding *claim_explain(const struct claim_told *told, struct findings *findings);

/* ---- compared.c: what a claim is compared to */
struct claim_other {
    struct recipe_at recipe;            /* or NULL in it */
    struct food_at food;                /* a food, or a label; or NULL in it */
};

struct claim_other claim_find_other(const struct kitchen *kitchen, const struct claim_said *said);

/* Computes it in `sums`. What a food is as a whole is kept in `recipe` and `yields`, which live as long as the sums. */
enum status claim_set_other(struct sums *sums, struct gathering *gathering, const struct claim_said *said, struct claim_other other,
                            struct recipe *recipe, struct yields *yields);

/* Tells that there is no such thing, with near names; `place` is where the name stands. */
void claim_tell_no_other(const struct kitchen *kitchen, const struct claim_said *said, struct place place, struct findings *findings);

/* ---- claim_names.c: tells of a claim that the rules do not define; fixes stand at `place`, where the claim's name is. */
void claim_tell_unknown(const struct claim_told *told, struct place place, struct findings *findings);

/* ---- doubling.c: warns of lines that may count the same salt twice; of use where a line is RESOLVED_DOUBLES. */
/* Whether a treatment adds salt that the cook brings: to what a tail stands for, to a line. */
bool resolved_is_salted_by_cook(const struct resolved *resolved, const struct library *library);
bool line_is_salted_by_cook(const struct line_amount *amount, const struct library *library);
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

/* ---- crafts.c: the bits of the crafts (ways to keep food) that a computed recipe tells by its names, its steps and what stands
 * behind the commas of its lines. */
uint32_t recipe_crafts(const struct sums *sums);

/* Whether its salt may do more than season, by its words or by a food that preserves: nothing advises less of it then. */
bool recipe_needs_salt(const struct sums *sums);

/* Whether it keeps food by one of the crafts, and with salt. */
bool recipe_keeps_by(const struct sums *sums, uint32_t crafts);

/* ---- cautions.c: which cautions of the rules stand beside a recipe's figures.
 *
 * `persons` are words for whom it is cooked (child, pregnancy, care), as `when for …` of a caution says them. */
struct cautious {
    const struct kitchen *kitchen;
    const struct sums *sums;                /* what is eaten, line by line */
    uint64_t goals;                          /* a bit for each column of which more is wished for */
    struct text persons[2 * LIMIT_EATER_KINDS + 1];
    uint32_t person_count;
};

/* What cautions are asked of a computed recipe or day: what it wishes more of, published goals too, and who eats it. */
struct cautious cautious_of(const struct kitchen *kitchen, const struct sums *sums, const struct verdicts *verdicts);

/* The columns that the recipe's own limits and goals wish more of, or its policies' or the kitchen's, whether they are
 * computed or not. */
uint64_t recipe_goals(struct recipe_at at);

/* The same of a week's. */
uint64_t week_goals(const struct kitchen *kitchen, struct week_at at);

/* ---- week_cautions.c: the cautions of the days of a week, each once; `because` as below. Close them in any case. */
struct week_caution {
    struct text words, source, exactly;
    char because[500];
};

struct week_cautions {
    struct week_caution *at;
    uint32_t count, capacity;
};

/* `sums` takes one day after the other. STATUS_OK or STATUS_NO_MEMORY. */
enum status week_find_cautions(const struct kitchen *kitchen, struct week_at at, struct sums *sums, struct week_cautions *said);
void week_cautions_close(struct week_cautions *said, struct allocator allocator);

/* A caution as it is told. `because`: all that calls for it, the most dangerous first (a food, an ingredient, a goal, a
 * person); no bytes for one that is told of everything. */
struct caution_told {
    struct text words, source, because;
    struct text exactly;                    /* the terms of medicine, for who works with it; or no bytes */
    bool first;                             /* before any figure of a handout */
    uint32_t nutrient;                      /* what it is about, or NONE_INDEX */
};

/* Takes one caution; its texts live until it returns. */
typedef void caution_receiver(void *context, const struct caution_told *told);

/* ---- caution_when.c: whether a condition is met, and `reason`, the words for it in `storage`; with how much of the nutrient of
 * the caution its foods bring, NONE_INDEX for none. And whether a food by itself meets it. */
bool caution_is_met(const struct cautious *cautious, const struct library *owner, const struct when *when, uint32_t nutrient,
                    char *storage, size_t size, struct text *reason);
bool caution_fits_food(const struct library *library, const struct library *owner, const struct when *when, struct food_at food);

/* ---- cautions.c again. Gives what something here calls for: hazards of the library's foods, then cautions of the rules, in their order. */
void cautions_called_for(const struct cautious *cautious, caution_receiver *receive, void *context);

/* Gives what a food by itself calls for, as one on a list to buy; because: `of` and its name. `rules` may be NULL. */
void cautions_of_food(const struct library *library, const struct rules *rules, const struct library *owner, struct food_at food,
                      caution_receiver *receive, void *context);

/* Notes at the title of a recipe or day the first of what comes first there, in a line. */
void recipe_note_caution(const struct sums *sums, const struct verdicts *verdicts, struct findings *findings);

/* Gives what is told beside any figures. */
void cautions_of_all(const struct rules *rules, const struct library *owner, caution_receiver *receive, void *context);

/* ---- order.c: totals of the recipes that others are made from, in order of reference; a cycle is one finding. */
enum status kitchen_total_sources(struct kitchen *kitchen);

/* ---- check.c: the second pass over a kitchen that was read and linked: resolves, adds up and judges every recipe,
 * in as many threads as there are gatherings. All there is to say lies in the gatherings' findings afterwards. */
enum status kitchen_judge(struct kitchen *kitchen);

const char *outcome_name(enum outcome outcome);

/* What one unit of the nutrient is in mmol against one of the other: ratios by moles are ratios by mass times this. 0
 * where one of them has no mole. */
double mole_factor(const struct library *library, uint32_t over, uint32_t under);

/* The column of the first nutrient that is counted in kilocalories, or NONE_INDEX. */
uint32_t energy_column(const struct library *library);

/* The column below the line of a ratio, by energy too; else NONE_INDEX. */
uint32_t bound_under(const struct library *library, const struct bound *bound);

/* ---- words.c: texts in `storage`, which 200 bytes are enough for */

/* So many significant digits, but all of a whole number: never an exponent. Returns the length as snprintf does. */
int print_number(char *storage, size_t size, double amount, int digits);

/* An amount for people: three figures, or all of a whole number, with its unit. */
struct text print_amount(char *storage, size_t size, double amount, struct text unit);

/* The name of the nutrient of a column, and the unit in which a bound of it is computed: "1" for a ratio. */
struct text column_name(const struct library *library, uint32_t column);
struct text bound_column_unit(const struct library *library, const struct bound *bound);

/* What is bounded: `sodium from cook-added per serving`, `sodium to potassium by mass`, `sodium per meal (Lunch)`. */
struct text verdict_subject(const struct library *library, const struct verdict *verdict, char *storage, size_t size);

/* A limit of the bound, as it was written, in the unit in which it was written. */
struct text bound_limit(const struct library *library, const struct bound *bound, double limit, char *storage, size_t size);

/* What the recipe holds: a value, `at least` one, or one with its range. So many figures that each is as plainly
 * above or below the limit as it truly is. */
struct text verdict_value(const struct library *library, const struct verdict *verdict, double limit, char *storage,
                          size_t size);

#endif
