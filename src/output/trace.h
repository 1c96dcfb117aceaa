/* trace: the whole sum behind one figure of a recipe or day, gathered once and told by one file a form. Each line goes from
 * its amount to grams, to what 100 g of the food hold, through what was done to it, to its share of a serving; recipes that
 * are lines of others are traced, too, each once. Nothing is computed here that the sums have not computed: steps come from
 * model/derive.h and from what a dish shows its witness. */
#ifndef QUERN_OUTPUT_TRACE_H
#define QUERN_OUTPUT_TRACE_H

#include "model/derive.h"
#include "output/output.h"
#include "output/written.h"

/* What happened to a line, or between foods and a bath. */
struct trace_move {
    enum dish_event_kind kind;
    uint32_t line, bath, part;          /* numbers of the traced recipe's lines and baths, of the gathering's parts; or NONE_INDEX */
    struct range before, after;         /* of the line; DISH_ENDS: of the bath */
    struct range share;                 /* as struct dish_event says */
    const struct visit *visit;          /* of a food in a bath, */
    struct range bath_before, bath_after;           /* … what the bath holds, */
    struct range grams, water, bath_water, of_water; /* … weight, water of food and bath, and its share of all water, */
    bool is_measured;                   /* DISH_GIVEN: the line is known so far */
    bool known, bath_known;             /* so is all that the line holds of the column, and what the bath does */
    uint32_t round;                     /* … and with which others: those of one number share the bath at once */
    struct trace_move *next;
};

struct traced_line {
    const struct line_amount *amount;
    struct position position;
    struct text words;                  /* as written */
    struct derivation how;
    bool is_measured;                   /* how much it is, of what, is known, whatever a dish makes of it */
    bool known;                         /* … and what is left of the column */
    bool amount_known, value_known, rate_known; /* the upper end of its amount; what one of them holds; the same, treated */
    struct range driver;                /* how many hundreds of grams, servings or batches */
    struct range value, grams, rate;    /* one of them: of the column and its weight, as it comes; of the column, as treated */
    struct range total;                 /* the line's, in all of the recipe */
    uint32_t recipe;                    /* the number of the traced recipe that the line is made from, or NONE_INDEX */
    struct range whole;                 /* its batch, in what the line measures it by */
};

struct traced_recipe {
    struct recipe_at at;
    struct sums sums;
    struct verdicts verdicts;
    struct position position;
    struct traced_line *lines;
    uint32_t line_count;
    struct trace_move *moves, **moves_end;
    uint32_t rounds;
    struct range sum;                   /* of the lines, before what baths leave no room for */
    struct range total;
    bool complete;
};

struct trace {
    const struct quern_trace *wanted;
    struct showing *showing;
    const struct kitchen *kitchen;
    const struct library *library;
    struct arena arena;
    uint32_t column;
    struct traced_recipe **recipes;     /* the wanted one first; then those that stand in it, in their lines */
    uint32_t count, capacity;
    bool failed;
};

/* The column that words name: a nutrient, `sodium from cook-added`, or `weight`; NONE_INDEX where there is none. */
uint32_t trace_column(const struct library *library, struct text words);

/* Its name and unit; the words live in the arena. */
struct text trace_column_name(struct trace *trace);
struct text trace_column_unit(const struct trace *trace);

/* Traces the recipe: STATUS_OK or STATUS_NO_MEMORY. `trace` is closed afterwards in either case. */
enum status trace_gather(struct trace *trace, struct recipe_at at);
void trace_open(struct trace *trace, const struct quern_trace *wanted, struct showing *showing, uint32_t column);
void trace_close(struct trace *trace);

/* Whether a verdict is about the traced column. */
bool trace_is_about(const struct trace *trace, const struct verdict *verdict);

/* How a serving's figure is printed, by the rules in force; what goes into that. */
struct trace_result {
    struct range serving, hundred;      /* per serving; per 100 g */
    bool has_serving, has_hundred, hundred_estimated;
    const struct rounding *rounding;    /* or NULL: three figures */
    const struct daily_value *day;      /* or NULL */
};
void trace_result(const struct trace *trace, const struct traced_recipe *recipe, struct trace_result *result);

/* ---- the forms: trace_sheet.c, trace_json.c, trace_record.c */
void trace_tell(struct trace *trace, enum quern_form form, struct writer *writer);
void trace_json(struct trace *trace, struct writer *writer);
void trace_record(struct trace *trace, enum quern_form form, struct writer *writer);

/* ---- trace_kitchen.c: what `quern trace` tells of a kitchen; `telling->task` is a struct trace_task. */
struct trace_task {
    const struct quern_trace *wanted;
    bool found;
    char near[256];                     /* names near the one that nobody has */
};
telling_kitchen_call trace_kitchen;

#endif
