/* compare: two of anything beside each other. What there is to tell is gathered here once, from kitchens that are still
 * open, and told by one file for people and one for programs. */
#ifndef QUERN_OUTPUT_COMPARE_H
#define QUERN_OUTPUT_COMPARE_H

#include "judge/difference.h"
#include "output/figures.h"
#include "output/told.h"

/* One of the two, as people see it. */
struct compare_side {
    struct compared held;
    struct sums sums;                   /* of a recipe or day */
    struct verdicts verdicts;
    struct text name, kind;             /* kind: recipe, day, label, food */
    struct text file;                   /* where it stands; no bytes: in the library */
    uint32_t line;
    struct text serving;                /* `1 cup drained`, of a food */
    struct text source;                 /* of a food or label */
    struct text revision;               /* where it was read from, or no bytes: as it is now */
    struct text *written;               /* its lines */
    uint32_t unknown_count;             /* lines that hold nobody knows how much of the compared nutrient */
    bool also_a_food;
};

/* What has the name, over all kitchens that were looked at. */
struct compare_search {
    const char *name;
    uint32_t hits, kitchen;             /* recipes, days and labels; the number of the kitchen that has the first */
    uint32_t kitchens;                  /* looked at so far */
    bool asked_for;                     /* the hits stand in files that were asked for: others do not count */
    bool is_food, is_week;
    struct text places[2];              /* of the first two hits */
    struct text kinds;                  /* of a plain word that stands for kinds: their names */
    struct text near;                   /* names that lie near, as a list */
};

/* A share of each. */
struct compare_figure {
    bool had;                           /* both shares can be had */
    struct range first, second;
    bool first_had, second_had, first_complete, second_complete;
    struct change change;
};

/* A line of the first and the line of the second that belongs to it; one of them may have no bytes. */
struct compare_row {
    struct text first, second;          /* as they were written */
    struct range first_holds, second_holds;     /* per serving */
    bool first_known, second_known;
    bool same;                          /* one true amount in both */
    uint32_t number;                    /* in the order in which they were written */
    struct change change;
};

/* How the sizes of the servings stand to each other. */
enum servings_fit { SERVINGS_ALIKE, SERVINGS_DIFFER, SERVINGS_UNKNOWN };

#define SERVINGS_DIFFER_BY 0.1          /* a tenth of the larger: common practice, no source */

struct compare {
    const struct quern_compare *wanted;
    struct arena arena;
    struct compare_side sides[2];
    struct compare_search searches[2];
    uint32_t looks_for;                 /* bits: which sides the next kitchen has */
    size_t strip;                       /* bytes at the start of paths that are not shown */
    const char *revision;               /* what the next kitchen is of, or NULL: as it is now */
    enum status (*next)(void *context); /* reads the kitchen of the other side while this one is open; NULL: both are here */
    void *context;

    struct line_pairs pairs;
    uint32_t nutrient;                  /* the one whose lines are told */
    uint32_t shown[3], shown_count;     /* it, and those that the rules compare */
    struct compare_figure *figures;     /* a row of SHARE_COUNT for each nutrient */
    struct compare_row *rows;           /* the largest change first */
    uint32_t row_count, same_count;
    enum servings_fit servings;
    bool orders_differ;                 /* per serving one holds more, per 100 g the other */
    struct told_cautions cautions;
};

/* Nothing is found yet; and the end, which comes while the kitchens are still open. */
void comparison_open(struct compare *comparison, const struct quern_compare *wanted, struct allocator allocator);
void comparison_close(struct compare *comparison);

/* Takes its sides out of a kitchen that was judged, and tells when both are there. The task is the comparison. */
telling_kitchen_call comparison_kitchen;

/* Looks for the names of its sides in a kitchen that was judged, and only counts what it finds; the next kitchen comes
 * behind it. */
telling_kitchen_call comparison_look;

/* Whether each side that is looked for was found once; else STATUS_USAGE, and `telling` says what is wrong. */
enum status comparison_found(const struct compare *comparison, struct telling *telling);

/* ---- the forms: compare_people.c, compare_json.c */

enum status comparison_tell(struct compare *comparison, struct telling *telling);
void comparison_json(struct compare *comparison, struct telling *telling);

#endif
