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
    *ware = (struct ware){ .food = food, .aisle = outermost_group(food), .weight_known = true, .by_volume = true, .by_count = true };
    return ware;
}

/* Whether the key is a word of a piece that the food comes in, or says how large it is. */
static bool is_of_piece(const struct library *library, struct food_at food, struct text key)
{
    struct text words[LIMIT_NAME_WORDS];
    const struct unit *unit = library_unit(library, key, NULL);
    if (unit && unit->dimension == DIMENSION_SIZE)
        return true;
    for (uint32_t i = 0; i < food.food->portion_count; i++) {
        uint32_t count = name_split(library_text(food.library, food.library->portions[food.food->first_portion + i].unit), words, LIMIT_NAME_WORDS);
        for (uint32_t j = 0; j < count; j++) {
            if (text_equal(words[j], key))
                return true;
        }
    }
    return false;
}

/* What stands between the amount and the food's name: `medium`, `large clove`. */
static struct text piece_words(struct shopping *shopping, const struct page *page, const struct tail *tail, struct food_at food)
{
    struct text words = { "", 0 };
    for (const struct item *item = tail->items; item && item->kind == ITEM_WORD && item->next && item->next->kind == ITEM_WORD; item = item->next) {
        char storage[KEY_BYTES];
        struct text word = span_text(tail->text, item->span), key = { storage, name_key(&word, 1, false, storage) };
        if (!is_of_piece(page->library, food, key))
            break;
        words = sheet_print(shopping->sheet, "%.*s%s%.*s", (int)words.length, words.bytes, words.length ? " " : "", (int)key.length, key.bytes);
    }
    return words;
}

static bool add_pieces(struct ware *ware, struct text words, double number)
{
    uint32_t at = 0;
    while (at < ware->piece_count && !text_equal(ware->pieces[at].words, words))
        at++;
    if (at == WARE_PACKAGES)
        return false;
    if (at == ware->piece_count)
        ware->pieces[ware->piece_count++] = (struct ware_piece){ words, 0 };
    ware->pieces[at].number += number;
    return true;
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

/* Grams as bought: a weight is what is bought, with what was taken off it; a cup or a piece is what is eaten, and what is
 * sold with bone or peel is bought with them. */
static double bought_grams(const struct line_amount *amount, double grams)
{
    const struct resolved *resolved = amount->resolved;
    const struct food *food = resolved->food.food;
    bool sold_with = food->refuse.low > 0 && (food->refuse_kind == REFUSE_WEIGHED || food->refuse_kind == REFUSE_EATEN);
    if (!(resolved->flags & (RESOLVED_BY_COUNT | RESOLVED_BY_VOLUME)))
        return resolved->edible > 0 ? grams / resolved->edible : grams;
    return sold_with ? grams / (1 - food->refuse.best) : grams;
}

/* How the line counts its food, in the ware. */
static void add_measure(struct shopping *shopping, const struct page *page, struct ware *ware, const struct line_amount *amount, double factor, double grams)
{
    const struct line *line = amount->line;
    const struct unit *unit = cook_unit(page, amount);
    double written = (line->low + line->high) / 2 * factor;
    const struct tail *tail = &page->sums->at.gathering->tails[line->tail];
    bool counted = amount->resolved->flags & RESOLVED_BY_COUNT, volume = unit && unit->dimension == DIMENSION_VOLUME;
    bool packed = unit && unit->dimension == DIMENSION_PACKAGE && written > 0 && grams > 0;
    if (!(packed && add_package(ware, unit, written, grams / written)))
        ware->loose += grams;
    ware->by_volume = ware->by_volume && volume;
    ware->by_count = counted && add_pieces(ware, piece_words(shopping, page, tail, ware->food), written) && ware->by_count;
    if (volume)
        ware->ml += written * unit->factor.best;
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
    add_measure(shopping, page, ware, amount, factor, grams.best);
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

/* Notes that batches of the recipe are wanted, by whoever is asked for or by a line. */
static void want(struct shopping *shopping, struct recipe_at at, double batches)
{
    bool first;
    uint32_t number = visited_number(&shopping->visited, at.recipe, &first);
    if (number == NONE_INDEX || (first && !array_grow(&shopping->allocator, &shopping->wanted, number, &shopping->wanted_capacity, sizeof *shopping->wanted))) {
        shopping->failed = true;
        return;
    }
    if (first)
        shopping->wanted[number] = (struct wanted){ .at = at };
    shopping->wanted[number].batches += batches;
}

static void add_line(struct shopping *shopping, const struct page *page, const struct line_amount *amount, double factor)
{
    enum subject subject = amount->unknown ? SUBJECT_NONE : amount->resolved->subject;
    if (subject == SUBJECT_FOOD && amount->resolved->food.food) {
        add_food(shopping, page, amount, factor);
    } else if (subject == SUBJECT_RECIPE) {
        double batches = amount->as_written.best * factor;
        add_made(shopping, &shopping->made, &shopping->made_count, &shopping->made_capacity, amount->resolved->recipe.recipe, batches);
        want(shopping, amount->resolved->recipe, batches);
    } else if (subject != SUBJECT_BATH) {
        add_unsummed(shopping, page, amount, factor);
    }
}

static enum status open_up(struct shopping *shopping, struct recipe_at at, double factor)
{
    struct sums sums;
    sums_open(&sums, shopping->allocator);
    enum status status = sums_compute(&sums, at);
    struct report report = { .sums = &sums };
    struct page page = page_of(shopping->showing, shopping->sheet, &report);
    for (uint32_t i = 0; i < sums.line_count && status == STATUS_OK; i++)
        add_line(shopping, &page, &sums.lines[i], factor);
    sums_close(&sums);
    return shopping->failed ? STATUS_NO_MEMORY : status;
}

/* Opens up what is wanted, each recipe once: those that are made of others before these, when all that is wanted of them is known.
 * What runs in a circle is unknown and is not opened up again. */
static enum status open_all(struct shopping *shopping)
{
    enum status status = STATUS_OK;
    for (uint32_t depth = LIMIT_RECIPE_DEPTH + 1; depth-- > 0 && status == STATUS_OK;) {
        for (uint32_t i = 0; i < shopping->visited.count && status == STATUS_OK; i++) {
            struct wanted *one = &shopping->wanted[i];
            if (one->opened || one->at.recipe->depth < depth)
                continue;
            one->opened = true;
            status = open_up(shopping, one->at, one->batches);
        }
    }
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
    want(shopping, at, factor);
    return shopping->failed ? STATUS_NO_MEMORY : STATUS_OK;
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

double ware_whole(double number)
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
        *count = ware_whole(ware->servings / food->servings.best);
        return BUY_PACKAGES;
    }
    if (ware->package_count)
        return BUY_PACKAGES;
    const struct portion *portion = food->basis == FOOD_PER_100_G && ware->weight_known ? ware_package_portion(ware->food.library, ware->food) : NULL;
    if (portion && !ware->by_count) {
        *count = ware_whole(ware->grams.best / portion->grams.best);
        return BUY_PACKAGES;
    }
    if (ware->by_count) {
        for (uint32_t i = 0; i < ware->piece_count; i++)
            *count += ware_whole(ware->pieces[i].number);
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
    visited_open(&shopping->visited, telling->allocator);
    for (size_t i = 0; i < shopping->name_count && status == STATUS_OK; i++)
        status = cook_named(shopping, telling, kitchen, shopping->names[i]);
    if (shopping->name_count == 0)
        status = cook_all(shopping, telling, kitchen);
    if (status == STATUS_OK)
        status = open_all(shopping);
    if (shopping->ware_count)
        qsort(shopping->wares, shopping->ware_count, sizeof *shopping->wares, compare_wares);
    if (status == STATUS_OK && telling->form == QUERN_AS_JSON)
        shopping_tell_json(shopping);
    else if (status == STATUS_OK)
        shopping_tell(shopping);
    visited_close(&shopping->visited);
    sheet_close(&sheet);
    sources_close(&showing.sources);
    void *const lists[] = { shopping->wares, shopping->made, shopping->cooked, shopping->unsummed, shopping->wanted };
    for (size_t i = 0; i < COUNT_OF(lists); i++)
        telling->allocator.resize(telling->allocator.context, lists[i], 0);
    return status == STATUS_NO_MEMORY ? telling_fail(telling, status, "out of memory", NULL) : status;
}
