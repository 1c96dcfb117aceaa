/* model: what a kitchen means. The first pass (collect.c) turns each declaration into compact records and drops
 * its tokens and tree; what follows the amount of a line is kept once for all lines that say the same (a tail).
 * The second pass (resolve.c) finds the food, the measure and the treatments of each tail, once.
 *
 * All that stands here lives in the arenas of its gathering; a worker thread has a gathering of its own. After
 * kitchen_link the records and names are immutable and shared. */
#ifndef QUERN_MODEL_H
#define QUERN_MODEL_H

#include "base/base.h"
#include "finding/finding.h"
#include "library/library.h"
#include "text/text.h"


struct within;

/* ---- records of the first pass ------------------------------------------------------------------------------- */

/* What stands behind the amount of a line: `cups carrots, diced`. Spans of its items count from its first byte. */
struct tail {
    struct text text;
    struct item *items;
    struct phrase *phrases;
    bool is_measured;                   /* false behind `some`: then no weight of one is asked for */
    double written;                     /* the amount before a parenthesis (`1/2 can (7 oz)`), where it is not 1; else 0 */
    struct resolved *resolved;          /* second pass; NULL until then */
};

enum line_flag {
    LINE_BROKEN = 1,                    /* a finding speaks of it: the sum cannot hold it */
    LINE_NOT_COMPUTED = 2,
    LINE_WITHOUT_AMOUNT = 4,            /* computed as `some`; a finding speaks of it already */
};

/* What a line says, wherever it stands: lines that are remembered share it. */
struct saying {
    double low, high;                   /* the written amount */
    uint32_t tail;                      /* number in its gathering, NONE_INDEX for a broken line */
    uint32_t tail_offset;               /* from the start of the line */
    uint8_t quantity, flags;            /* enum quantity_kind, enum line_flag */
};

/* A line as it is kept: a large kitchen has a million of them. */
struct line_record {
    uint32_t start;                     /* byte in the file */
    uint32_t saying, part;              /* numbers in its gathering; part may be NONE_INDEX */
};

/* A line as it is worked with; see gathering_line. */
struct line {
    double low, high;
    uint32_t start, tail_start;         /* bytes in the file; it ends where its tail ends */
    uint32_t tail, part;
    uint8_t quantity, flags;
};

struct part {
    struct text name;
    uint32_t parent;                    /* the part around it, or NONE_INDEX */
    uint32_t tail;                      /* its treatments as a tail without items, or NONE_INDEX */
    struct place place;
    uint32_t tail_start;
    uint32_t first_line, line_end;      /* in the gathering; the lines of parts within it, too */
    bool is_bath, is_meal;
};

/* A limit or a goal. `most` and `least` are in the nutrient's unit, or a ratio's own. */
struct bound {
    uint32_t column, over;              /* over: the column below the line of a ratio, or NONE_INDEX */
    bool is_goal, has_most, has_least, strict, by_moles;
    uint8_t origin;                     /* enum origin of the column, ORIGIN_COUNT for all */
    enum basis basis;
    double most, least;
    double slack;                       /* `most` and `least` are the strictest of several: broken only this far beyond */
    uint32_t meal;                      /* the part of a day that it stands in, or NONE_INDEX */
    bool by_clinician;                  /* `set by clinician`: published figures are silent beside it */
    double per;                         /* grams or kcal of the basis */
    double divisor;                     /* mmol and mEq limits: the nutrient's units in one of them; else 1 */
    struct text unit;                   /* as written */
    struct place place;
};

struct recipe_portion {
    struct text key;                    /* of its name */
    struct range batch, grams;          /* one of them; high 0: not this one */
};

struct follow {
    struct text name;
    struct place place;
};

/* Whom a day, a recipe or a policy is for: `for adult woman 35 under care`. */

struct eater {
    struct text words[LIMIT_EATER_WORDS];     /* what kind of person, as written */
    uint32_t word_count;
    struct text written;                /* all of it */
    double age;                         /* months; below 0: not said */
    bool under_care;
    bool broken;                        /* a finding speaks of it: it is compared with nothing published */
    struct place place;
};

/* `expect sodium 310 mg (within 5%)`: a best value that shall not move unseen. */
struct expectation {
    uint32_t column;
    enum basis basis;                   /* PER_SERVING, PER_RECIPE, PER_DAY */
    double value, within;               /* in the nutrient's unit; a share of it */
    double divisor;                     /* mmol and mEq: the nutrient's units in one of them; else 1 */
    struct text unit;                   /* as written */
    struct text library;                /* checksum of the library that it was written with, or no bytes */
    struct place place;
};

/* A claim as a recipe or a policy says it. */
struct claim_said {
    struct text name, compared;         /* compared: what it is compared to, or no bytes */
    struct place place, compared_place;
    bool compared_bare;                 /* … without quotes: a food, else a recipe or a label */
    bool footnote;                      /* the footnote that the rules ask for stands on it */
};

/* What few recipes say of how rules see them. */
struct claiming {
    struct text kind;                   /* `counts as meal`; no bytes: not said */
    struct place kind_place;
    struct text category, unit;         /* the reference amount: of a category, or in a unit; no bytes: not said */
    double amount;                      /* of the unit */
    struct place reference_place;
};

/* What few recipes say of how much they make. */
struct yields {
    struct range makes_grams, makes_ml; /* the batch; high 0: not said */
    struct range serving_grams, serving_ml;
};

struct recipe {
    struct text name;
    uint32_t file;
    struct span title, whole;
    struct span document;               /* the ## comments before it */
    struct range serves;                /* high 0: not said */
    struct text pieces;                 /* `makes 12 muffins` without `serves`: their word, and a serving is one; else no bytes */
    const struct yields *yields;        /* never NULL */
    const struct claiming *claiming;    /* or NULL */
    uint32_t first_claim, claim_count;
    uint32_t first_line, line_count, first_bound, bound_count;
    uint32_t first_portion, portion_count, first_follow, follow_count, first_part, part_count;
    bool is_estimated;                  /* a line of it is weighed from a recipe that nobody weighed */
    uint32_t depth;                     /* how many recipes lie inside one another below it */
    uint8_t walk;                       /* where the walk in order of reference stands */
    bool incomplete;                    /* something in it is not computed */
    bool is_day;                        /* a day: its meals are parts, and no recipe is made from it */
    const struct eater *eater;          /* whom it says it is for; or NULL */
    uint32_t crafts;                    /* bits of the crafts that its steps and notes tell */
    uint32_t first_expectation, expectation_count;
    struct amounts *total;              /* second pass; kept only where another recipe needs it */
};

/* Days side by side, each named or declared in it. */
struct week {
    struct text name;
    uint32_t file;
    struct span title, whole;
    uint32_t first_day, day_count;      /* in the gathering's week_days */
    uint32_t first_bound, bound_count, first_follow, follow_count;
};

/* What a policy says of packets. */
struct packet_policy {
    bool tolerance;                     /* ranges of labels hold what the law lets a laboratory find */
    uint32_t oldest;                    /* days since a packet was seen, at most; 0: not said */
};

struct policy {
    struct text name;
    struct place place;
    const struct eater *eater;          /* whom it says it is for; or NULL */
    uint32_t first_bound, bound_count, first_claim, claim_count;
    bool variation;                     /* ranges hold how foods vary */
    double spoon_error;                 /* share by which a spoon or cup errs, 0 to 0.5 */
    struct packet_policy packets;
};

/* What one worker has collected. */
struct gathering {
    struct arena arena;                 /* records' texts, tails, kept declarations */
    struct arena findings_arena;
    struct findings findings;
    struct arena trees;
    struct buffer buffer;               /* the file being read */
    struct parse parse;
    struct line_memory memory;
    struct kitchen *kitchen;

#define RECORDS(type, name) struct type *name; uint32_t name##_count, name##_capacity;
    RECORDS(line_record, lines)
    RECORDS(saying, sayings)
    RECORDS(part, parts)
    RECORDS(bound, bounds)
    RECORDS(recipe, recipes)
    RECORDS(policy, policies)
    RECORDS(tail, tails)
    RECORDS(recipe_portion, portions)
    RECORDS(follow, follows)
    RECORDS(expectation, expectations)
    RECORDS(week, weeks)
    RECORDS(follow, week_days)
    RECORDS(claim_said, claims)
#undef RECORDS
    struct table tail_table;
    struct table bath_names;            /* keys of the baths of all its recipes */
    struct table within_table;          /* lines resolved with the treatments of the parts around them */
    struct within *withins;
    uint32_t withins_count, withins_capacity;
    struct arena keeps_arena;           /* what treatments leave of each column: each set once */
    struct table keeps_table;
    const struct range **keeps;
    uint32_t keeps_count, keeps_capacity;
    uint64_t bound_columns;             /* the columns that its limits and goals ask for, a bit each */

    struct declaration *declarations, **declarations_end;
    struct text kept_text;              /* a copy of the file, made when it declares knowledge */
    uint32_t file;
    bool in_loose_lines;                /* the last declaration stood in no recipe */
    uint32_t near_searches;             /* for names near an unknown recipe: each looks at all recipes */
    bool failed;
};

struct kitchen_file {
    const char *path;                   /* as shown */
    bool requested;                     /* its findings are wanted */
    bool is_kitchen;                    /* the kitchen.quern */
    bool is_used;                       /* taken in by `use` */
    bool is_refused;                    /* it may not be opened: see struct planned_file */
    enum status status;
    int reason;                         /* errno of a file that could not be read */
};

struct recipe_at {
    struct gathering *gathering;
    struct recipe *recipe;
};

struct week_at {
    struct gathering *gathering;
    struct week *week;
};

struct kitchen {
    struct allocator allocator;
    struct arena arena;                 /* names and paths */
    const struct library *stdlib;
    struct mapped_file used_pack;       /* the pack of a `use`, or no bytes */
    struct library used;                /* its view; used.base is stdlib */
    const struct library *below;        /* &used, or stdlib */
    struct library local;               /* what the kitchen declares; local.base is `below` */
    const struct library *library;      /* &local, or `below` when nothing is declared */
    void *local_pack;

    const char *root;                   /* folder of kitchen.quern, or NULL: a file on its own */
    const char *const *allowed;         /* folders outside it that `use` may read */
    size_t allowed_count;
    struct text name;
    const char *unread_path;            /* what a `use` names, is there and could not be read; or NULL */
    int unread_reason;                  /* errno of that */
    struct kitchen_file *files;
    uint32_t files_count, files_capacity;

    struct gathering *gatherings;
    uint32_t gatherings_count;

    struct recipe_at *recipes;          /* all, in order of file and place */
    uint32_t recipes_count;
    struct week_at *weeks;              /* all, in order of file and place */
    uint32_t weeks_count;
    struct table names;                 /* keys of recipes and days; value: number in recipes */
    struct table policies;              /* keys of policies; value: gathering << 20 | number */

    struct text input;                  /* what standard input held, for excerpts */
    struct text rules_name;
    struct place rules_place;
    bool rules_said;
    bool variation;                     /* asked for, or by a policy that the whole kitchen follows */
    double spoon_error;                 /* the same: share by which a spoon or cup errs, 0 to LIMIT_SPOON_ERROR */
    bool tolerance;                     /* by a policy that the whole kitchen follows: see struct packet_policy */
    uint32_t today;                     /* the day it is, as day_of counts; 0: nobody said, so no packet is old */
    const struct rules *rules;
    const struct library *rules_owner;
    const struct rules *cautions;       /* the rules whose cautions are printed */
    const struct library *cautions_owner;
    struct follow *follows;             /* of the whole kitchen */
    uint32_t follows_count, follows_capacity;
    struct follow *uses;
    uint32_t uses_count, uses_capacity;
    bool failed;
};

/* ---- gathering.c, collect.c ---------------------------------------------------------------------------------------- */

void gathering_open(struct gathering *gathering, struct kitchen *kitchen);
void gathering_close(struct gathering *gathering);

/* Reads one text and collects its declarations; `bytes` needs two NULs behind it. */
enum status gathering_read(struct gathering *gathering, uint32_t file, char *bytes, uint32_t length);

/* Collects one declaration; true when its tree must stay (a declaration_receiver). */
bool collect_declaration(void *gathering, struct node *node);

/* The number of the tail with this text, made when it is new; NONE_INDEX when memory failed. */
uint32_t gathering_tail(struct gathering *gathering, struct span span, const struct quantity *quantity, const struct item *items,
                        const struct phrase *phrases);

/* The line with this number of the gathering. */
struct line gathering_line(const struct gathering *gathering, uint32_t number);

/* ---- bound.c: limits and goals; false when a finding tells why there is none. `meal`: the part that holds it, or
 * NONE_INDEX. */
enum bound_holder { BOUND_OF_RECIPE, BOUND_OF_DAY, BOUND_OF_MEAL, BOUND_OF_WEEK, BOUND_OF_POLICY };
bool collect_bound(struct gathering *gathering, const struct node *node, enum bound_holder holder, uint32_t meal);

/* ---- kitchen.c ---------------------------------------------------------------------------------------------------- */

void kitchen_open(struct kitchen *kitchen, struct allocator allocator, const struct library *stdlib, uint32_t gatherings);
void kitchen_close(struct kitchen *kitchen);

/* ---- read.c */

#define KITCHEN_FILES_PER_WORKER 16     /* a thread takes so many files at a time; fewer need no second thread */

/* Adds a file before the kitchen is read; false when memory failed. */
bool kitchen_add_file(struct kitchen *kitchen, const char *path, bool requested, bool is_kitchen);

/* Reads and collects all files, kitchen.quern first since it may name more of them; `given` is the text of the only
 * file when it was handed over as text. Files that cannot be read are findings, and remembered with their file. */
enum status kitchen_read(struct kitchen *kitchen, struct text given);

/* ---- used.c: what the `use` lines of kitchen.quern name; what cannot be used is a finding. */
enum status kitchen_add_used(struct kitchen *kitchen);

/* What is wrong with rules that the kitchen follows is its own affair, also in a file from elsewhere: it is told where they
 * are followed, with a label in that file. */
void kitchen_tell_used_rules(struct kitchen *kitchen, const struct declaration *declarations);

/* ---- kitchen.c again */

/* After all files are read: compiles what the kitchen declares, gives recipes and policies their names. */
enum status kitchen_link(struct kitchen *kitchen);

/* The first of a food's ranges as the kitchen wants them: as they are told, with how samples vary, or, of a label, with
 * the law's tolerance. */
static inline uint32_t kitchen_food_row(const struct kitchen *kitchen, const struct food *food)
{
    if (kitchen->tolerance && food->flags & FOOD_IS_LABEL)
        return food->tolerated;
    return kitchen->variation ? food->varied : food->values;
}

/* The recipe or day with this name, or NULL in it. */
/* Where the tolerance of labels for a nutrient is from, by the rules in force; empty where they have none. */
struct text kitchen_tolerance_source(const struct kitchen *kitchen, uint32_t nutrient);

struct recipe_at kitchen_recipe(const struct kitchen *kitchen, struct text name);
const struct policy *kitchen_policy(const struct kitchen *kitchen, struct text name, struct gathering **owner);

/* Notes and fixes with names of recipes and labels that lie near a name nobody has. */
void kitchen_near_recipes(const struct kitchen *kitchen, struct findings *findings, struct finding *finding,
                          struct text name, uint32_t file, struct span span, uint32_t shift);

/* Recipes and days with names near this one, `most` at most; returns how many. */
uint32_t kitchen_near_names(const struct kitchen *kitchen, struct text name, struct text *near, uint32_t most);

/* The same with names of days. */
void kitchen_near_days(const struct kitchen *kitchen, struct findings *findings, struct finding *finding, struct follow named);

/* ---- doubling.c: notes the kind that holds less of the traced nutrient, where the food names one (`milder`). */
void kitchen_note_milder(struct findings *findings, struct finding *finding, const struct kitchen *kitchen, struct food_at food);
uint32_t kitchen_other_nutrient(const struct kitchen *kitchen);     /* what people watch beside it, or NONE_INDEX */

void kitchen_note_kinds(const struct kitchen *kitchen, const struct library *owner, const struct shelf *shelf, struct findings *findings, struct finding *finding);

/* ---- resolve.c ------------------------------------------------------------------------------------------------------ */

enum subject { SUBJECT_NONE, SUBJECT_FOOD, SUBJECT_RECIPE, SUBJECT_BATH };

/* How much of a recipe one of the written amount is. */
enum recipe_measure { RECIPE_SERVINGS, RECIPE_BATCHES, RECIPE_GRAMS, RECIPE_ML };   /* of a bath the last two */

enum resolved_flag {
    RESOLVED_TOTAL = 1,                 /* the scale is of the whole line, whatever the amount */
    RESOLVED_OPTIONAL = 2,
    RESOLVED_NO_UPPER = 4,
    RESOLVED_NOT_COMPUTED = 8,
    RESOLVED_SPEAKS = 16,               /* there is a finding to tell at every line that says this */
    RESOLVED_BAD = 32,                  /* … and it is an error: the line counts as unknown */
    RESOLVED_BY_VOLUME = 64,
    RESOLVED_BY_COUNT = 128,
    RESOLVED_WEIGHED_AFTER = 256,       /* weighed the way the line leaves it: `strength` was used */
    RESOLVED_MASS_KNOWN = 512,
    RESOLVED_MOVES = 1024,              /* it goes into a bath, is taken from one, or has a fate: see dish.c */
    RESOLVED_TREATS = 2048,             /* of a part: its treatments have figures for the foods in it */
    RESOLVED_SPEAKS_AROUND = 4096,      /* there is a finding to tell of a part's treatment at this line's food */
    RESOLVED_DOUBLES = 8192,            /* its food may hold already what another line brings: see library_doubling */
};

#define TREATMENTS_SHOWN LIMIT_PHRASES      /* as many as a line may have: reports and traces show them all */

/* What treatments did, one after the other, to 100 g (or a serving, or a batch) that went in. */
struct stage {
    const struct range *keeps;          /* of each column; NULL: everything stays; tails of one treatment share it */
    const struct range *adds;           /* per 100 g that went in, in each column; NULL: nothing */
    struct range mass;                  /* after against before, `kept` aside */
    uint64_t lost;                      /* columns that nobody knows afterwards */
    bool weight_is_water;               /* nothing told of water, so all change of weight is counted as water */
};

/* A food goes into a bath. Arrays hold a range for each column below mass. */
struct visit {
    struct text bath;                   /* as written in the tail */
    struct span span;                   /* of the phrase; in the part's tail where `around` */
    uint32_t part;                      /* whose phrase it is, or NONE_INDEX: the line's own */
    uint64_t balanced;                  /* columns of which the food keeps what mass balance leaves */
    const struct range *own;            /* share of its own that the food keeps in the others */
    const struct range *reach;          /* fraction of equilibrium with the bath */
    uint64_t lost;                      /* columns that nobody knows afterwards */
    struct range uptake;                /* water taken up against the weight before; below 0: given off */
    struct stage after;                 /* what was done then, per 100 g out of the bath */
};

/* What becomes of a whole: of a line, a part, or what is left of a bath. */
struct fate {
    struct range grams, ml;             /* reduced to so much; high 0: not said */
    struct range by;                    /* … by this share of it */
    struct range thrown_grams, thrown_ml;   /* thrown away */
    bool reduced, thrown, keeps_bath, in_turn;
    struct span span;                   /* of the phrase that reduces it */
};

/* What few lines need: the others share one that holds nothing. */
struct rare {
    const struct range *thrown;           /* grams (hundredths of a label's serving) thrown away, or NULL */
    const struct visit *visits;         /* LIMIT_PHRASES at most, in order */
    uint32_t visit_count;
    const struct fate *fate;            /* or NULL */
    struct text bath;                   /* SUBJECT_BATH: its name as written */
    struct text measure_words;          /* by a volume that nobody has fixed: its words, and the ml of one */
    struct range measure_ml;            /* else exact */
};

/* What every line of the tail needs stands first: a large kitchen asks for it a million times, at random. */
struct resolved {
    enum subject subject;
    uint32_t flags;
    const struct range *values;         /* of a food: what 100 g or a serving hold, a column each */
    uint64_t unknown;                   /* … and the columns that nobody knows */
    struct stage done;
    struct range scale;                 /* 100 g, label servings, or recipe measures in one of the amount */
    struct range kept;                  /* `kept 20%`: share of all that stays */
    double edible;                      /* best share of what was weighed that is eaten; 0: all of it */
    struct range expected;              /* beside a total in parentheses: the scale of one by the words; high 0: none */
    struct range some;                  /* what `some` of it is, in the scale's unit; high 0: nobody knows */
    struct food_at food;
    struct recipe_at recipe;
    enum recipe_measure measure;
    uint32_t evidence;                  /* the weakest of its treatments, EVIDENCE_NONE when none was needed */
    uint32_t treatment_count;
    struct text *treatments;            /* TREATMENTS_SHOWN at most */
    const struct rare *rare;            /* never NULL */
};

/* Where a resolution speaks: `findings` NULL for silence. */
struct voice {
    struct findings *findings;
    uint32_t file, shift;               /* added to the spans of a tail */
};

/* Resolves a tail once and keeps the result with it; NULL when memory failed. */
const struct resolved *tail_resolve(struct gathering *gathering, uint32_t tail);

/* The same of a tail that stands in a part whose treatments have figures: they follow its own, from the innermost
 * part on. */
const struct resolved *tail_resolve_within(struct gathering *gathering, uint32_t tail, uint32_t part);

/* Tells what there is to tell of the parts' treatments at this line's food. */
void tail_speak_within(struct gathering *gathering, uint32_t tail, uint32_t part, struct findings *findings, uint32_t file);

/* Offers near names for the first findings that wish for some (wishes.c). STATUS_OK or STATUS_NO_MEMORY. */
enum status kitchen_grant_wishes(struct kitchen *kitchen);

/* Whether some bath of the gathering has this name. */
bool gathering_has_bath(const struct gathering *gathering, struct text name);

/* Tells again, at one line, what there is to tell of its tail. */
void tail_speak(struct gathering *gathering, uint32_t tail, struct findings *findings, uint32_t file,
                uint32_t tail_start);

#endif
