/* The shopping list, summed: each line of each recipe goes to its food. What is made from other recipes is opened up into their
 * lines. What has no amount that can be summed is kept as it is written. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "output/class.h"

/* ---- wares ----------------------------------------------------------------------------------------------------- */

static uint32_t outermost_group(struct food_at food)
{
    uint32_t number = food.food->group, top = number;
    while (number != NONE_INDEX) {
        top = number;
        number = library_group_at(food.library, number)->parent;
    }
    return top;
}

static struct ware *ware_of(struct shopping *shopping, struct food_at food)
{
    for (uint32_t i = 0; i < shopping->ware_count; i++) {
        if (shopping->wares[i].food.food == food.food)
            return &shopping->wares[i];
    }
    if (!array_grow(&shopping->allocator, &shopping->wares, shopping->ware_count, &shopping->ware_capacity, sizeof *shopping->wares)) {
        shopping->failed = true;
        return NULL;
    }
    struct ware *ware = &shopping->wares[shopping->ware_count++];
    *ware = (struct ware){ .food = food, .aisle = outermost_group(food), .weight_known = true, .by_volume = true, .by_count = true,
                           .piece = { "", 0 } };
    return ware;
}

static bool is_in_name(struct food_at food, struct text word)
{
    char key[KEY_BYTES], name[KEY_BYTES];
    struct text words[LIMIT_NAME_WORDS], folded = { key, name_key(&word, 1, false, key) };
    struct text whole = { name, name_key_of(library_text(food.library, food.food->name), false, name) };
    uint32_t count = name_split(whole, words, LIMIT_NAME_WORDS);
    for (uint32_t i = 0; i < count; i++) {
        if (text_equal(words[i], folded))
            return true;
    }
    return false;
}

/* What stands between the amount and the food's name: `medium`, `cloves`. */
static struct text piece_words(const struct tail *tail, struct food_at food)
{
    struct text none = { "", 0 };
    const struct item *first = tail->items;
    if (!first || first->kind != ITEM_WORD || !first->next || first->next->kind != ITEM_WORD)
        return none;
    struct text word = span_text(tail->text, first->span);
    return is_in_name(food, word) ? none : word;
}

static bool add_package(struct ware *ware, const struct unit *unit, double number, double grams)
{
    for (uint32_t i = 0; i < ware->package_count; i++) {
        if (ware->packages[i].unit == unit && fabs(ware->packages[i].grams - grams) <= 0.01 * grams) {
            ware->packages[i].number += number;
            return true;
        }
    }
    if (ware->package_count == WARE_PACKAGES)
        return false;
    ware->packages[ware->package_count++] = (struct ware_package){ unit, number, grams };
    return true;
}

/* Grams as bought: a line's amount is the edible part unless it says that it was weighed with the waste. */
static double bought_grams(const struct line_amount *amount, double grams)
{
    double refuse = amount->resolved->food.food->refuse;
    bool whole = refuse > 0 && fabs(amount->resolved->kept.best - (1 - refuse)) < 1e-9;
    return refuse > 0 && refuse < 1 && !whole ? grams / (1 - refuse) : grams;
}

/* How the line counts its food, in the ware. */
static void add_measure(const struct page *page, struct ware *ware, const struct line_amount *amount, double factor, double grams)
{
    const struct line *line = amount->line;
    const struct unit *unit = cook_unit(page, amount);
    double written = (line->low + line->high) / 2 * factor;
    struct text piece = piece_words(&page->sums->at.gathering->tails[line->tail], ware->food);
    bool counted = amount->resolved->flags & RESOLVED_BY_COUNT, volume = unit && unit->dimension == DIMENSION_VOLUME;
    bool packed = unit && unit->dimension == DIMENSION_PACKAGE && written > 0 && grams > 0;
    if (!(packed && add_package(ware, unit, written, grams / written)))
        ware->loose += grams;
    ware->by_volume = ware->by_volume && volume;
    ware->by_count = ware->by_count && counted && (!ware->measured || text_equal(piece, ware->piece));
    if (volume)
        ware->ml += written * unit->factor.best;
    if (counted)
        ware->pieces += written;
    ware->piece = counted && !ware->piece.length ? piece : ware->piece;
}

static void add_food(struct shopping *shopping, const struct page *page, const struct line_amount *amount, double factor)
{
    struct ware *ware = ware_of(shopping, amount->resolved->food);
    bool some = amount->line->quantity != QUANTITY_NUMBER && amount->line->quantity != QUANTITY_RANGE;
    if (!ware || some)
        return;
    struct range grams = range_scale(line_grams(amount, page->library), factor);
    if (ware->food.food->basis == FOOD_PER_SERVING)
        ware->servings += amount->as_written.best * factor;
    ware->grams = range_add(ware->grams, grams);
    ware->bought += bought_grams(amount, grams.best);
    ware->weight_known = ware->weight_known && amount->mass_known && grams.best > 0;
    add_measure(page, ware, amount, factor, grams.best);
    ware->measured = true;
}

/* ---- recipes --------------------------------------------------------------------------------------------------- */

static void add_made(struct shopping *shopping, struct made **list, uint32_t *count, uint32_t *capacity, const struct recipe *recipe, double batches)
{
    for (uint32_t i = 0; i < *count; i++) {
        if ((*list)[i].recipe == recipe) {
            (*list)[i].batches += batches;
            return;
        }
    }
    if (array_grow(&shopping->allocator, list, *count, capacity, sizeof **list))
        (*list)[(*count)++] = (struct made){ recipe, batches };
    else
        shopping->failed = true;
}

static void add_unsummed(struct shopping *shopping, const struct page *page, const struct line_amount *amount, double factor)
{
    struct cook_line line;
    struct unsummed *one = NULL;
    if (array_grow(&shopping->allocator, &shopping->unsummed, shopping->unsummed_count, &shopping->unsummed_capacity, sizeof *shopping->unsummed))
        one = &shopping->unsummed[shopping->unsummed_count++];
    shopping->failed = shopping->failed || !one;
    cook_line(page, shopping->sheet, amount, factor, &line);
    if (one)
        *one = (struct unsummed){ line.us.length ? sheet_say(shopping->sheet, PHRASE_COOK_MEASURED, line.us, line.what) : line.what, page->recipe };
}

static enum status add_recipe(struct shopping *shopping, struct recipe_at at, double factor, uint32_t depth);

static enum status add_line(struct shopping *shopping, const struct page *page, const struct line_amount *amount, double factor, uint32_t depth)
{
    enum subject subject = amount->unknown ? SUBJECT_NONE : amount->resolved->subject;
    if (subject == SUBJECT_FOOD && amount->resolved->food.food) {
        add_food(shopping, page, amount, factor);
    } else if (subject == SUBJECT_RECIPE && depth < LIMIT_NESTING) {
        double batches = amount->as_written.best * factor;
        add_made(shopping, &shopping->made, &shopping->made_count, &shopping->made_capacity, amount->resolved->recipe.recipe, batches);
        return add_recipe(shopping, amount->resolved->recipe, batches, depth + 1);
    } else if (subject != SUBJECT_BATH) {
        add_unsummed(shopping, page, amount, factor);
    }
    return shopping->failed ? STATUS_NO_MEMORY : STATUS_OK;
}

static enum status add_recipe(struct shopping *shopping, struct recipe_at at, double factor, uint32_t depth)
{
    struct sums sums;
    sums_open(&sums, shopping->allocator);
    enum status status = sums_compute(&sums, at);
    struct report report = { .sums = &sums };
    struct page page = page_of(shopping->showing, shopping->sheet, &report);
    for (uint32_t i = 0; i < sums.line_count && status == STATUS_OK; i++)
        status = add_line(shopping, &page, &sums.lines[i], factor, depth);
    sums_close(&sums);
    return status;
}

/* A recipe or day that was asked for. */
static enum status cook(struct shopping *shopping, struct telling *telling, struct recipe_at at)
{
    struct handing handing = { .servings = at.recipe->is_day ? 0 : shopping->servings };
    double factor = 1;
    telling->task = &handing;
    bool good = handing_factor(telling, at.recipe, &factor);
    telling->task = shopping;
    if (!good)
        return STATUS_USAGE;
    add_made(shopping, &shopping->cooked, &shopping->cooked_count, &shopping->cooked_capacity, at.recipe, factor);
    return shopping->failed ? STATUS_NO_MEMORY : add_recipe(shopping, at, factor, 0);
}

/* ---- what was asked for ---------------------------------------------------------------------------------------- */

static enum status no_such_name(struct telling *telling, const struct kitchen *kitchen, const char *name)
{
    struct text near[3];
    char words[300];
    uint32_t count = kitchen_near_names(kitchen, text_of(name), near, COUNT_OF(near));
    int used = snprintf(words, sizeof words, "no recipe, day or week is called \"%.100s\"", name);
    for (uint32_t i = 0; i < count && used > 0 && (size_t)used < sizeof words; i++)
        used += snprintf(words + used, sizeof words - (size_t)used, "%s\"%.*s\"", i ? ", " : "; near names are ", (int)near[i].length, near[i].bytes);
    return telling_fail(telling, STATUS_USAGE, words, NULL);
}

static enum status cook_week(struct shopping *shopping, struct telling *telling, const struct kitchen *kitchen, struct week_at week)
{
    enum status status = STATUS_OK;
    for (uint32_t i = 0; i < week.week->day_count && status == STATUS_OK; i++) {
        struct recipe_at day = week_day(kitchen, week, i);
        if (day.recipe)
            status = cook(shopping, telling, day);
    }
    return status;
}

static enum status cook_named(struct shopping *shopping, struct telling *telling, const struct kitchen *kitchen, const char *name)
{
    char key[KEY_BYTES], other[KEY_BYTES];
    struct recipe_at found = kitchen_recipe(kitchen, text_of(name));
    if (found.recipe)
        return cook(shopping, telling, found);
    struct text wanted = { key, name_key_of(text_of(name), true, key) };
    for (uint32_t i = 0; i < kitchen->weeks_count; i++) {
        struct text week = { other, name_key_of(kitchen->weeks[i].week->name, true, other) };
        if (text_equal(wanted, week))
            return cook_week(shopping, telling, kitchen, kitchen->weeks[i]);
    }
    return no_such_name(telling, kitchen, name);
}

static enum status cook_all(struct shopping *shopping, struct telling *telling, const struct kitchen *kitchen)
{
    enum status status = STATUS_OK;
    for (uint32_t i = 0; i < kitchen->recipes_count && status == STATUS_OK; i++) {
        const struct recipe *recipe = kitchen->recipes[i].recipe;
        if (!recipe->is_day && kitchen->files[recipe->file].requested)
            status = cook(shopping, telling, kitchen->recipes[i]);
    }
    if (status == STATUS_OK && shopping->cooked_count == 0)
        status = telling_fail(telling, STATUS_USAGE, "no recipe is here; `--kitchen` says where the kitchen lies", NULL);
    return status;
}

/* ---- how it is bought ------------------------------------------------------------------------------------------ */

const struct portion *ware_package_portion(const struct library *library, struct food_at food)
{
    for (uint32_t i = 0; i < food.food->portion_count; i++) {
        const struct portion *portion = &food.library->portions[food.food->first_portion + i];
        const struct unit *unit = library_unit(library, library_text(food.library, portion->unit), NULL);
        if (unit && unit->dimension == DIMENSION_PACKAGE && unit->state.length && portion->grams.best > 0)
            return portion;
    }
    return NULL;
}

/* So many whole ones; a crumb more is no further one. */
static double whole_ones(double number)
{
    return ceil(number - 1e-6 * (number > 1 ? number : 1));
}

enum buying ware_buying(const struct ware *ware, double *count)
{
    const struct food *food = ware->food.food;
    *count = 0;
    if (!ware->measured)
        return BUY_A_LITTLE;
    if (food->basis == FOOD_PER_SERVING && food->servings.best > 0) {
        *count = whole_ones(ware->servings / food->servings.best);
        return BUY_PACKAGES;
    }
    if (ware->package_count)
        return BUY_PACKAGES;
    const struct portion *portion = food->basis == FOOD_PER_100_G && ware->weight_known ? ware_package_portion(ware->food.library, ware->food) : NULL;
    if (portion && !ware->by_count) {
        *count = whole_ones(ware->grams.best / portion->grams.best);
        return BUY_PACKAGES;
    }
    if (ware->by_count) {
        *count = whole_ones(ware->pieces);
        return BUY_PIECES;
    }
    if (ware->by_volume && !(library_is_fresh(ware->food) && ware->weight_known))
        return BUY_VOLUME;                      /* nobody sells fresh vegetables by the cup */
    return ware->weight_known ? BUY_WEIGHT : BUY_SERVINGS;
}

/* By aisle, then by name. */
static int compare_wares(const void *left, const void *right)
{
    const struct ware *a = left, *b = right;
    if (a->aisle != b->aisle)
        return a->aisle < b->aisle ? -1 : 1;
    struct text x = library_text(a->food.library, a->food.food->name), y = library_text(b->food.library, b->food.food->name);
    int order = memcmp(x.bytes, y.bytes, x.length < y.length ? x.length : y.length);
    return order ? order : x.length < y.length ? -1 : x.length > y.length;
}

enum status telling_shopping(struct telling *telling, struct kitchen *kitchen)
{
    struct shopping *shopping = telling->task;
    struct showing showing = { .kitchen = kitchen, .writer = &telling->writer };
    struct sheet sheet;
    enum status status = STATUS_OK;
    sources_open(&showing.sources, kitchen, telling->given.bytes ? telling->given : kitchen->input);
    sheet_open(&sheet, sheet_look(telling->form), &telling->writer, telling->allocator);
    shopping->allocator = telling->allocator;
    shopping->showing = &showing;
    shopping->sheet = &sheet;
    for (size_t i = 0; i < shopping->name_count && status == STATUS_OK; i++)
        status = cook_named(shopping, telling, kitchen, shopping->names[i]);
    if (shopping->name_count == 0)
        status = cook_all(shopping, telling, kitchen);
    if (shopping->ware_count)
        qsort(shopping->wares, shopping->ware_count, sizeof *shopping->wares, compare_wares);
    if (status == STATUS_OK && telling->form == QUERN_AS_JSON)
        shopping_tell_json(shopping);
    else if (status == STATUS_OK)
        shopping_tell(shopping);
    sheet_close(&sheet);
    sources_close(&showing.sources);
    void *const lists[] = { shopping->wares, shopping->made, shopping->cooked, shopping->unsummed };
    for (size_t i = 0; i < COUNT_OF(lists); i++)
        telling->allocator.resize(telling->allocator.context, lists[i], 0);
    return status == STATUS_NO_MEMORY ? telling_fail(telling, status, "out of memory", NULL) : status;
}
