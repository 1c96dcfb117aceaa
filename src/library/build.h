/* The pack under construction: what the readers of declarations share. Nobody outside this room includes it. */
#ifndef QUERN_LIBRARY_BUILD_H
#define QUERN_LIBRARY_BUILD_H

#include "library/library.h"

struct builder {
    struct allocator allocator;
#define SECTION(field, type) type *field; uint32_t field##_count, field##_capacity;
#include "library/sections.def"
#undef SECTION
    const struct library *base;
    const struct rules *label_rules;        /* for labels; may be NULL */
    const struct library *label_rules_owner;
    struct findings *findings;
    const struct declaration *declaration;  /* being read */
    struct place *places;                   /* of each name, for duplicates; as long as `names` */
    uint32_t places_count, places_capacity;
    uint32_t told_taken;                 /* 1 + the food of which it was said that the library has its name */
    struct table table;                     /* from the hash of a key to its name */
    uint32_t near_searches;                 /* for names near an unknown one: each looks at all names */
    uint32_t passes_needed;                 /* a bit for each pass that reads something of what came by */
    bool failed;
};

/* Appends one zeroed item to a section and returns its number, or NONE_INDEX. */
#define BUILD_ADD(builder, field) build_add(builder, (void **)(void *)&(builder)->field, &(builder)->field##_count, \
                                            &(builder)->field##_capacity, sizeof *(builder)->field)
uint32_t build_add(struct builder *builder, void **items, uint32_t *count, uint32_t *capacity, size_t size);

struct pack_text build_text(struct builder *builder, struct text text);
uint32_t build_text_number(struct builder *builder, struct text text);

/* Registers a name under its key. Two declarations of one key are a finding that shows both places, unless the
 * space allows several (treatments for different groups). */
void build_name(struct builder *builder, enum name_space space, struct text written, struct place place,
                bool ordered, uint32_t index);
void build_key(struct builder *builder, enum name_space space, struct text key, struct text written,
               struct place place, uint32_t index);
uint32_t build_find(const struct builder *builder, enum name_space space, struct text name);

/* What has the key in the pack under construction alone, or NONE_INDEX. */
uint32_t build_find_key(const struct builder *builder, enum name_space space, struct text key);

struct text build_string(const struct builder *builder, struct pack_text text);
struct text build_written(const struct builder *builder, struct span span);
struct place build_place(const struct builder *builder, struct span span);
struct text build_items_text(const struct builder *builder, const struct item *first);

/* The words of a knowledge statement in lower case joined by blanks (`may be zero under`); strings left out. Empty where
 * they do not fit: no statement has so many, and its first words alone must not pass for one. */
struct text build_words(const struct builder *builder, const struct item *items, char *storage, uint32_t size);

/* The number of the first group of the pack under construction: those of its base stand before it. */
uint32_t build_group_first(const struct builder *builder);
const struct group *build_group_at(const struct builder *builder, uint32_t number);

uint32_t build_nutrient(const struct builder *builder, struct text name);
const struct nutrient *build_nutrient_at(const struct builder *builder, uint32_t number);
/* How a nutrient's unit is written: `mg`. */
struct text build_nutrient_unit(const struct builder *builder, uint32_t number);
const struct unit *build_unit(const struct builder *builder, struct text name);
uint32_t build_nutrient_total(const struct builder *builder);
uint32_t build_column_count(const struct builder *builder, uint32_t *traced);

/* What follows a number: its unit words up to the first group or string. */
struct text build_unit_text(const struct builder *builder, const struct item *unit);

/* `54% (38% to 62%)`, `6 g (5.7 g to 6.3 g)`: best value and bounds, times `factor`. */
struct range build_range(struct builder *builder, const struct quantity *quantity, const struct item *unit,
                         double factor);
const struct item *build_string_item(const struct item *items);

/* The first quoted words among the items, without their quotes; none: empty. */
struct text build_quoted(const struct builder *builder, const struct item *items);

/* Behind an amount stand its unit, one range in parentheses that holds it, and a source in quotes; anything else would
 * be lost. True when nothing else stands there; else a finding has been added. */
bool build_only_amount(struct builder *builder, const struct node *node);

/* The same behind a percent, which has no unit: no word may stand there. And of a statement that is nothing but words: no
 * amount, no quotes, no parentheses, no comma, no block. */
bool build_only_percent(struct builder *builder, const struct node *node);
bool build_only_words(struct builder *builder, const struct node *node);

/* Factor from the written unit to `dimension`'s base; 0 after a finding. */
double build_factor(struct builder *builder, const struct node *node, const struct item *unit,
                    enum dimension dimension);

/* The amount of a nutrient in its own unit from `88 kcal`, `278 mg`; 0 after a finding. */
double build_nutrient_factor(struct builder *builder, const struct node *node, uint32_t nutrient,
                             const struct item *unit);

/* The finding that a statement has no place in `where`, or NULL; and the same with the word that was meant, if one of the
 * known ones lies near. */
struct finding *build_unknown_statement(struct builder *builder, const struct node *node, const char *where);

/* The word at `item` has another name now: a finding with its fix. */
void build_former_word(struct builder *builder, const struct item *item, const char *now);
void build_unknown_word(struct builder *builder, const struct node *node, const char *where, const char *const *known, uint32_t count);

/* The finding that no nutrient, or no group, has the name, with names that lie near; and what has it, or NONE_INDEX after
 * that finding. */
struct finding *build_unknown(struct builder *builder, const struct node *node, enum name_space space, struct text name);
uint32_t build_known(struct builder *builder, const struct node *node, enum name_space space, struct text name);

/* The origin that stands behind the statement's first word; ORIGIN_COUNT after a finding. */
enum origin build_origin(struct builder *builder, const struct node *node);

/* Each reads one declaration of its kind. */
void read_unit(struct builder *builder, const struct node *node);
void read_nutrient(struct builder *builder, const struct node *node);
void read_group(struct builder *builder, const struct node *node);
void read_element(struct builder *builder, const struct node *node);
void read_food(struct builder *builder, const struct node *node);
void read_label(struct builder *builder, const struct node *node);
void read_shelf(struct builder *builder, const struct node *node);
void read_compound(struct builder *builder, const struct node *node);
void read_blend(struct builder *builder, const struct node *node);
void read_treatment(struct builder *builder, const struct node *node);

/* evidence.c: `evidence measured` of a treatment; false if the statement is another one. */
bool read_evidence(struct builder *builder, const struct node *node, struct treatment *treatment);
void read_spelling(struct builder *builder, const struct node *node);
void read_filler(struct builder *builder, const struct node *node);
void read_doubling(struct builder *builder, const struct node *node);
void read_rules(struct builder *builder, const struct node *node);
void read_person(struct builder *builder, const struct node *node);
void read_intake(struct builder *builder, const struct node *node);
void read_substance(struct builder *builder, const struct node *node);
void read_craft(struct builder *builder, const struct node *node);

/* Statements of a rule pack, each with files of its own: read_cautions.c, read_checks.c. */
void read_caution(struct builder *builder, const struct node *node);

/* Puts the cautions of the usual rules behind those from `first` on, and returns how many: whoever writes one of his own
 * does not take the others away. Without any of its own a pack needs none, since the usual ones then stand. */
uint32_t add_usual_cautions(struct builder *builder, uint32_t first);
void read_label_check(struct builder *builder, const struct node *node);
void read_tolerance(struct builder *builder, const struct node *node);
void read_small_percents(struct builder *builder, const struct node *node);

/* read_panel.c: the lines of the panel, into `rules`. */
void read_panel(struct builder *builder, const struct node *node, struct rules *rules);

/* read_claims.c: what the rules print instead of a nutrient, which their roundings look at; then what they declare of claims.
 * Both go into `rules`; `number` is theirs. Whether a statement is of these. */
void read_conversion(struct builder *builder, const struct node *node, struct rules *rules);
void read_claims(struct builder *builder, const struct node *node, struct rules *rules, uint32_t number);
bool claims_know(const struct builder *builder, const struct node *node);

/* read_repeated.c: tells of statements that stand twice in one block of a declaration. */
void build_check_repeated(struct builder *builder, const struct node *declaration);

#endif
