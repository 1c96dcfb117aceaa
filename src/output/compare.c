/* Gathers what there is to tell of two that are compared. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "output/compare.h"
#include "output/lookup.h"

#define NEAR_SHOWN 3

void comparison_open(struct compare *comparison, const struct quern_compare *wanted, struct allocator allocator)
{
    *comparison = (struct compare){ .wanted = wanted, .looks_for = 3 };
    comparison->searches[0].name = wanted->first;
    comparison->searches[1].name = wanted->second ? wanted->second : wanted->first;
    arena_open(&comparison->arena, allocator);
    sums_open(&comparison->sides[0].sums, allocator);
    sums_open(&comparison->sides[1].sums, allocator);
}

void comparison_close(struct compare *comparison)
{
    struct allocator allocator = comparison->arena.allocator;
    for (uint32_t i = 0; i < 2; i++) {
        sums_close(&comparison->sides[i].sums);
        verdicts_close(&comparison->sides[i].verdicts, allocator);
    }
    arena_close(&comparison->arena);
}

static bool looks_for(const struct compare *comparison, uint32_t side)
{
    return comparison->looks_for >> side & 1;
}

static struct text copied(struct compare *comparison, struct text text)
{
    char *copy = arena_copy(&comparison->arena, text.bytes ? text.bytes : "", text.length);
    return copy ? (struct text){ copy, text.length } : text_of("");
}

static const char *shown_path(const struct compare *comparison, const char *path)
{
    return strlen(path) >= comparison->strip ? path + comparison->strip : path;
}

/* ---- finding the two ----------------------------------------------------------------------------------------------- */

static struct text key_of(const char *name, char *key)
{
    return (struct text){ key, name_key_of(text_of(name), true, key) };
}

static bool is_called(struct text name, struct text key)
{
    char storage[KEY_BYTES];
    return text_equal((struct text){ storage, name_key_of(name, true, storage) }, key);
}

static void count_hit(struct compare *comparison, struct compare_search *search, struct sources *sources, struct place place)
{
    const struct kitchen *kitchen = sources->kitchen;
    bool asked_for = place.file != FILE_NONE && place.file < kitchen->files_count && kitchen->files[place.file].requested;
    if (asked_for != search->asked_for && search->hits > 0 && !asked_for)
        return;
    if (asked_for && !search->asked_for)
        search->hits = 0;               /* what was not asked for gives way */
    search->asked_for = asked_for;
    if (search->hits == 0)
        search->kitchen = search->kitchens;
    if (search->hits < 2) {
        const char *path = shown_path(comparison, sources_path(sources, place.file));
        char *words = arena_print(&comparison->arena, "%s:%u", path, sources_position(sources, place).line);
        search->places[search->hits] = text_of(words ? words : "");
    }
    search->hits++;
}

/* `"a", "b", "c"` */
static struct text add_to_list(struct compare *comparison, struct text list, struct text name)
{
    char *words = arena_print(&comparison->arena, "%.*s%s\"%.*s\"", (int)list.length, list.length ? list.bytes : "", list.length ? ", " : "",
                              (int)name.length, name.bytes);
    return text_of(words ? words : "");
}

static void note_near(struct compare *comparison, struct compare_search *search, const struct kitchen *kitchen)
{
    struct text recipes[NEAR_SHOWN];
    struct near_name foods[NEAR_SHOWN];
    struct text name = text_of(search->name);
    uint32_t count = kitchen_near_names(kitchen, name, recipes, NEAR_SHOWN);
    for (uint32_t i = 0; i < count; i++)
        search->near = add_to_list(comparison, search->near, recipes[i]);
    uint32_t more = library_near(kitchen->library, 1u << SPACE_FOOD | 1u << SPACE_LABEL, name, foods, NEAR_SHOWN);
    for (uint32_t i = 0; i < more && count + i < NEAR_SHOWN; i++)
        search->near = add_to_list(comparison, search->near, library_text(foods[i].library, foods[i].name->written));
}

static void note_kinds(struct compare *comparison, struct compare_search *search, const struct kitchen *kitchen)
{
    char key[KEY_BYTES];
    const struct shelf *shelf;
    const struct library *owner = library_shelf(kitchen->library, (struct text){ key, name_key_of(text_of(search->name), false, key) }, &shelf).library;
    for (uint32_t i = 0; shelf && i < shelf->kind_count; i++)
        search->kinds = add_to_list(comparison, search->kinds, library_text(owner, owner->texts[shelf->first_kind + i]));
}

static void look(struct compare *comparison, struct compare_search *search, struct sources *sources)
{
    char key[KEY_BYTES];
    const struct kitchen *kitchen = sources->kitchen;
    struct text wanted = key_of(search->name, key);
    for (uint32_t i = 0; wanted.length && i < kitchen->recipes_count; i++) {
        const struct recipe *recipe = kitchen->recipes[i].recipe;
        if (is_called(recipe->name, wanted))
            count_hit(comparison, search, sources, (struct place){ recipe->file, recipe->title });
    }
    struct food_at label = wanted.length ? library_label(kitchen->library, wanted) : (struct food_at){ NULL, NULL };
    if (label.food && label.library == &kitchen->local)
        count_hit(comparison, search, sources, label.food->place);
    for (uint32_t i = 0; i < kitchen->weeks_count; i++)
        search->is_week = search->is_week || is_called(kitchen->weeks[i].week->name, wanted);
    bool is_food = (label.food && label.library != &kitchen->local) || lookup_named(kitchen->library, text_of(search->name)).food;
    search->is_food = search->is_food || is_food;
    if (!is_food && search->kitchens == 0)
        note_kinds(comparison, search, kitchen);
    if (search->hits == 0 && !search->is_food && search->near.length == 0)
        note_near(comparison, search, kitchen);
    search->kitchens++;
}

enum status comparison_look(struct telling *telling, struct kitchen *kitchen)
{
    struct compare *comparison = telling->task;
    struct sources sources;
    sources_open(&sources, kitchen, kitchen->input);
    for (uint32_t i = 0; i < 2; i++) {
        if (looks_for(comparison, i))
            look(comparison, &comparison->searches[i], &sources);
    }
    bool failed = sources.failed || comparison->arena.failed;
    sources_close(&sources);
    return failed ? STATUS_NO_MEMORY : STATUS_OK;
}

QUERN_PRINTF(2, 3)
static enum status fail(struct telling *telling, const char *format, ...)
{
    char words[sizeof telling->failure];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(words, sizeof words, format, arguments);
    va_end(arguments);
    return telling_fail(telling, length < 0 ? STATUS_IO : STATUS_USAGE, words, NULL);
}

#define SHOWN(text) (int)(text).length, (text).length ? (text).bytes : ""

static enum status judge_search(struct telling *telling, const struct compare *comparison, const struct compare_search *search)
{
    const char *name = search->name;
    if (search->hits > 1)
        return fail(telling, "two are called \"%.100s\": %.*s and %.*s; rename one, or name the file of the one you mean with --kitchen",
                    name, SHOWN(search->places[0]), SHOWN(search->places[1]));
    if (search->hits == 1 || (search->is_food && !comparison->revision))
        return STATUS_OK;
    if (comparison->revision)
        return fail(telling, "\"%.100s\" was not there yet at %.100s, or had another name", name, comparison->revision);
    if (search->is_week)
        return fail(telling, "\"%.100s\" is a week; compare two of its days", name);
    if (search->kinds.length)
        return fail(telling, "\"%.100s\" stands for several foods; name one of them: %.*s", name, SHOWN(search->kinds));
    return fail(telling, "no recipe, day, label or food is called \"%.100s\"%s%.*s", name, search->near.length ? "; near names are " : "", SHOWN(search->near));
}

enum status comparison_found(const struct compare *comparison, struct telling *telling)
{
    enum status status = STATUS_OK;
    for (uint32_t i = 0; i < 2 && status == STATUS_OK; i++) {
        if (looks_for(comparison, i))
            status = judge_search(telling, comparison, &comparison->searches[i]);
    }
    return status;
}

/* ---- taking a side -------------------------------------------------------------------------------------------------- */

static void set_place(struct compare *comparison, struct compare_side *side, struct sources *sources, struct place place)
{
    side->file = copied(comparison, text_of(shown_path(comparison, sources_path(sources, place.file))));
    side->line = sources_position(sources, place).line;
}

/* Lines as they were written. */
static void copy_lines(struct compare *comparison, struct compare_side *side, struct sources *sources)
{
    const struct sums *sums = &side->sums;
    side->written = arena_take(&comparison->arena, (sums->line_count + 1) * sizeof *side->written);
    bool loaded = sources_load(sources, sums->at.recipe->file);
    for (uint32_t i = 0; side->written && i < sums->line_count; i++) {
        struct place place = recipe_line_place(sums, sums->lines[i].line);
        bool whole = loaded && sums->lines[i].line->tail != NONE_INDEX;
        side->written[i] = copied(comparison, whole ? span_text(sources->text, place.span) : text_of("a line that a finding speaks of"));
    }
}

static enum status take_recipe(struct compare *comparison, struct compare_side *side, struct sources *sources, struct recipe_at at)
{
    enum status status = sums_compute(&side->sums, at);
    if (status == STATUS_OK)
        status = recipe_judge(&side->sums, &side->verdicts, NULL);
    if (status != STATUS_OK)
        return status;
    side->held = compared_recipe(&side->sums);
    side->name = at.recipe->name;
    side->kind = text_of(at.recipe->is_day ? "day" : "recipe");
    side->also_a_food = lookup_named(sources->kitchen->library, at.recipe->name).food != NULL;
    set_place(comparison, side, sources, (struct place){ at.recipe->file, at.recipe->title });
    copy_lines(comparison, side, sources);
    for (uint32_t i = 0; i < side->sums.line_count; i++)
        side->unknown_count += (uint32_t)(side->sums.lines[i].incomplete >> comparison->nutrient & 1);
    return STATUS_OK;
}

static void take_food(struct compare *comparison, struct compare_side *side, struct sources *sources, struct food_at food)
{
    char words[160];
    const struct kitchen *kitchen = sources->kitchen;
    bool is_label = food.food->flags & FOOD_IS_LABEL;
    const struct portion *portion = lookup_portion(food);
    side->held = compared_food(kitchen, food, is_label ? NULL : portion);
    side->name = library_text(food.library, food.food->name);
    side->kind = text_of(is_label ? "label" : "food");
    side->source = library_text(food.library, food.food->source);
    if (portion && !is_label)
        side->serving = copied(comparison, lookup_portion_words(food, portion, words, sizeof words));
    if (food.library == &kitchen->local)
        set_place(comparison, side, sources, food.food->place);
}

static enum status take_side(struct compare *comparison, uint32_t number, struct kitchen *kitchen)
{
    char key[KEY_BYTES];
    struct compare_side *side = &comparison->sides[number];
    const char *name = comparison->searches[number].name;
    struct recipe_at at = { NULL, NULL };
    struct food_at food = { NULL, NULL };
    struct sources sources;
    struct text wanted = key_of(name, key);
    for (uint32_t i = 0; i < kitchen->recipes_count; i++) {
        const struct recipe *recipe = kitchen->recipes[i].recipe;
        if (is_called(recipe->name, wanted) && (!at.recipe || kitchen->files[recipe->file].requested))
            at = kitchen->recipes[i];
    }
    if (!at.recipe && wanted.length)
        food = library_label(kitchen->library, wanted);
    if (!at.recipe && !food.food)
        food = lookup_named(kitchen->library, text_of(name));
    sources_open(&sources, kitchen, kitchen->input);
    enum status status = STATUS_OK;
    if (at.recipe)
        status = take_recipe(comparison, side, &sources, at);
    else
        take_food(comparison, side, &sources, food);
    side->revision = text_of(comparison->revision ? comparison->revision : "");
    bool failed = sources.failed || comparison->arena.failed;
    sources_close(&sources);
    return failed ? STATUS_NO_MEMORY : status;
}

/* ---- what there is to tell ------------------------------------------------------------------------------------------ */

static enum status choose_nutrient(struct compare *comparison, struct telling *telling, const struct kitchen *kitchen)
{
    char key[KEY_BYTES];
    const char *wanted = comparison->wanted->nutrient;
    comparison->nutrient = kitchen->library->traced;
    bool found = !wanted || library_nutrient(kitchen->library, (struct text){ key, name_key_of(text_of(wanted), false, key) }, &comparison->nutrient);
    if (found && comparison->nutrient != NONE_INDEX)
        return STATUS_OK;
    return fail(telling, "no nutrient is called \"%.100s\"; `quern report` lists their names, such as potassium", wanted ? wanted : "");
}

static void show_nutrient(struct compare *comparison, uint32_t nutrient)
{
    bool shown = nutrient == NONE_INDEX;
    for (uint32_t i = 0; i < comparison->shown_count; i++)
        shown = shown || comparison->shown[i] == nutrient;
    if (!shown)
        comparison->shown[comparison->shown_count++] = nutrient;
}

/* A recipe that does not say how many it serves: no bowl of another is held against all of its pot. */
static bool is_whole(const struct compared *one)
{
    return one->sums && !one->sums->at.recipe->is_day && one->sums->at.recipe->serves.high <= 0;
}

static void compare_figures(struct compare *comparison)
{
    const struct compared *first = &comparison->sides[0].held, *second = &comparison->sides[1].held;
    uint32_t nutrients = first->kitchen->library->nutrient_total;
    comparison->figures = arena_take(&comparison->arena, nutrients * SHARE_COUNT * sizeof *comparison->figures);
    for (uint32_t i = 0; comparison->figures && i < nutrients * SHARE_COUNT; i++) {
        struct compare_figure *figure = &comparison->figures[i];
        enum share share = i % SHARE_COUNT;
        uint32_t column = i / SHARE_COUNT;
        figure->first_had = compared_amount(first, share, column, &figure->first, &figure->first_complete);
        figure->second_had = compared_amount(second, share, column, &figure->second, &figure->second_complete);
        figure->had = difference_of(first, second, &comparison->pairs, share, column, &figure->change)
                   && (share != SHARE_SERVING || is_whole(first) == is_whole(second));
    }
}

static void add_row(struct compare *comparison, uint32_t line, uint32_t other)
{
    struct compare_side *sides = comparison->sides;
    uint32_t nutrient = comparison->nutrient;
    struct compare_row *row = &comparison->rows[comparison->row_count];
    row->number = comparison->row_count++;
    const struct compared *both[2] = { &sides[0].held, &sides[1].held };
    const uint32_t lines[2] = { line, other };
    for (uint32_t i = 0; i < 2; i++) {
        if (lines[i] == NONE_INDEX)
            continue;
        const struct line_amount *amount = &both[i]->sums->lines[lines[i]];
        struct range holds = range_divide(line_column(amount, both[i]->kitchen->library, nutrient), compared_servings(both[i]));
        bool known = !(amount->incomplete >> nutrient & 1);
        *(i ? &row->second : &row->first) = sides[i].written[lines[i]];
        *(i ? &row->second_holds : &row->first_holds) = holds;
        *(i ? &row->second_known : &row->first_known) = known;
    }
    bool cancels = line != NONE_INDEX && other != NONE_INDEX && pair_cancels(both[0], both[1], line, other, nutrient);
    row->same = comparison->pairs.identical || cancels;
    row->change = difference_of_lines(both[0], both[1], line, other, nutrient);
    if (comparison->pairs.identical)
        row->change = (struct change){ .best_known = true };
    comparison->same_count += row->same && row->change.kind == CHANGE_NONE;
}

/* The largest change first, what nobody knows before all others. */
static int compare_rows(const void *left, const void *right)
{
    const struct compare_row *a = left, *b = right;
    double x = a->change.best_known ? fabs(a->change.best) : INFINITY, y = b->change.best_known ? fabs(b->change.best) : INFINITY;
    if (x != y)
        return x > y ? -1 : 1;
    return a->number < b->number ? -1 : 1;
}

static void compare_lines(struct compare *comparison)
{
    const struct sums *first = comparison->sides[0].held.sums, *second = comparison->sides[1].held.sums;
    if (!first || !second || !comparison->figures || !comparison->figures[comparison->nutrient * SHARE_COUNT].had)
        return;
    comparison->rows = arena_take(&comparison->arena, (first->line_count + second->line_count + 1) * sizeof *comparison->rows);
    for (uint32_t i = 0; comparison->rows && i < first->line_count; i++)
        add_row(comparison, i, comparison->pairs.second[i]);
    for (uint32_t i = 0; comparison->rows && i < second->line_count; i++) {
        if (comparison->pairs.first[i] == NONE_INDEX)
            add_row(comparison, NONE_INDEX, i);
    }
    if (comparison->rows)
        qsort(comparison->rows, comparison->row_count, sizeof *comparison->rows, compare_rows);
}

static bool differ(struct range a, struct range b)
{
    return fabs(a.best - b.best) > SERVINGS_DIFFER_BY * amount_larger(a.best, b.best);
}

/* What a serving of each is. Where both are weighed the weight decides, else the volume. */
static void compare_servings(struct compare *comparison)
{
    const struct compared *first = &comparison->sides[0].held, *second = &comparison->sides[1].held;
    const struct compare_figure *figures = &comparison->figures[comparison->nutrient * SHARE_COUNT];
    const struct compare_figure *serving = &figures[SHARE_SERVING], *mass = &figures[SHARE_MASS];
    bool weighed = first->grams.high > 0 && second->grams.high > 0, measured = first->ml.high > 0 && second->ml.high > 0;
    comparison->servings = SERVINGS_UNKNOWN;
    if (comparison->pairs.identical)
        comparison->servings = SERVINGS_ALIKE;
    else if (weighed)
        comparison->servings = differ(first->grams, second->grams) ? SERVINGS_DIFFER : SERVINGS_ALIKE;
    else if (measured)
        comparison->servings = differ(first->ml, second->ml) ? SERVINGS_DIFFER : SERVINGS_ALIKE;
    if (serving->had && mass->had)
        comparison->orders_differ = (serving->change.kind == CHANGE_MORE && mass->change.kind == CHANGE_LESS)
                                 || (serving->change.kind == CHANGE_LESS && mass->change.kind == CHANGE_MORE);
}

static void gather_cautions(struct compare *comparison)
{
    comparison->cautions.arena = &comparison->arena;
    for (uint32_t i = 0; i < 2; i++) {
        struct compare_side *side = &comparison->sides[i];
        const struct kitchen *kitchen = side->held.kitchen;
        if (side->held.sums)
            told_cautions_of(&comparison->cautions, &side->sums, &side->verdicts);
        else
            cautions_of_all(kitchen->cautions, kitchen->cautions_owner, told_cautions_add, &comparison->cautions);
        if (side->held.food.food)
            cautions_of_food(kitchen->library, kitchen->cautions, kitchen->cautions_owner, side->held.food, told_cautions_add, &comparison->cautions);
    }
}

static enum status compare(struct compare *comparison, struct telling *telling)
{
    const struct kitchen *first = comparison->sides[0].held.kitchen, *second = comparison->sides[1].held.kitchen;
    if (first->library->nutrient_total != second->library->nutrient_total)
        return telling_fail(telling, STATUS_USAGE, "the two do not count the same nutrients, since one of their kitchens declares its own", NULL);
    show_nutrient(comparison, comparison->nutrient);
    show_nutrient(comparison, second->rules ? second->rules->compare_over : NONE_INDEX);
    show_nutrient(comparison, second->rules ? second->rules->compare_under : NONE_INDEX);
    if (!lines_pair(&comparison->pairs, &comparison->sides[0].held, &comparison->sides[1].held, &comparison->arena))
        return STATUS_NO_MEMORY;
    compare_figures(comparison);
    compare_lines(comparison);
    gather_cautions(comparison);
    if (comparison->arena.failed)
        return STATUS_NO_MEMORY;
    compare_servings(comparison);
    const struct compare_figure *figure = &comparison->figures[comparison->nutrient * SHARE_COUNT];
    telling->errors = figure->first_complete && figure->second_complete ? 0 : 1;
    if (telling->form != QUERN_AS_JSON)
        return comparison_tell(comparison, telling);
    comparison_json(comparison, telling);
    return STATUS_OK;
}

enum status comparison_kitchen(struct telling *telling, struct kitchen *kitchen)
{
    struct compare *comparison = telling->task;
    enum status status = choose_nutrient(comparison, telling, kitchen);
    if (status == STATUS_OK && comparison->searches[looks_for(comparison, 0) ? 0 : 1].kitchens == 0)
        status = comparison_look(telling, kitchen);
    if (status == STATUS_OK)
        status = comparison_found(comparison, telling);
    for (uint32_t i = 0; i < 2 && status == STATUS_OK; i++) {
        if (looks_for(comparison, i))
            status = take_side(comparison, i, kitchen);
    }
    if (status != STATUS_OK)
        return status;
    return comparison->next ? comparison->next(comparison->context) : compare(comparison, telling);
}
