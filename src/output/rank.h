/* rank: which foods and lines bring most of a nutrient, over all recipes of a kitchen or in one day. Gathered over all
 * kitchens that were read, told by one file for people and one for programs.
 *
 * Recipes inside recipes are opened up: their foods count in the dishes that they stand in, and not a second time. */
#ifndef QUERN_OUTPUT_RANK_H
#define QUERN_OUTPUT_RANK_H

#include "output/held.h"
#include "output/told.h"

/* So much of the nutrient: in all, each recipe cooked once, and in one serving of each. Of a day both are the same. */
struct rank_amount {
    struct range total, serving;
};

struct rank_food {
    struct text name, source;
    struct rank_amount amount;          /* what is known of it */
    uint32_t lines;                     /* that bring it */
    bool unknown;                       /* nobody knows how much more */
};

struct rank_line {
    struct text text, recipe, part, file;   /* part: of a day the meal; else the part around it, or no bytes */
    struct rank_amount amount;
    uint32_t line, number;              /* in its file; in the order in which they came */
    bool unknown;
};

/* A limit or goal of the nutrient that a dish is held to, by what a serving, all of it, the day or a meal holds. */
struct rank_limit {
    struct text recipe, limit, is, value;   /* limit: `limit: sodium per serving at most 350 mg (House)`; is: its outcome in words */
    struct range holds;
    bool complete, is_goal;
    enum outcome outcome;
    enum tone tone;
    enum standing_rank rank;
    uint32_t number;                    /* in the order in which they came */
};

#define RANK_UNKNOWN_SHOWN 20           /* unknown lines that are told; the others are counted */

struct ranking {
    const struct quern_rank *wanted;
    struct arena arena;
    uint32_t nutrient, limit;
    struct text nutrient_name, nutrient_key, unit, name;    /* name: of the day, or of the kitchen where there is one */

    struct rank_food *foods;            /* at the end: the most in all first */
    uint32_t food_count, food_capacity;
    struct table food_table;
    struct rank_line *lines;            /* at the end: the most per serving first, `limit` of them */
    uint32_t line_count, line_capacity, lines_seen;
    double least;                       /* lines that bring no more are no longer kept */

    struct rank_amount whole;
    uint32_t recipes, inside, whole_pots;   /* that count; that stand in others; that do not say how many they serve */
    uint32_t left_out;                  /* recipes that stand in one another: an error speaks of them */
    struct rank_line *unknown;          /* lines of which nobody knows how much they bring */
    uint32_t unknown_kept, unknown_count;
    struct rank_limit *limits;          /* at the end: broken ones first; of each rank no more than `limit` */
    uint32_t limits_kept, limits_capacity, limits_seen[STANDING_COUNT];     /* kept here; met, of each rank */
    uint32_t kitchens, days;            /* looked at; of the wanted name */
    bool is_recipe, is_week;            /* the name of the day is none of a day */
    struct text near;                   /* names of days */
    struct told_cautions cautions;
};

/* Opens a ranking of what is wanted, and closes it in any case. */
void ranking_open(struct ranking *ranking, const struct quern_rank *wanted, struct allocator allocator);
void ranking_close(struct ranking *ranking);

/* Adds a kitchen that was judged; the task is the ranking. */
telling_kitchen_call ranking_kitchen;

/* Sorts what was gathered and tells it. STATUS_USAGE, with why in `telling`, where the day is not there, or twice. */
enum status ranking_tell(struct ranking *ranking, struct telling *telling);

/* Whether all that the recipes hold is known. */
bool ranking_is_complete(const struct ranking *ranking);

/* Words that live as long as the ranking. */
struct text ranking_keep(struct ranking *ranking, struct text text);

/* ---- rank_limits.c: notes what a dish is held to; false when memory failed. And puts broken ones first. */
bool ranking_add_limits(struct ranking *ranking, const struct sums *sums, const struct verdicts *verdicts);
void ranking_sort_limits(struct ranking *ranking);

/* How many limits and goals are told: all of a single dish; else those that are not kept, up to `limit`. And how many there are. */
uint32_t rank_limits_shown(const struct ranking *ranking);
uint32_t rank_limits_open(const struct ranking *ranking);

/* How many of so many are told. */
static inline uint32_t rank_shown(uint32_t count, uint32_t limit)
{
    return count < limit ? count : limit;
}

/* ---- the forms */

enum status rank_people(struct ranking *ranking, struct telling *telling);
void rank_json(struct ranking *ranking, struct telling *telling);

#endif
