/* Shared by resolve.c (names), measure.c (how much) and treat.c (what was done to it). */
#ifndef QUERN_MODEL_RESOLVE_H
#define QUERN_MODEL_RESOLVE_H

#include "model/derive.h"


struct tail_word {
    struct text text;
    struct span span;               /* in the tail */
    uint32_t item;                  /* number of its item, for neighbours */
};

/* A parenthesis with a measure: `(15 oz)`, `(300 g total)`. */
struct aside {
    bool found, each, total;        /* written so */
    bool after;                     /* it stands behind a phrase: what is left, not what was bought */
    uint32_t item;                  /* number of the group among the items */
    double low, high;
    const struct unit *unit;
    struct span span;
};

/* Of a canned food: what a measure of the line holds. */
enum measured { MEASURED_AS_IT_IS, MEASURED_WITH_LIQUID, MEASURED_DRAINED };

struct resolving {
    struct gathering *gathering;
    const struct library *library;
    const struct tail *tail;
    struct voice voice;
    struct resolved *resolved;
    struct rare rare;               /* of the resolved line, while it is made */
    struct derivation *derivation;  /* where it is noted how, or NULL */
    uint32_t part;                  /* the part whose treatments follow the line's own, or NONE_INDEX */
    bool around;                    /* a phrase of such a part is being looked at */
    struct findings *around_findings;   /* where it speaks, or NULL for silence */

    struct tail_word words[LIMIT_LINE_WORDS];
    uint32_t word_count;
    const struct phrase *phrases;   /* those of the tail, without what became part of the name */
    const struct item *string;      /* a quoted name */
    uint32_t words_before_string;
    struct aside aside;
    const struct item *remarks[LIMIT_REMARKS];  /* parentheses that hold no measure: they must be treatments */
    uint32_t remark_count;

    /* how the words were parted */
    uint32_t prefix;                /* words before the food's name: unit, sizes */
    uint32_t name_first, name_end;
    uint8_t peeled[LIMIT_PEELED];    /* words of each treatment between the prefix and the name */
    uint32_t peeled_count;
    struct text states[LIMIT_LINE_WORDS]; /* folded words that may choose a portion */
    uint32_t state_count;
    char state_storage[KEY_BYTES * 2];
    uint32_t state_used;
    enum measured measured;
    bool package;                   /* measured by the can, jar, … */
    bool package_holds_plain;       /* a jar: of a food that keeps */
    struct text package_word;
    const struct unit *package_unit;    /* NULL where there is none */
    const struct library *package_owner;
    bool filled;                    /* a size of spoons was said: `heaped` */
};

/* ---- take.c: the words, the quoted name and the parentheses of the tail */
void resolve_take_items(struct resolving *resolving);

/* One item more, such as one of a phrase; false, after a finding, when the line is too long. */
bool resolve_take_item(struct resolving *resolving, const struct item *item, uint32_t number);
bool resolve_is_package(const struct unit *unit);

/* The unit that an item names, or NULL; `item` may be NULL. */
const struct unit *resolve_item_unit(const struct resolving *resolving, const struct item *item);

/* ---- resolve.c */

/* Resolves a tail. `part`: the innermost part whose treatments follow the line's own, or NONE_INDEX; then only what they
 * do to the food is told. */
void resolve_whole(struct gathering *gathering, const struct tail *tail, uint32_t part, struct voice voice,
                   struct resolved *resolved);

/* The same, silent, while it is noted how. */
void resolve_derive(struct gathering *gathering, const struct tail *tail, uint32_t part, struct derivation *derivation, struct resolved *resolved);

/* Findings at the tail's place. */
struct finding *resolve_say(struct resolving *resolving, enum words_code code, struct span span,
                            const struct text *gaps, uint32_t gap_count);
struct finding *resolve_fail(struct resolving *resolving, enum words_code code, struct span span,
                             const struct text *gaps, uint32_t gap_count);
struct span resolve_words_span(const struct resolving *resolving, uint32_t first, uint32_t end);
struct text resolve_words_text(const struct resolving *resolving, uint32_t first, uint32_t end);
struct span resolve_whole_span(const struct resolving *resolving);

/* Remembers the folded words of a text as states (`chopped`, `drained`); false where not all of them find room. */
bool resolve_add_states(struct resolving *resolving, struct text text);

/* The food that words [first, end) name, with one more word when it is not empty. */
struct food_at resolve_find(const struct resolving *resolving, uint32_t first, uint32_t end, struct text extra);

/* The state that a package among words [first, end) adds to a name: `canned`. Notes whether there is a package. */
struct text resolve_package_state(struct resolving *resolving, uint32_t first, uint32_t end);

/* ---- unknown.c: says that no food has this name, with the way out. */
void resolve_fail_food(struct resolving *resolving);

/* The same of a treatment; words that name a food or an amount add something, and nobody is told to quote them. */
void resolve_fail_treatment(struct resolving *resolving, struct text written, struct span span);

/* ---- measure.c */

/* The unit in words [first, end): the longest run that is one. `at` and `length` tell where. */
const struct unit *measure_find_unit(const struct resolving *resolving, uint32_t first, uint32_t end, uint32_t *at,
                                     uint32_t *length, const struct library **owner);

/* The size that begins at word `first`, of two words before one (`extra large`), or NULL. */
const struct unit *measure_size_at(const struct resolving *resolving, uint32_t first, uint32_t end, uint32_t *length);

/* Whether the words [first, end) before or behind a food's name measure it. */
bool measure_fits(const struct resolving *resolving, struct food_at food, uint32_t first, uint32_t end);

/* An amount of a unit of mass or volume as grams of the food; false when nothing says what that weighs. */
bool measure_amount(struct resolving *resolving, struct food_at food, const struct unit *unit, struct range amount,
                    struct range *grams);

/* Sets scale and flags for the food that was found, or fails with a finding. */
void measure_food(struct resolving *resolving, struct food_at food, uint32_t first, uint32_t end);

/* ---- package.c */

/* `1/2 can (7 oz)`: what the parenthesis behind a package says where not one whole package is written. `grams` of it (or
 * servings) become those of one package where it may be the size of each; true when they are all of it instead. A note says
 * which reading was taken. */
bool package_read_part(struct resolving *resolving, struct food_at food, struct range *grams);

/* ---- spoon.c: how a spoon or cup was filled */

/* What the sizes among words [first, end) multiply: 1 where there is none. `unit`, which stands at `at`, is no size; of a
 * weight no size multiplies anything, and of a volume none that stands behind it: there it says which food it is. */
struct range measure_size_factor(const struct resolving *resolving, const struct unit *unit, uint32_t first, uint32_t end, uint32_t at,
                                 uint32_t length);

/* Whether a size of spoons (`heaped`) stands among words [first, end) that measure otherwise, or two of them; a finding
 * says so. */
bool measure_refuses_size(struct resolving *resolving, const struct unit *unit, uint32_t first, uint32_t end);

/* An amount (grams, servings, ml) of something measured by the unit, as wide as the spoon error makes it. */
struct range measure_by_spoon(struct resolving *resolving, const struct unit *unit, struct range amount);

/* Remembers that one of the line is the volume of words [first, end), and how many ml. Nothing of another unit. */
void measure_note_volume(struct resolving *resolving, const struct unit *unit, struct range size, uint32_t first, uint32_t end);

/* `1 tsp salt, heaped`: applies a size behind a comma; false where the phrase is none. */
bool measure_take_size(struct resolving *resolving, const struct phrase *phrase);

/* ---- portion.c: what one of a measure weighs of a food. False where nothing says it. */

/* Grams of a volume: the portion of nearest size whose state the line says, else the density. A canned food is measured
 * with its liquid or without it, and a portion of the other state is none. `joined` tells that several
 * came into question. */
bool portion_volume(const struct resolving *resolving, struct food_at food, struct range ml, struct range *grams, bool *joined);

/* Whether some portion of the food, in whatever state, is a volume. */
bool portion_has_volume(struct food_at food);

/* Grams (or servings of a label) of one of the piece or unit that words [first, end) name; `joined` as above. */
bool portion_piece(const struct resolving *resolving, struct food_at food, uint32_t first, uint32_t end,
                   struct range *grams, bool *joined);

/* The portion of this unit that asks for no state, or NULL. */
const struct portion *portion_named(struct food_at food, const char *unit);

/* `2 onions`: medium at best, small to large as the range; else a portion called `piece`. */
bool portion_bare(struct food_at food, struct range *grams);

/* ---- measure_made.c */

/* How many servings of a label an amount of the unit is; false when it does not say. */
bool measure_label_unit(const struct resolving *resolving, struct food_at label, const struct unit *unit, struct range amount, struct range *servings);
void measure_label(struct resolving *resolving, struct food_at label, uint32_t end);
void measure_recipe(struct resolving *resolving, struct recipe_at recipe, uint32_t end);

/* Liquid out of a bath, by weight or by volume. */
void measure_bath(struct resolving *resolving, uint32_t end);

/* ---- phrase.c */

/* The first treatment under a key, whichever food it is for, or NULL. */
const struct treatment *treat_find_any(const struct resolving *resolving, struct text key);

/* Whether a word of a phrase is left out of its key: a time, a length, a filler. */
bool treat_is_argument(const struct resolving *resolving, struct text word);

/* The key of a phrase: numbers and arguments are left out, unless all of it is a declared treatment. */
uint32_t treat_phrase_key(const struct resolving *resolving, const struct item *items, char *key);

/* ---- doubling.c */

/* Says that a treatment brings what the food holds already: `turkey with added solution, brined`. */
void treat_warn_of_doubling(struct resolving *resolving, const struct library *owner, const struct treatment *treatment,
                            bool by_maker, struct text written, struct span span);

/* ---- treat.c */

/* Applies the phrases and the words peeled off the name, in order. */
void treat_all(struct resolving *resolving, uint32_t peeled_first, uint32_t peeled_end);

/* Whether one word is a declared treatment or a filler. */
/* Takes a phrase that is of the language and no treatment: `kept 20%`, `thrown away 20 g`, `in "bath"`; false: it is none. */
bool treat_take_words_of_language(struct resolving *resolving, const struct phrase *phrase);

/* Whether `count` words from `first` on, three at most, are one treatment or filler. */
bool treat_knows_words(const struct resolving *resolving, uint32_t first, uint32_t count);
bool treat_knows_word(const struct resolving *resolving, struct text word);

/* Whether a word means nothing to the sum: `about`, `finely`. */
bool treat_is_filler(const struct resolving *resolving, struct text word);

/* Whether a phrase is just `drained`, alone or in a sequence. */
bool treat_says_drained(const struct resolving *resolving);

/* Whether a phrase drains what comes from a can. */
bool treat_drains(const struct resolving *resolving);

/* Whether a phrase says that the food is measured with the liquid of its can. */
bool treat_says_as_canned(const struct resolving *resolving);

/* doubling.c: how much of the traced nutrient and of another (or NONE_INDEX) 100 g have: `643 mg sodium, 24 mg potassium`. */
struct text kitchen_print_kind(const struct library *library, struct food_at food, uint32_t other, char *storage, size_t size);

#endif
