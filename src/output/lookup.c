/* Looking up: from what was asked for to what is told. */
#include <math.h>
#include <string.h>

#include "output/lookup.h"

#define USUAL_LIMIT 20                  /* foods in a list */
#define LONG_NAME_BYTES 48              /* 24 words of a letter each take as much */

void lookup_open(struct lookup *lookup, const struct quern_lookup *wanted, struct allocator allocator)
{
    *lookup = (struct lookup){ .wanted = wanted, .allocator = allocator, .words = text_of(wanted->words ? wanted->words : ""),
                               .limit = USUAL_LIMIT };
    if (wanted->limit)
        lookup->limit = wanted->limit < UINT32_MAX ? (uint32_t)wanted->limit : UINT32_MAX;
    lookup->is_list = wanted->limit || wanted->group || wanted->lowest || wanted->highest || wanted->form != QUERN_AS_TEXT;
    lookup->uses_end = &lookup->uses;
    lookup->search = (struct search){ .allocator = allocator, .group = NONE_INDEX, .nutrient = NONE_INDEX };
    arena_open(&lookup->arena, allocator);
}

void lookup_close(struct lookup *lookup)
{
    search_close(&lookup->search);
    arena_close(&lookup->arena);
}

/* ---- what was asked for ------------------------------------------------------------------------------------------ */

/* `no group is called "x"; near names are a, b, c` */
static enum status fail_unknown(const struct lookup *lookup, struct telling *telling, const char *sort,
                                enum name_space space, struct text name)
{
    struct near_name near[5];
    struct buffer words;
    uint32_t count = library_near(lookup->library, 1u << space, name, near, COUNT_OF(near));
    buffer_open(&words, lookup->allocator);
    buffer_print(&words, "no %s is called `%.*s`%s", sort, (int)(name.length < 100 ? name.length : 100), name.bytes,
                 count ? "; near names are" : "");
    for (uint32_t i = 0; i < count; i++) {
        struct text written = library_text(near[i].library, near[i].name->written);
        buffer_print(&words, "%s %.*s", i ? "," : "", (int)written.length, written.bytes);
    }
    buffer_add(&words, "", 1);
    enum status status = words.failed ? telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL)
                                      : telling_fail(telling, STATUS_USAGE, words.bytes, NULL);
    buffer_close(&words);
    return status;
}

static enum status choose_group(struct lookup *lookup, struct telling *telling)
{
    char key[KEY_BYTES];
    if (!lookup->wanted->group)
        return STATUS_OK;
    struct text name = text_of(lookup->wanted->group);
    lookup->search.group = library_group(lookup->library, (struct text){ key, name_key_of(name, false, key) });
    return lookup->search.group == NONE_INDEX ? fail_unknown(lookup, telling, "group", SPACE_GROUP, name) : STATUS_OK;
}

static enum status choose_order(struct lookup *lookup, struct telling *telling)
{
    char key[KEY_BYTES];
    const char *lowest = lookup->wanted->lowest, *highest = lookup->wanted->highest;
    if (lowest && highest)
        return telling_fail(telling, STATUS_USAGE, "a list is sorted by the lowest or by the highest, not by both", NULL);
    if (!lowest && !highest)
        return STATUS_OK;
    struct text name = text_of(lowest ? lowest : highest);
    lookup->search.highest = highest != NULL;
    if (library_nutrient(lookup->library, (struct text){ key, name_key_of(name, false, key) }, &lookup->search.nutrient))
        return STATUS_OK;
    return fail_unknown(lookup, telling, "nutrient", SPACE_NUTRIENT, name);
}

static void add_column(struct lookup *lookup, uint32_t nutrient)
{
    bool is_there = nutrient == NONE_INDEX || lookup->column_count == LOOKUP_COLUMNS;
    for (uint32_t i = 0; i < lookup->column_count; i++)
        is_there = is_there || lookup->columns[i] == nutrient;
    if (!is_there)
        lookup->columns[lookup->column_count++] = nutrient;
}

/* Sodium and potassium: the rules say which two nutrients are compared. */
static void choose_columns(struct lookup *lookup)
{
    add_column(lookup, lookup->search.nutrient);
    add_column(lookup, lookup->rules && lookup->rules->compare_over != NONE_INDEX ? lookup->rules->compare_over
                                                                                  : lookup->library->traced);
    add_column(lookup, lookup->rules ? lookup->rules->compare_under : NONE_INDEX);
}

/* A name of nothing but blanks is none. */
static enum status choose_words(struct lookup *lookup, struct telling *telling)
{
    struct text word;
    bool any = name_split(lookup->words, &word, 1) > 0;
    if (!any)
        lookup->words.length = 0;
    if (!any && !lookup->wanted->group)
        return telling_fail(telling, STATUS_USAGE, "there are no words to look for", NULL);
    return STATUS_OK;
}

struct food_at lookup_named(const struct library *library, struct text name)
{
    char key[KEY_BYTES];
    uint32_t length = name_key_of(name, true, key);
    struct food_at food = { NULL, NULL };
    if (length > 0)
        food = library_food(library, (struct text){ key, length });
    length = food.food ? 0 : name_key_of(name, false, key);
    return length ? library_food(library, (struct text){ key, length }) : food;
}

struct text lookup_name(const struct library *library, struct food_at food, struct text found_as)
{
    struct text name = library_text(food.library, food.food->name);
    bool is_its = food.library == library || lookup_named(library, name).food == food.food;
    return is_its ? name : found_as;
}

/* ---- what there is ----------------------------------------------------------------------------------------------- */

/* Words that are no food may be a measure: what the library takes a pinch for. */
static void find_unit(struct lookup *lookup, struct text key)
{
    const struct unit *unit = library_unit(lookup->library, key, &lookup->unit_owner);
    bool measures = unit && (unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_VOLUME || unit->dimension == DIMENSION_SIZE);
    lookup->unit = measures ? unit : NULL;
}

static enum status find(struct lookup *lookup, struct telling *telling)
{
    char key[KEY_BYTES];
    struct text found = { key, name_key_of(lookup->words, false, key) };
    if (lookup->words.length > 0 && found.length == 0)
        return telling_fail(telling, STATUS_USAGE, lookup->words.length > LONG_NAME_BYTES ? "no name of a food is so long"
                                                   : "these are no words of a name", NULL);
    if (found.length > 0 && (!lookup->is_list || lookup->wanted->form == QUERN_AS_JSON)) {
        lookup->card = lookup_named(lookup->library, lookup->words);
        lookup->shelf_owner = library_shelf(lookup->library, found, &lookup->shelf).library;
    }
    if (!lookup->is_list && (lookup->card.food || lookup->shelf))
        return STATUS_OK;
    if (!lookup->card.food && !lookup->shelf && (lookup->wanted->form == QUERN_AS_JSON || (!lookup->is_list && lookup->wanted->form == QUERN_AS_TEXT)))
        find_unit(lookup, found);
    lookup->search.library = lookup->library;
    lookup->search.words = lookup->words;
    return library_search(&lookup->search);
}

static void print(struct lookup *lookup, struct telling *telling)
{
    switch (lookup->wanted->form) {
    case QUERN_AS_JSON: lookup_print_json(lookup, &telling->writer); break;
    case QUERN_AS_CSV: lookup_print_csv(lookup, &telling->writer); break;
    default: lookup_print_people(lookup, &telling->writer);
    }
}

/* The kitchen's rules; where none are given, or they have no cautions, the usual ones. */
static void choose_rules(struct lookup *lookup, const struct rules *rules, const struct library *owner)
{
    char key[KEY_BYTES];
    if (!rules || rules->caution_count == 0)
        rules = library_rules(lookup->library, (struct text){ key, name_key_of(text_of(USUAL_RULES), false, key) }, &owner);
    lookup->rules = rules;
    lookup->rules_owner = owner;
}

enum status lookup_tell(struct lookup *lookup, struct telling *telling, const struct library *library,
                        const struct rules *rules, const struct library *rules_owner)
{
    lookup->library = library;
    choose_rules(lookup, rules, rules_owner);
    enum status status = choose_words(lookup, telling);
    if (status == STATUS_OK)
        status = choose_group(lookup, telling);
    if (status == STATUS_OK)
        status = choose_order(lookup, telling);
    if (status == STATUS_OK)
        status = find(lookup, telling);
    if (status == STATUS_NO_MEMORY)
        return telling_fail(telling, status, "out of memory", NULL);
    if (status != STATUS_OK)
        return status;
    choose_columns(lookup);
    print(lookup, telling);
    lookup->was_told = true;
    telling->errors = lookup->card.food || lookup->shelf || lookup->unit || lookup_fitting(lookup) > 0 ? 0 : 1;
    return STATUS_OK;
}

/* ---- questions of the forms -------------------------------------------------------------------------------------- */

uint32_t lookup_shown(const struct lookup *lookup)
{
    return lookup->search.count < lookup->limit ? lookup->search.count : lookup->limit;
}

uint32_t lookup_fitting(const struct lookup *lookup)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < lookup->search.count; i++)
        count += lookup->search.found[i].kind <= MATCH_GROUP;
    return count;
}

struct food_at lookup_kind(const struct lookup *lookup, uint32_t kind)
{
    return lookup_named(lookup->library, library_text(lookup->shelf_owner, lookup->shelf_owner->texts[lookup->shelf->first_kind + kind]));
}

const struct portion *lookup_portion(struct food_at food)
{
    const struct portion *portions = food.library->portions + food.food->first_portion;
    for (uint32_t i = 0; i < food.food->portion_count; i++) {
        bool is_drained = text_is(library_text(food.library, portions[i].state), "drained");
        if (portions[i].grams.high > 0 && (!is_drained || food.food->state == FOOD_DRAINED))
            return &portions[i];
    }
    return NULL;
}

struct text lookup_portion_words(struct food_at food, const struct portion *portion, char *storage, size_t size)
{
    struct text unit = library_text(food.library, portion->unit), state = library_text(food.library, portion->state);
    int length = snprintf(storage, size, "1 %.*s%s%.*s", (int)unit.length, unit.bytes, state.length ? " " : "",
                          (int)state.length, state.bytes);
    return (struct text){ storage, length < 0 ? 0 : (size_t)length < size ? (uint32_t)length : (uint32_t)size - 1 };
}

bool lookup_amount(struct food_at food, const struct portion *portion, uint32_t column, struct range *amount)
{
    *amount = food.library->values[food.food->values + column];
    if (amount->low > amount->high)     /* what makers add is least where the food itself holds most */
        *amount = range_of(amount->high, amount->best, amount->low);
    if (portion)
        *amount = range_scale(range_multiply(*amount, portion->grams), 0.01);
    return food.food->known >> column & 1;
}

const char *lookup_basis(struct food_at food)
{
    switch (food.food->state) {
    case FOOD_WHOLE_CAN: return "whole can";
    case FOOD_DRAINED: return "drained";
    case FOOD_STATE_NOT_STATED: return "not stated";
    }
    return NULL;
}

struct text lookup_group(const struct library *library, struct food_at food)
{
    if (food.food->group == NONE_INDEX)
        return text_of("");
    while (library->base && food.food->group < library->group_first)
        library = library->base;
    const struct group *group = library_group_at(library, food.food->group);
    return group ? library_text(library, group->name) : text_of("");
}

const char *lookup_match_word(enum match_kind kind)
{
    static const char *const words[] = { "name", "words", "group", "near", "some" };
    return words[kind];
}

/* The foods that are told: one on a card, kinds, and what is in the list. */
static struct food_at told_food(const struct lookup *lookup, uint32_t number)
{
    uint32_t kinds = lookup->shelf ? lookup->shelf->kind_count : 0;
    if (lookup->card.food)
        return number == 0 ? lookup->card : number <= lookup_shown(lookup) ? lookup->search.found[number - 1].food : (struct food_at){ NULL, NULL };
    if (number < kinds)
        return lookup_kind(lookup, number);
    return number - kinds < lookup_shown(lookup) ? lookup->search.found[number - kinds].food : (struct food_at){ NULL, NULL };
}

static uint32_t told_count(const struct lookup *lookup)
{
    return (lookup->card.food ? 1 : lookup->shelf ? lookup->shelf->kind_count : 0) + lookup_shown(lookup);
}

/* Passes on each caution once. */
struct passing {
    const struct lookup *lookup;
    uint32_t food;                      /* its number among those that are told */
    caution_receiver *receive;
    void *context;
};

struct seeking {
    struct text words;
    bool found;
};

static void seek(void *context, const struct caution_told *told)
{
    struct seeking *seeking = context;
    seeking->found = seeking->found || text_equal(told->words, seeking->words);
}

static void pass_on(void *context, const struct caution_told *told)
{
    const struct passing *passing = context;
    struct seeking seeking = { told->words, false };
    for (uint32_t i = 0; i < passing->food && !seeking.found; i++)
        lookup_food_cautions(passing->lookup, told_food(passing->lookup, i), seek, &seeking);
    if (!seeking.found)
        passing->receive(passing->context, told);
}

void lookup_food_cautions(const struct lookup *lookup, struct food_at food, caution_receiver *receive, void *context)
{
    if (food.food)
        cautions_of_food(lookup->library, lookup->rules, lookup->rules_owner, food, receive, context);
}

static bool is_shown(const struct lookup *lookup, uint32_t nutrient)
{
    bool shown = nutrient == NONE_INDEX || lookup->card.food;
    for (uint32_t i = 0; i < lookup->column_count; i++)
        shown = shown || lookup->columns[i] == nutrient;
    return shown;
}

void lookup_cautions(const struct lookup *lookup, caution_receiver *receive, void *context)
{
    struct passing passing = { lookup, 0, receive, context };
    for (; passing.food < told_count(lookup); passing.food++)
        lookup_food_cautions(lookup, told_food(lookup, passing.food), pass_on, &passing);
    for (uint32_t i = 0; lookup->rules && i < lookup->rules->caution_count; i++) {
        const struct caution *caution = &lookup->rules_owner->cautions[lookup->rules->first_caution + i];
        if (caution->when_count == 0 && is_shown(lookup, caution->nutrient))
            receive(context, &(struct caution_told){ library_text(lookup->rules_owner, caution->words),
                                                     library_text(lookup->rules_owner, caution->source), text_of(""),
                                                     library_text(lookup->rules_owner, caution->exactly), false, caution->nutrient });
    }
}

/* ---- figures ----------------------------------------------------------------------------------------------------- */

double figure_rounded(double amount, enum direction direction)
{
    if (amount <= 0)
        return 0;
    return amount_round(amount, amount >= 100 ? 1 : power_of_ten(amount_decade(amount) - 2), direction);
}

struct text lookup_figure(char *storage, size_t size, struct range amount, bool is_known)
{
    int length;
    double low = figure_rounded(amount.low, ROUND_DOWN), high = figure_rounded(amount.high, ROUND_UP);
    if (!is_known)
        length = snprintf(storage, size, "unknown");
    else if (range_is_exact(amount) || low == high)
        length = snprintf(storage, size, "%.10g", figure_rounded(amount.best, ROUND_NEAREST));
    else
        length = snprintf(storage, size, "%.10g to %.10g", low, high);
    return (struct text){ storage, length < 0 ? 0 : (size_t)length < size ? (uint32_t)length : (uint32_t)size - 1 };
}
