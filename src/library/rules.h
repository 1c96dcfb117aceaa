/* The records of rules in a pack: how labels are rounded and checked, claims, cautions, who eats and what is published for
 * them. library.h includes it behind what all records are made of. */
#ifndef QUERN_LIBRARY_RULES_H
#define QUERN_LIBRARY_RULES_H

/* How a printed figure is rounded: `bands` apply in order up to their ends. */
struct band {
    double step, up_to;                 /* up_to is infinite for the last one */
};

struct rounding {
    uint32_t nutrient;                  /* or a ROUNDING_ of these */
    uint32_t zero_is_mandatory, finer, is_percent;
    uint32_t zero_includes, reserved;   /* `zero_under` itself is 0, too */
    double zero_under, less_than;
    double small;                       /* of percents: what is under it may be printed 0 as well */
    uint32_t first_band, band_count;
    struct pack_text source;
};

enum {
    ROUNDING_SERVING_MASS = UINT32_MAX - 1, ROUNDING_SERVINGS = UINT32_MAX - 2,
    ROUNDING_CONVERTED = UINT32_MAX - 3,    /* of what the rules print instead of a nutrient, in that nutrient's unit */
};

struct daily_value {
    uint32_t nutrient, reserved;
    double amount;
    struct pack_text source;
};

/* Which amount of which food holds so much of a nutrient: the salt equivalent in kitchen spoons. */
struct equivalent {
    uint32_t nutrient, reserved;
    struct pack_text food, unit;
};

struct caution {
    struct pack_text words, source;
    struct pack_text exactly;           /* the terms of medicine, for who works with it; or nothing */
    uint32_t nutrient;                  /* what it is about; NONE_INDEX: figures of any kind */
    uint32_t first_when, when_count;    /* it stands where one of these holds; without any, everywhere */
    uint32_t comes_first;               /* before any figure of a handout */
};

/* A line of the panel that the rules print, in their order. */
enum { PANEL_WITHOUT_PERCENT = 1 };

struct panel_line {
    struct pack_text title;
    uint32_t nutrient;                  /* NONE_INDEX: the library knows nothing of it, which the line says */
    uint32_t depth, flags, reserved;    /* depth: 1 is a part of the line above it that is less deep */
};

enum when_kind {
    WHEN_GOAL,                           /* number: the nutrient */
    WHEN_FOOD,                          /* number: the group */
    WHEN_LISTED,                        /* words: the kind of substance that a packet lists */
    WHEN_PERSON,                        /* words: child, pregnancy, … */
    WHEN_CRAFT,                         /* number: its bit: the recipe keeps food so, … */
    WHEN_SALTED_CRAFT,                  /* … with salt */
    WHEN_BRINGS,                        /* number: the group: a food of it with `amount` of `nutrient` in 100 g, or more */
    WHEN_AMOUNT,                        /* number: the group: `amount` grams of its foods, or more */
    WHEN_MEDICINE,                      /* a label that is a medicine */
    WHEN_HAZARD,                        /* words: the hazard; never in a pack */
};

struct when {
    uint32_t kind, number;              /* enum when_kind */
    uint32_t nutrient, reserved;
    struct pack_text words;
    double amount;
};

/* What one figure of a label must come to by others on it: energy by fat, carbohydrate and protein. */
struct label_check {
    uint32_t nutrient;                  /* or ROUNDING_SERVING_MASS, which others only must not exceed */
    uint32_t first_part, part_count, reserved;
    double within;                      /* share by which they may differ, beyond rounding */
    struct pack_text source;
};

struct check_part {
    uint32_t nutrient;
    uint32_t whole;                     /* the other that it is a part of, and counts otherwise in; or NONE_INDEX */
    uint32_t if_printed, reserved;      /* what is not printed counts nothing, else it may be any amount */
    double least, most;                 /* of the checked figure's unit, for one of its own */
};

/* How far what a laboratory finds may lie from what is printed, by law. The first band that the printed figure of 100 g stays
 * under is the one. */
struct tolerance_band {
    double under;                       /* of 100 g, in the nutrient's unit; infinite: of any figure */
    double low, high;                   /* shares of what is printed (high 0: open upwards), or `within` instead */
    double within;                      /* of 100 g, in the nutrient's unit, to either side; 0: in shares */
};

struct tolerance {
    uint32_t nutrient, reserved;
    uint32_t first_band, band_count;
    struct pack_text source;
};

/* A kind of substance that lists of ingredients name. */
struct substance {
    struct pack_text name, source;
    uint32_t nutrient, reserved;        /* what it holds, or NONE_INDEX */
    uint32_t first_words, words_count;      /* texts, keys: one of them tells it, */
    uint32_t first_without, without_count;  /* none of these beside it */
    uint32_t first_group, group_count;      /* references: or the whole is a food of one of these that holds the nutrient */
};

/* A way to keep food, and the words that tell it. */
struct craft {
    struct pack_text name, source;
    uint32_t first_words, words_count;      /* texts, keys: one of them tells it in a title or in what is done, */
    uint32_t first_titles, titles_count;    /* one of these in a title alone, */
    uint32_t first_without, without_count;  /* none of these beside it */
};

/* What a label's list of ingredients holds. */
struct listed {
    struct pack_text written, kind;
    uint32_t nutrient, reserved;
};

/* What a tablespoon or a cup is where these rules say it, in millilitres. */
struct household_measure {
    struct pack_text unit, source;
    double ml;
};

/* Foods of which a meal has portions, and those that count as none. */
struct portion_class {
    struct pack_text name;
    uint32_t first_group, group_count;  /* references */
    uint32_t counts, reserved;
};

/* What a recipe counts as under the rules (`food`, `meal`), with what it must have for that; or a size of one of these: a
 * reference amount up to so many grams or millilitres. */
struct claim_kind {
    struct pack_text name, source;
    uint32_t within;                    /* number in its rules; NONE_INDEX: recipes say this one */
    uint32_t is_usual;                  /* what a recipe is that says nothing */
    double grams, ml;                   /* of a size; 0: no such end */
    double serving_grams, serving_ml;   /* of a size by a serving that is larger than this; 0: not said */
    double least_serving_grams, least_reference_grams;  /* what recipes of the kind have at least; 0: not said */
    double portion_grams;               /* … and `portions` of this weight a serving, from so many of the classes of food */
    uint32_t portions, portion_classes; /* 0: not said */
    struct pack_text unchecked;         /* what else it must have, which nothing here can look at */
};

/* What a reference amount is, of a category of food. */
struct reference_amount {
    struct pack_text name, source;
    double grams, ml;                   /* one of them is 0 */
};

/* What an amount is held against. */
enum basis { PER_SERVING, PER_MASS, PER_RECIPE, PER_ENERGY, PER_VOLUME, PER_REFERENCE, PER_DAY, PER_MEAL, PER_NOT_COMPUTED };

enum condition_kind {
    CONDITION_LIMIT,                    /* an amount of a column within `least` and `most` */
    CONDITION_LESS,                     /* less than the compared recipe by the share `least` */
    CONDITION_WITHOUT,                  /* no food of these groups, unless the claim comes with the footnote `words` */
    CONDITION_NEEDS,                    /* the claim called `claim` holds, too */
    CONDITION_COMPARED_FAILS,           /* … does not hold of what the recipe is compared to */
    CONDITION_COMPARED_MEETS,           /* … holds of it */
    CONDITION_NEVER,                    /* these rules do not permit it; `words` say why */
    CONDITION_UNCHECKED,                /* `words` say what must hold, and nothing here can tell */
    CONDITION_NOTE,                     /* `words` go with the claim */
    CONDITION_NOTE_UNLESS,              /* … unless `claim` holds */
    CONDITION_KINDS,
};

enum condition_flag {
    CONDITION_HAS_MOST = 1, CONDITION_HAS_LEAST = 2, CONDITION_STRICT = 4,
    CONDITION_CLAIMED_SHARE = 8,        /* the share is the one that the claim names: `N% less` */
    CONDITION_ADDED = 16,               /* of the traced nutrient, what cooks and makers add */
};

struct condition {
    uint32_t kind, flags, basis, column;
    uint32_t claim_kind;                /* number in its rules, or NONE_INDEX: of every recipe */
    uint32_t first_group, group_count;  /* references */
    uint32_t reserved;
    double most, least;                 /* in the nutrient's unit */
    double per;                         /* grams, millilitres or kilocalories of the basis */
    struct pack_text claim, words, source;
};

enum claim_use {
    CLAIM_SAID,                         /* a recipe may say it */
    CLAIM_DISCLOSED,                    /* `name` must stand with every claim of a recipe that breaks a condition */
    CLAIM_MARKED,                       /* `name` must stand on every recipe that breaks a condition */
    CLAIM_TERM,                         /* nobody says it: other claims rest on it */
};

struct claim {
    struct pack_text name, source;
    uint32_t use;                       /* enum claim_use */
    uint32_t rules;                     /* number in its pack */
    uint32_t first_condition, condition_count;
};

struct rules {
    struct pack_text name, title;
    uint32_t first_rounding, rounding_count, first_daily_value, daily_value_count;
    uint32_t first_equivalent, equivalent_count, first_caution, caution_count;
    uint32_t first_check, check_count, first_tolerance, tolerance_count;
    uint32_t compare_over, compare_under;   /* nutrients whose ratio is reported, or NONE_INDEX */
    double yield_within;                    /* a yield that differs by a larger share from what went in is told; 0: none */
    double yield_least;                     /* no dish weighs less than this share of what went in; 0: not said */
    struct pack_text daily_name;            /* what these rules call a daily value: reference intake; empty: a daily value */
    struct pack_text notice;                /* what stands where claims are printed */
    struct pack_text converted, converted_source;   /* what labels print instead of a nutrient: salt instead of sodium */
    uint32_t converted_nutrient, reserved;  /* or NONE_INDEX */
    struct pack_text labels_as;             /* the rules that round what these say nothing of; empty: the usual ones */
    double converted_factor;                /* in the nutrient's unit: so much of it for one of the nutrient */
    struct pack_text panel_title, panel_source;     /* of the panel; without lines there is none */
    uint32_t first_panel_line, panel_line_count;
    uint32_t first_measure, measure_count, first_claim_kind, claim_kind_count, first_claim, claim_count;
    uint32_t first_reference_amount, reference_amount_count;
    uint32_t first_portion_class, portion_class_count;
};

/* A word for a kind of person: which sexes and state it says, and which ages. Ages are months, from the low one up to,
 * not including, the high one. */
enum sex { SEX_FEMALE = 1, SEX_MALE = 2, SEX_ANY = 3 };

struct person {
    struct pack_text name, state;       /* state: such as pregnant; of most there is none */
    struct pack_text defers;            /* whose figures come first for such a person, in a sentence; or nothing */
    struct pack_text defers_source;
    uint32_t sexes, needs_age;          /* bits of enum sex; needs_age: nothing can be said without one */
    uint32_t of_policies, unused;       /* of_policies: meant by a policy that does not say for whom it is */
    double low, high;                   /* ages that it can be said of */
    double usual_low, usual_high;       /* those it is taken for where no age is said */
};

enum intake_kind { INTAKE_ADEQUATE, INTAKE_AT_MOST, INTAKE_AT_LEAST };

/* One published figure a day, in the nutrient's unit, and for whom it is. */
struct intake_figure {
    uint32_t nutrient, kind;            /* enum intake_kind */
    uint32_t sexes, strict;             /* strict: under or over, not at most or at least */
    uint32_t is_goal, shown_only;
    struct pack_text state, source;
    double low, high;                   /* ages in months */
    double amount;
};

/* A table of published figures. */
struct intake {
    struct pack_text title;
    struct pack_text rules;             /* the rules whose followers are held to it; empty: all that have no table of their own */
    struct pack_text low_words, low_source;     /* told where a day surely holds less than is adequate … */
    uint32_t low_nutrient;              /* … of this nutrient, or NONE_INDEX */
    uint32_t only;                      /* shown to nobody who follows other rules */
    uint32_t first_figure, figure_count;
};

#endif
