/* library: knowledge. Declarations in the language (foods, labels, treatments, units, rules) are compiled into
 * a pack: one block of bytes without pointers, which is embedded in the program, written to a file, or made in
 * memory for what a kitchen declares itself. A `struct library` is a view of a pack with, behind it, the library
 * that it builds on. Packs are immutable and shared.
 *
 * Masses are grams, volumes millilitres, energies kilocalories. Foods hold amounts per 100 g, labels per serving. */
#ifndef QUERN_LIBRARY_H
#define QUERN_LIBRARY_H

#include "base/base.h"
#include "finding/finding.h"
#include "text/text.h"

#define USUAL_RULES "us"        /* the rules of a kitchen that names none; the report says so */
#define PACK_VERSION 8u
#define NONE_INDEX UINT32_MAX

/* A stretch of the pack's strings. */
struct pack_text {
    uint32_t offset, length;
};

enum dimension {
    DIMENSION_NONE, DIMENSION_MASS, DIMENSION_VOLUME, DIMENSION_COUNT, DIMENSION_ENERGY,
    DIMENSION_SUBSTANCE, DIMENSION_CHARGE, DIMENSION_TIME, DIMENSION_LENGTH, DIMENSION_TEMPERATURE,
    DIMENSION_PACKAGE,          /* can, jar: its size is the food's or stands in parentheses */
    DIMENSION_SIZE,             /* small, medium, large */
    DIMENSION_AMBIGUOUS,        /* `T`: names both spoons */
};

enum nutrient_role {
    NUTRIENT_PLAIN,
    NUTRIENT_DISSOLVES,         /* it moves with the water that food and bath exchange */
    NUTRIENT_SOLVENT,           /* it is that water */
};

struct nutrient {
    struct pack_text name, key, unit;
    struct pack_text linked;    /* its property in linked data (schema.org), or no bytes */
    double unit_factor;         /* grams (or kcal) in one of its unit */
    double mole;                /* its unit per mmol; 0 where there is none */
    double charge;              /* mEq per mmol */
    uint32_t traced;            /* origins are kept apart: inherent, maker-added, cook-added, not separable */
    uint32_t role;              /* enum nutrient_role */
};

enum unit_flag {
    UNIT_HOLDS_PLAIN = 1,           /* a jar holds the food of that state, or a plain one that is not fresh */
    UNIT_OF_VOLUMES = 2,            /* `heaped`: a size of spoons and cups, never of weights or pieces */
};

struct unit {
    struct pack_text name, source, state;   /* state: the word that a can adds to its food's name */
    struct range factor;            /* g, ml, pieces, kcal, mmol */
    uint32_t dimension;
    uint32_t first_between, between_count;  /* texts: what an ambiguous unit may mean */
    uint32_t flags;                 /* enum unit_flag */
    uint32_t first_size, size_count;    /* package_sizes: what such a package usually holds */
};

/* What a package usually holds, in g or ml. */
struct package_size {
    double amount;
    uint32_t dimension, reserved;
};

enum origin { ORIGIN_INHERENT, ORIGIN_MAKER, ORIGIN_COOK, ORIGIN_UNSEPARATED, ORIGIN_COUNT };

/* How an origin is written, and which one is written so; ORIGIN_COUNT: none. */
const char *origin_name(enum origin origin);
enum origin origin_of(struct text word);

struct group {
    struct pack_text name;
    uint32_t parent;            /* a group number of the whole library, or NONE_INDEX */
    uint32_t origin;            /* enum origin; ORIGIN_COUNT: not said */
    struct range unmeasured_ml; /* what `some` of it is; high 0: not said */
    uint32_t fresh;             /* no jar holds it as it is */
    uint32_t uses;              /* bits of enum group_use */
    struct pack_text hazard, hazard_source;     /* what is dangerous in a food of it, in a sentence; or nothing */
};

enum group_use {
    GROUP_SEASONS = 1,          /* people salt with it, and can do with less */
    GROUP_AT_HAND = 2,          /* nobody buys it: it stands on no shopping list */
    GROUP_RAISES = 4,           /* dough and batter rise by it */
    GROUP_PRESERVES = 8,        /* food keeps by it */
};
#define GROUP_SALTY (GROUP_SEASONS | GROUP_RAISES | GROUP_PRESERVES)    /* what a salty food does: it stands on the sheet of salts */

/* A chemical element: what formulas of compounds are computed from. */
struct element {
    struct pack_text name, symbol;
    double weight;              /* standard atomic weight, abridged */
    uint32_t nutrient;          /* the one that its mass counts as, or NONE_INDEX */
    uint32_t reserved;
};

enum food_state { FOOD_PLAIN, FOOD_WHOLE_CAN, FOOD_DRAINED, FOOD_STATE_NOT_STATED };
enum food_basis { FOOD_PER_100_G, FOOD_PER_SERVING };

/* What a plain weight of the food holds of its refuse, where the line says nothing of it. */
enum refuse_kind {
    REFUSE_IF_SAID,                     /* nothing: it is sold without, or weighed so */
    REFUSE_WEIGHED,                     /* all of it: it is sold no other way (peel of bananas) */
    REFUSE_EITHER,                      /* all of it or nothing (bone of thighs) */
    REFUSE_SELDOM,                      /* most likely nothing (bone of breasts) */
    REFUSE_EATEN,                       /* all of it, but cooks may eat it (peel of potatoes) */
    REFUSE_KINDS
};

enum food_flag { FOOD_USUALLY_SALTED = 1, FOOD_IS_LABEL = 2, FOOD_INSTEAD = 4, FOOD_IS_MEDICINE = 8 };

struct food {
    struct pack_text name, source, milder;
    uint32_t group, state, basis, flags;
    uint64_t known;                     /* a bit for each column whose amount is known */
    uint32_t values;                    /* first of its ranges, one a column */
    uint32_t first_portion, portion_count;
    uint32_t first_grain, grain_count;  /* texts: the kinds that a vague salt may be */
    uint32_t refuse_kind;               /* enum refuse_kind */
    struct range density;               /* g per ml; high 0: none */
    struct range unmeasured_ml;
    struct range serving_grams;         /* of a label whose serving is weighed; high 0: none */
    struct range serving_ml;
    struct range servings;              /* of a label's package; high 0: not printed */
    struct place place;                 /* where it is declared */
    uint32_t first_spread, spread_count;
    uint32_t varied;                    /* first of the ranges widened by its spreads, or `values` where it has none */
    uint32_t tolerated;                 /* first of the ranges widened by the law's tolerance, or `values` */
    uint32_t seen;                      /* when the packet was seen, in days since 1970; 0: not said */
    uint64_t open;                      /* a bit for each column that the tolerance leaves open upwards */
    uint32_t first_listed, listed_count;    /* of a label: what its list of ingredients holds */
    struct span seen_span;              /* in the file of `place` */
    struct range refuse;                /* share of the food as bought that nobody eats, 0 to 1; below 0: nobody says */
    struct pack_text refuse_what, refuse_source;    /* bone, peel; no bytes: not said, and the food's own source */
    uint64_t checksum;                  /* of all that belongs to it, looked at when its pack is mapped */
};

/* How samples of a food differ in a nutrient, as its source reports it; in the nutrient's unit, below 0 where the
 * source does not say. */
struct spread {
    uint32_t nutrient, samples;
    double error;                       /* standard error of the mean */
    double lowest, highest;
};

/* `1 cup drained = 152 g`: what one of a unit or piece of a food weighs. */
struct portion {
    struct pack_text unit, state;       /* keys of words: `cup`, `drained` */
    struct pack_text source;            /* of this weight alone; no bytes: that of the food */
    struct range grams;                 /* of a label: servings */
    double volume_ml;                   /* of the unit, 0 when it is no volume */
};

/* A plain word that stands for kinds lying side by side: no food. */
struct shelf {
    struct pack_text name;
    uint32_t first_kind, kind_count;    /* texts */
};

/* Foods of one group hold already what foods of the other bring, or what a treatment brings: side by side it may be
 * counted twice. */
struct doubling {
    uint32_t group, with;               /* numbers of the whole library; with NONE_INDEX: the treatment */
    struct pack_text treatment;         /* the key of its first name */
};

enum treatment_from { FROM_ANY, FROM_CANNED, FROM_DRAINED };
enum treatment_flag {
    TREATMENT_CHANGES_NOTHING = 1, TREATMENT_LEFT_OUT = 2, TREATMENT_NO_UPPER = 4, TREATMENT_AS_CANNED = 8,
    TREATMENT_HAS_MASS = 16, TREATMENT_NOT_COMPUTED = 32, TREATMENT_FILLER = 64, TREATMENT_EDIBLE = 128,
    TREATMENT_HAS_UPTAKE = 256, TREATMENT_REACHES = 512, TREATMENT_STAYS = 1024,   /* says what a bath; what no bath does */
    TREATMENT_BY_MAKER = 2048,          /* what it adds the maker has added, not the cook */
    TREATMENT_OF_PARTS = 4096,          /* told of the foods of a whole part only */
    TREATMENT_NAMES_FOOD = 8192,        /* it names what counts only on a line of its own: `fried in butter` */
    TREATMENT_IN_ALL = 16384,           /* its uptake counts what earlier baths have brought into a dry food */
    TREATMENT_WITHOUT_REFUSE = 32768,   /* `boneless`: what is weighed has no refuse, wherever it stands */
    TREATMENT_TAKES_REFUSE = 65536,     /* `peeled`: the same before the name; behind it, either may have been weighed */
    TREATMENT_SALT_UNSAID = 262144,     /* it may or may not mean that salt goes in */
    TREATMENT_CUTS = 131072,            /* `diced`: before the name it is said of what is eaten */
};

/* What figures of a treatment rest on, strongest first: a larger one is weaker. */
enum evidence {
    EVIDENCE_NONE,                      /* nothing is claimed that needs any */
#define EVIDENCE(name, word, people, former) EVIDENCE_##name,
#include "library/evidence.def"
#undef EVIDENCE
    EVIDENCE_COUNT,
};
#define EVIDENCE_LIST_BYTES 160

/* The word of the language for it, as JSON, CSV and traces have it too, and what reports for people say instead; empty for
 * EVIDENCE_NONE. */
struct text evidence_word(uint32_t evidence);
struct text evidence_for_people(uint32_t evidence);

/* All words of the language for it, strongest first. */
struct text evidence_list(char storage[EVIDENCE_LIST_BYTES]);

struct treatment {
    struct pack_text name, source;
    uint32_t first_group, group_count;  /* references: the groups it is declared for; none is any food */
    uint32_t from, flags, evidence;     /* evidence: EVIDENCE_NONE when none is needed */
    uint32_t step_count;
    uint32_t first_effect, effect_count;
    struct range mass;                  /* after against before */
    struct range kept;                  /* share of all of it that stays, weight and all; high 0: not said */
    struct range uptake;                /* water out of a bath, against the weight before; below 0: given off */
    struct place place;
    uint32_t reserved;
};

enum effect_kind {
    EFFECT_KEEPS, EFFECT_STRENGTH,
    EFFECT_REACHES,                     /* the fraction of equilibrium with a bath */
    EFFECT_ADDS,                        /* in the nutrient's unit per 100 g afterwards */
    EFFECT_BECOMES,                    /* … per 100 g before, instead of the food's own */
};
#define EFFECT_OTHERS NONE_INDEX        /* every nutrient that is not named */
#define MOST_REACHED 1.5                /* of equilibrium: evaporation and brine on the surface go no further */

struct effect {
    uint32_t nutrient, kind;
    struct range share;                 /* or amount */
};

#include "library/rules.h"

enum name_space {
    SPACE_FOOD, SPACE_LABEL, SPACE_SHELF, SPACE_UNIT, SPACE_TREATMENT, SPACE_NUTRIENT, SPACE_GROUP, SPACE_RULES,
    SPACE_SPELLING,             /* a word that says the same as another; index: among the texts */
    SPACE_ELEMENT,              /* by its name, and by its symbol as it is written: `Na` */
    SPACE_PERSON,
    SPACE_CLAIM, SPACE_REFERENCE,   /* several rules may have one of a name */
};

struct name {
    struct pack_text key, written;
    uint32_t space, index;
};

struct name_slot {
    uint64_t hash;
    uint32_t name, reserved;            /* NONE_INDEX: empty */
};

/* ---- pack.c: the bytes -------------------------------------------------------------------------------- */

struct library {
#define SECTION(field, type) const type *field; uint32_t field##_count;
#include "library/sections.def"
#undef SECTION
    const struct library *base;         /* what it builds on, or NULL */
    uint32_t nutrient_total;            /* nutrients of the whole library */
    uint32_t column_count;              /* nutrients, origins of the traced one, mass */
    uint32_t traced;                    /* nutrient number, or NONE_INDEX */
    uint32_t solvent;                   /* the number of water, or NONE_INDEX */
    uint32_t origin_column;             /* the first of ORIGIN_COUNT */
    uint32_t mass_column;
    uint32_t group_first;               /* number of its first group in the whole library */
    bool is_mapped;                     /* a file's pack: each food is looked at when it is found */
    uint64_t checksum;
};

/* A view of a pack that was checked when it was built. `base` may be NULL. */
void library_view(struct library *library, const void *pack, const struct library *base);

/* ---- verify.c: packs come from files, and files from anybody */

enum pack_trouble {
    PACK_SOUND, PACK_NOT_ONE, PACK_OTHER_MACHINE, PACK_OTHER_VERSION, PACK_OTHER_BASE, PACK_TRUNCATED, PACK_DAMAGED,
};

/* Looks at every byte: checksum, sizes, offsets; sound means that no later read can go astray. `base` is what the
 * pack must build on, or NULL. */
enum pack_trouble pack_verify(const void *pack, size_t size, const struct library *base);

/* The same of the head and of all but foods and names, so that a large pack can be mapped: a view of it with
 * `is_mapped` looks at each food when it is found. */
enum pack_trouble pack_verify_head(const void *pack, size_t size, const struct library *base);

/* How many things the names of a space can stand for in one library. */
uint32_t library_space_size(const struct library *library, uint32_t space);

/* Whether a food of a mapped pack is as it was written. */
bool food_is_sound(const struct library *library, const struct food *food);

/* What is wrong and what to do about it, for people. */
const char *pack_trouble_words(enum pack_trouble trouble);

/* ---- names.c ------------------------------------------------------------------------------------------- */

#define KEY_BYTES 512

/* The words of a name, folded, singular, sorted, each once, joined by blanks: what names are compared by.
 * `ordered` keeps them in written order. Returns the length; 0 when there is no word or too many. */
uint32_t name_key(const struct text *words, uint32_t count, bool ordered, char *key);

/* Splits items into words (a quoted name is split, too; hyphens part words). Returns how many, at most `most`. */
uint32_t name_words(struct text text, const struct item *items, struct text *words, uint32_t most);
uint32_t name_split(struct text name, struct text *words, uint32_t most);

/* The key of a whole name. */
uint32_t name_key_of(struct text name, bool ordered, char *key);

/* Finds the first name under a key in one library (not its base), or NULL; `after` carries on. */
const struct name *library_find(const struct library *library, enum name_space space, struct text key,
                                const struct name *after);

/* A found thing together with the library that its texts and numbers belong to. */
struct food_at {
    const struct library *library;
    const struct food *food;            /* NULL: not found, or, with a library, found in a damaged pack */
};

/* The range that one helping of the food may come from, by how its samples differed (see read_spread.c). */
struct range spread_widen(const struct spread *spread, struct range amount);

/* Each finds what has the key, in the library or those that it builds on; nothing found is NULL or NONE_INDEX. */
struct food_at library_food(const struct library *library, struct text key);
struct food_at library_label(const struct library *library, struct text key);
struct food_at library_shelf(const struct library *library, struct text key, const struct shelf **shelf);
const struct unit *library_unit(const struct library *library, struct text key, const struct library **owner);
const struct nutrient *library_nutrient(const struct library *library, struct text key, uint32_t *number);
uint32_t library_group(const struct library *library, struct text key);
const struct element *library_element(const struct library *library, struct text symbol);
const struct rules *library_rules(const struct library *library, struct text key, const struct library **owner);

/* The nutrient with this number, whichever library of the chain declares it. */
const struct nutrient *library_nutrient_at(const struct library *library, uint32_t number,
                                           const struct library **owner);
const struct group *library_group_at(const struct library *library, uint32_t number);

/* Whether a group of the food, or one around it, is `fresh`: no jar holds it as it is. */
bool library_is_fresh(struct food_at food);

/* The same of a use; of what a salty food does, the nearest group that says it decides. */
bool library_is_used(struct food_at food, uint32_t uses);

/* What is dangerous in the food, by the nearest of its groups that says it; no bytes: none does. */
struct text library_hazard(struct food_at food, struct text *source);

/* ---- crafts.c: gives the words of a text as ordered keys, long ones in parts that overlap; and whether one of the texts, ordered
 * keys too, stands in such a key. */
typedef void words_receiver(void *context, struct text run);
void words_walk(struct text written, words_receiver *receive, void *context);
bool words_hold_one(const struct library *library, struct text key_words, uint32_t first, uint32_t count);

/* Ways to keep food, by the words that tell them. A bit for each of the library's; `is_title`: words of titles
 * tell it, too. */
uint32_t library_crafts(const struct library *library, struct text written, bool is_title);

/* The bit of a craft by its name; 0: there is none. */
uint32_t library_craft(const struct library *library, struct text name);

/* A walk over what the food's group, or one around it, may double: the next after `after`, NULL at the end. `owner` is
 * NULL at first and goes with `after`. */
const struct doubling *library_doubling(const struct library *library, uint32_t group, const struct doubling *after,
                                        const struct library **owner);

/* How far up the parents `ancestor` lies above `group`; 0 is itself, NONE_INDEX is not above it. */
uint32_t library_group_distance(const struct library *library, uint32_t group, uint32_t ancestor);

struct text library_text(const struct library *library, struct pack_text text);

/* Up to `most` names of the spaces that lie near the words, best first; returns how many. */
struct near_name {
    const struct library *library;
    const struct name *name;
    double score;
};
uint32_t library_near(const struct library *library, unsigned spaces, struct text words, struct near_name *near,
                      uint32_t most);

/* The same of one space of one library, and of the things from `first` to before `end`: what one rule pack declares. Short
 * names are told by their letters, too. */
uint32_t library_near_within(const struct library *library, enum name_space space, struct text words, uint32_t first, uint32_t end,
                             struct near_name *near, uint32_t most);

/* How like two words of keys are: 1 for the same, less for a slip of a third of the letters, else 0. */
double name_word_likeness(struct text a, struct text b);

/* ---- search.c: foods by some words of their names, by group, by what they hold --------------------------- */

enum match_kind {
    MATCH_NAME,                         /* the words are one of its names */
    MATCH_WORDS,                        /* a name of it holds all of the words */
    MATCH_GROUP,                        /* no words were asked for: it is in the group */
    MATCH_NEAR,                         /* every word has one like it in a name: a stem, a slip */
    MATCH_SOME,                         /* some of the words do: an offer where nothing else was found */
};

struct match {
    struct food_at food;
    const struct name *name;            /* the one of its names that fits best */
    enum match_kind kind;
    double score;                       /* likeness, for those of a kind */
    bool is_known;                      /* of the nutrient that they are sorted by */
    double order;
};

struct search {
    struct allocator allocator;
    const struct library *library;
    struct text words;                  /* without a word: all foods of the group */
    uint32_t group;                     /* only foods in it and within it, or NONE_INDEX */
    uint32_t nutrient;                  /* sorted by its best amount per 100 g, or NONE_INDEX: by rank */
    bool highest;                       /* the highest first, else the lowest */
    struct match *found;                /* a food once; sorted; all of them */
    uint32_t count, capacity;
    uint32_t unknown_count;             /* how many stand last because their amount is unknown */
};

/* Fills `found`, which search_close frees, from the library and those behind it. By rank: kind, likeness, shorter
 * name, name. STATUS_OK or STATUS_NO_MEMORY. */
enum status library_search(struct search *search);
void search_close(struct search *search);

/* ---- intakes.c ------------------------------------------------------------------------------------------- */

/* The kind of person that the word says, or NULL. */
const struct person *library_person(const struct library *library, struct text word, const struct library **owner);

/* The kind that is meant by a policy that does not say for whom it is; NULL: the library names none. */
const struct person *library_policy_person(const struct library *library, const struct library **owner);

/* Whether the figure is for somebody of these sexes, this state and these ages. */
bool intake_is_for(const struct library *owner, const struct intake_figure *figure, uint32_t sexes, struct text state, double low, double high);

/* ---- rounding.c ------------------------------------------------------------------------------------------ */

const struct rounding *rules_rounding(const struct library *owner, const struct rules *rules, uint32_t nutrient,
                                      bool percent);
const struct daily_value *rules_daily_value(const struct library *owner, const struct rules *rules,
                                            uint32_t nutrient);


/* The rules that `rules` name for labels (`labels as eu`), or NULL; `owner` is that of `rules` before, and theirs afterwards. Then those
 * whose tolerances apply under `rules`: these themselves, or those that they name; NULL where neither has any. And the tolerance of a
 * nutrient by rules that have one. */
const struct rules *rules_of_labels(const struct library *base, const struct rules *rules, const struct library **owner);
const struct rules *rules_of_tolerance(const struct library *base, const struct rules *rules, const struct library **owner);
const struct tolerance *rules_tolerance(const struct library *owner, const struct rules *rules, uint32_t nutrient);

/* Whether an amount is printed as none, and the step that is printed there; 0 where no step reaches. */
bool rounding_is_zero(const struct rounding *rounding, double amount);
double rounding_step(const struct library *owner, const struct rounding *rounding, double amount);

/* The printed figure of an amount: halves go up. */
double rounding_print(const struct library *owner, const struct rounding *rounding, double amount);

/* Every amount that could have been printed as `printed`, ties included; false when no rule prints it, and
 * then the range is half the nearest step to each side. */
bool rounding_invert(const struct library *owner, const struct rounding *rounding, double printed,
                     struct range *amounts);

/* ---- build.c, read*.c: from declarations to a pack ---------------------------------------------------------- */

/* A declaration that was kept: its tree, and the text its spans point into (shifted by `offset`). */
#define PACKING_PASSES 5u
#define PACKING_SPEAKS 2u               /* the pass in which what is wrong with a text itself is told */

struct declaration {
    struct node *node;
    struct text text;                   /* text.bytes[span.start] is the written byte */
    uint32_t file;
    struct declaration *next;
};

/* Whether it declares rules. */
bool library_takes_rules(const struct declaration *declaration);

/* Compiles declarations (those it knows; others are left alone) into a pack in memory of `allocator`, sizes in
 * `size`. What is wrong with them becomes findings. `rules` serves labels and may be NULL. */
enum status library_compile(struct allocator allocator, const struct declaration *declarations,
                            const struct library *base, const struct rules *rules, const struct library *rules_owner,
                            struct findings *findings, void **pack, size_t *size);

/* The same for declarations that come one by one and are forgotten: all files are read PACKING_PASSES
 * times, since units stand before nutrients and groups, these before foods, and foods before compounds and blends. NULL
 * when memory failed; closing gives the pack and frees the builder. */
struct builder *library_builder_open(struct allocator allocator, const struct library *base, const struct rules *rules,
                                     const struct library *rules_owner, struct findings *findings);
void library_builder_read(struct builder *builder, const struct declaration *declaration, uint32_t pass);

/* Whether a pass would read anything of what pass 0 has seen. */
bool library_builder_needs(const struct builder *builder, uint32_t pass);
enum status library_builder_close(struct builder *builder, void **pack, size_t *size);

/* Whether a top-level node is knowledge that library_compile takes. */
bool library_takes(struct text text, const struct node *node);

#endif
