/* lookup: what was found in the library for some words, a group or both; gathered once here and told by one file a
 * form. A figure that nobody knows is told as unknown in each of them. */
#ifndef QUERN_OUTPUT_LOOKUP_H
#define QUERN_OUTPUT_LOOKUP_H

#include "output/output.h"

#define LOOKUP_COLUMNS 3                /* nutrients in a list: what it is sorted by, and the two that are compared */

/* A line of a recipe that uses the food. */
struct use {
    struct use *next;
    const char *file;
    uint32_t line;
    struct text recipe, text;           /* the line as it was written */
};

struct lookup {
    const struct quern_lookup *wanted;
    struct allocator allocator;
    struct arena arena;                 /* of the uses */
    const struct library *library;
    const struct rules *rules;          /* for cautions and what is compared; or NULL */
    const struct library *rules_owner;
    struct text words;                  /* no bytes: every food of a group */
    struct food_at card;                /* the words are its name, and its card is wanted; food NULL: not so */
    const struct shelf *shelf;          /* the words are a plain word that stands for kinds, or NULL */
    const struct library *shelf_owner;
    const struct unit *unit;            /* … or the name of a measure: of mass, volume, or how one is filled; or NULL */
    const struct library *unit_owner;
    struct search search;               /* not done where only a card or kinds are told */
    uint32_t columns[LOOKUP_COLUMNS], column_count;
    uint32_t limit;
    bool is_list;                       /* more than a card was asked for */

    bool is_alone;                      /* there is one kitchen: lists hold its own foods, too */
    bool was_told;
    struct use *uses, **uses_end;       /* in order of file and line */
    uint32_t use_count;
    uint32_t unknown_lines;             /* lines of the kitchen whose food nobody knows */
};

/* ---- lookup.c */

/* Nothing is found yet; closing gives all memory back. */
void lookup_open(struct lookup *lookup, const struct quern_lookup *wanted, struct allocator allocator);
void lookup_close(struct lookup *lookup);

/* Looks up and tells. telling->errors is 0 when there is a food, kinds, or a food with all of the words. `rules`
 * may be NULL. STATUS_USAGE, with why in `telling`, when there are no words or no such group or nutrient. */
enum status lookup_tell(struct lookup *lookup, struct telling *telling, const struct library *library,
                        const struct rules *rules, const struct library *rules_owner);

/* How many of what was found stand in the list, and how many hold all of the words. */
uint32_t lookup_shown(const struct lookup *lookup);
uint32_t lookup_fitting(const struct lookup *lookup);

/* The food of this name, in written order or as a set of words; no food when there is none. */
struct food_at lookup_named(const struct library *library, struct text name);

/* The name under which a food is told: its first, or where that now means a kitchen's own food the one it was found
 * under. */
struct text lookup_name(const struct library *library, struct food_at food, struct text found_as);

/* The food of a kind of the shelf; no food when the library has none of that name. */
struct food_at lookup_kind(const struct lookup *lookup, uint32_t kind);

/* The portion that cooks use most, which the food gives first, or NULL. One that is weighed drained is none for
 * figures of something else. */
const struct portion *lookup_portion(struct food_at food);

/* `1 cup chopped` in `storage`. */
struct text lookup_portion_words(struct food_at food, const struct portion *portion, char *storage, size_t size);

/* What 100 g, or a portion, hold of a column; false when nobody knows. */
bool lookup_amount(struct food_at food, const struct portion *portion, uint32_t column, struct range *amount);

/* Three figures, or all of a whole number; up, down or to the nearest. */
double figure_rounded(double amount, enum direction direction);

/* `278`, `300 to 380` or `unknown`: three figures, or all of a whole number; ranges are rounded outward. */
struct text lookup_figure(char *storage, size_t size, struct range amount, bool is_known);

/* `whole can`, `drained`, `not stated`, or NULL for a food that is no canned one. */
const char *lookup_basis(struct food_at food);

/* The name of the food's group, or no bytes. */
struct text lookup_group(const struct library *library, struct food_at food);

/* `name`, `words`, `group`, `near` or `some`: how a food was found, for programs. */
const char *lookup_match_word(enum match_kind kind);

/* Gives the cautions that the foods call for, each once, then those of the nutrients that are told; and those of one food. */
void lookup_cautions(const struct lookup *lookup, caution_receiver *receive, void *context);
void lookup_food_cautions(const struct lookup *lookup, struct food_at food, caution_receiver *receive, void *context);

/* ---- lookup_uses.c: adds the lines of a kitchen that was judged to the look-up, which is the task. Tells at once where it is the only one, or the only
 * one to have the food, since its library goes with it. */
telling_kitchen_call lookup_kitchen;

/* ---- the forms: card.c, lookup_people.c, lookup_json.c, lookup_csv.c */

void card_print(const struct lookup *lookup, struct writer *writer);
void lookup_print_people(const struct lookup *lookup, struct writer *writer);
void lookup_print_json(const struct lookup *lookup, struct writer *writer);
void lookup_print_csv(const struct lookup *lookup, struct writer *writer);

/* Cautions that stand beside figures for people. */
void lookup_print_cautions(const struct lookup *lookup, struct writer *writer);

#endif
