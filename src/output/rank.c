/* Gathers which foods and lines bring most. Each recipe has a weight: how often it is cooked when all dishes are cooked once,
 * and when a serving of each is eaten. A dish has the weight 1, or that of its serving; what stands in it gets its
 * weight from the line that names it. So each recipe is looked at once, however many it stands in. */
#include <stdlib.h>
#include <string.h>

#include "output/rank.h"

#define USUAL_LIMIT 20

void ranking_open(struct ranking *ranking, const struct quern_rank *wanted, struct allocator allocator)
{
    *ranking = (struct ranking){ .wanted = wanted, .limit = wanted->limit ? (uint32_t)wanted->limit : USUAL_LIMIT, .least = -1 };
    arena_open(&ranking->arena, allocator);
    table_open(&ranking->food_table, allocator);
    ranking->cautions.arena = &ranking->arena;
}

void ranking_close(struct ranking *ranking)
{
    struct allocator allocator = ranking->arena.allocator;
    void *const blocks[] = { ranking->foods, ranking->lines, ranking->unknown, ranking->limits };
    for (uint32_t i = 0; i < COUNT_OF(blocks); i++) {
        if (blocks[i])
            allocator.resize(allocator.context, blocks[i], 0);
    }
    table_close(&ranking->food_table);
    arena_close(&ranking->arena);
}

struct text ranking_keep(struct ranking *ranking, struct text text)
{
    char *copy = arena_copy(&ranking->arena, text.length ? text.bytes : "", text.length);
    return copy ? (struct text){ copy, text.length } : text_of("");
}

static void add_amount(struct rank_amount *sum, const struct rank_amount *amount)
{
    sum->total = range_add(sum->total, amount->total);
    sum->serving = range_add(sum->serving, amount->serving);
}

static struct rank_amount weighted(struct range amount, const struct rank_amount *weight)
{
    return (struct rank_amount){ range_multiply(amount, weight->total), range_multiply(amount, weight->serving) };
}

/* ---- foods ---------------------------------------------------------------------------------------------------------- */

static struct rank_food *food_called(struct ranking *ranking, struct text name, struct text source)
{
    uint32_t position;
    uint64_t hash = hash_bytes(name.bytes, name.length);
    for (uint32_t at = table_find(&ranking->food_table, hash, &position); at != TABLE_NONE; at = table_next(&ranking->food_table, hash, &position)) {
        if (text_equal(ranking->foods[at].name, name) && text_equal(ranking->foods[at].source, source))
            return &ranking->foods[at];
    }
    if (!array_grow(&ranking->arena.allocator, &ranking->foods, ranking->food_count, &ranking->food_capacity, sizeof *ranking->foods)
        || !table_add(&ranking->food_table, hash, ranking->food_count))
        return NULL;
    struct rank_food *food = &ranking->foods[ranking->food_count++];
    *food = (struct rank_food){ .name = ranking_keep(ranking, name), .source = ranking_keep(ranking, source) };
    return food;
}

/* What a line is of, when it is no recipe: a food, or the liquid of a bath. */
static struct rank_food *food_of(struct ranking *ranking, const struct resolved *resolved)
{
    struct food_at food = resolved->food;
    if (food.food)
        return food_called(ranking, library_text(food.library, food.food->name), library_text(food.library, food.food->source));
    return food_called(ranking, resolved->rare->bath, text_of("bath"));
}

/* ---- lines ------------------------------------------------------------------------------------------------------------ */

/* The most per serving first, then in the order in which they came. */
static int compare_lines(const void *left, const void *right)
{
    const struct rank_line *a = left, *b = right;
    if (a->amount.serving.best != b->amount.serving.best)
        return a->amount.serving.best > b->amount.serving.best ? -1 : 1;
    return a->number < b->number ? -1 : 1;
}

/* A large kitchen has a million lines, of which few are told. */
static void drop_small_lines(struct ranking *ranking)
{
    qsort(ranking->lines, ranking->line_count, sizeof *ranking->lines, compare_lines);
    ranking->line_count = rank_shown(ranking->line_count, ranking->limit);
    ranking->least = ranking->lines[ranking->line_count - 1].amount.serving.best;
}

static struct text part_name(const struct sums *sums, const struct line *line)
{
    return line->part == NONE_INDEX ? text_of("") : sums->at.gathering->parts[line->part].name;
}

static struct rank_line written_line(struct ranking *ranking, struct sources *sources, const struct sums *sums, const struct line *line)
{
    struct place place = recipe_line_place(sums, line);
    bool whole = sources_load(sources, place.file) && line->tail != NONE_INDEX;
    return (struct rank_line){
        .text = ranking_keep(ranking, whole ? span_text(sources->text, place.span) : text_of("a line that a finding speaks of")),
        .recipe = ranking_keep(ranking, sums->at.recipe->name), .part = ranking_keep(ranking, part_name(sums, line)),
        .file = ranking_keep(ranking, text_of(sources_path(sources, place.file))), .line = sources_position(sources, place).line,
    };
}

static bool add_line(struct ranking *ranking, struct sources *sources, const struct sums *sums, const struct line_amount *line,
                     const struct rank_amount *amount)
{
    ranking->lines_seen++;
    if (amount->serving.best <= ranking->least)
        return true;
    if (ranking->line_count / 2 >= ranking->limit)
        drop_small_lines(ranking);
    if (!array_grow(&ranking->arena.allocator, &ranking->lines, ranking->line_count, &ranking->line_capacity, sizeof *ranking->lines))
        return false;
    struct rank_line *one = &ranking->lines[ranking->line_count++];
    *one = written_line(ranking, sources, sums, line->line);
    one->amount = *amount;
    one->unknown = line->incomplete >> ranking->nutrient & 1;
    one->number = ranking->lines_seen;
    return true;
}

static bool add_unknown(struct ranking *ranking, struct sources *sources, const struct sums *sums, const struct line *line)
{
    uint32_t capacity = ranking->unknown_kept ? RANK_UNKNOWN_SHOWN : 0;
    if (ranking->unknown_count++ >= RANK_UNKNOWN_SHOWN)
        return true;
    if (ranking->unknown_kept == 0) {
        struct allocator allocator = ranking->arena.allocator;
        ranking->unknown = allocator.resize(allocator.context, NULL, RANK_UNKNOWN_SHOWN * sizeof *ranking->unknown);
        capacity = ranking->unknown ? RANK_UNKNOWN_SHOWN : 0;
    }
    if (capacity)
        ranking->unknown[ranking->unknown_kept++] = written_line(ranking, sources, sums, line);
    return capacity > 0;
}

/* ---- weights ------------------------------------------------------------------------------------------------------------ */

struct weight {
    struct recipe_at at;
    struct rank_amount of;
    uint32_t number;                    /* in the kitchen: those of one depth keep their order */
    bool is_dish, is_inside, is_reached;    /* ranked by itself; another has it in it; what it holds was passed on to it */
    bool is_open;                       /* by a line of which nobody knows how much of it it brings: the weight is what is known */
};

struct weighing {
    struct ranking *ranking;
    struct kitchen *kitchen;
    struct sources sources;
    struct sums sums;
    struct weight *weights;             /* of all recipes, in the order of the gatherings */
    uint32_t *first;                    /* number of the first recipe of each gathering */
};

static struct weight *weight_of(struct weighing *weighing, struct recipe_at at)
{
    uint32_t gathering = (uint32_t)(at.gathering - weighing->kitchen->gatherings);
    return &weighing->weights[weighing->first[gathering] + (uint32_t)(at.recipe - at.gathering->recipes)];
}

/* What a recipe brings through a line, against all that it holds: end for end, so that its foods sum to the line. Where a
 * bath or a pan has turned the ends round, the share spans them. */
static struct range share_of(struct range line, struct range whole)
{
    double low = whole.low > 0 ? line.low / whole.low : 0, best = whole.best > 0 ? line.best / whole.best : 0;
    double high = whole.high > 0 ? line.high / whole.high : 0;
    return range_of(amount_smaller(best, amount_smaller(low, high)), best, amount_larger(best, amount_larger(low, high)));
}

/* A line that is unknown because of what a recipe in it holds is told there. */
static bool is_unknown(const struct line_amount *amount, uint32_t nutrient)
{
    const struct resolved *resolved = amount->resolved;
    bool is_told_there = resolved && resolved->subject == SUBJECT_RECIPE && !amount->unknown && !amount->unmeasured && resolved->recipe.recipe->total
                      && !amounts_complete(resolved->recipe.recipe->total, nutrient);
    return amount->incomplete >> nutrient & 1 && !is_told_there;
}

static void pass_on(struct weighing *weighing, const struct weight *weight, const struct line_amount *amount)
{
    struct recipe_at inner = amount->resolved->recipe;
    uint32_t nutrient = weighing->ranking->nutrient;
    if (!inner.recipe->total)
        return;
    struct weight *within = weight_of(weighing, inner);
    within->is_open = within->is_open || weight->is_open || is_unknown(amount, nutrient);
    struct range share = share_of(line_column(amount, weighing->kitchen->library, nutrient), inner.recipe->total->column[nutrient]);
    struct rank_amount more = weighted(share, &weight->of);
    add_amount(&within->of, &more);
    within->is_reached = true;
}

static bool add_recipe_line(struct weighing *weighing, const struct weight *weight, const struct line_amount *amount)
{
    struct ranking *ranking = weighing->ranking;
    struct rank_amount brings = weighted(line_column(amount, weighing->kitchen->library, ranking->nutrient), &weight->of);
    if (is_unknown(amount, ranking->nutrient) && !add_unknown(ranking, &weighing->sources, &weighing->sums, amount->line))
        return false;
    if (weight->is_dish && !add_line(ranking, &weighing->sources, &weighing->sums, amount, &brings))
        return false;
    if (amount->unknown || !amount->resolved)
        return true;
    if (amount->resolved->subject == SUBJECT_RECIPE) {
        pass_on(weighing, weight, amount);
        return true;
    }
    struct rank_food *food = food_of(ranking, amount->resolved);
    if (!food)
        return false;
    add_amount(&food->amount, &brings);
    food->lines++;
    food->unknown = food->unknown || is_unknown(amount, ranking->nutrient)
                 || (weight->is_open && line_column(amount, weighing->kitchen->library, ranking->nutrient).high > 0);
    return true;
}

static enum status add_recipe(struct weighing *weighing, const struct weight *weight)
{
    struct ranking *ranking = weighing->ranking;
    struct verdicts verdicts = { 0 };
    enum status status = sums_compute(&weighing->sums, weight->at);
    if (status == STATUS_OK && weight->is_dish)
        status = recipe_judge(&weighing->sums, &verdicts, NULL);
    if (status == STATUS_OK && weight->is_dish) {
        struct rank_amount whole = weighted(weighing->sums.total.column[ranking->nutrient], &weight->of);
        add_amount(&ranking->whole, &whole);
        told_cautions_of(&ranking->cautions, &weighing->sums, &verdicts);
        status = ranking_add_limits(ranking, &weighing->sums, &verdicts) ? STATUS_OK : STATUS_NO_MEMORY;
    }
    verdicts_close(&verdicts, ranking->arena.allocator);
    for (uint32_t i = 0; status == STATUS_OK && i < weighing->sums.line_count; i++) {
        if (!add_recipe_line(weighing, weight, &weighing->sums.lines[i]))
            status = STATUS_NO_MEMORY;
    }
    return status;
}

/* ---- which recipes are dishes --------------------------------------------------------------------------------------------- */

static bool is_asked_for(const struct weighing *weighing, const struct recipe *recipe)
{
    return weighing->kitchen->files[recipe->file].requested && !recipe->is_day;
}

/* Marks what stands in a recipe. */
static void mark_inside(struct weighing *weighing, struct recipe_at at)
{
    for (uint32_t i = 0; i < at.recipe->line_count; i++) {
        struct line line = gathering_line(at.gathering, at.recipe->first_line + i);
        const struct resolved *resolved = line.tail == NONE_INDEX ? NULL : at.gathering->tails[line.tail].resolved;
        if (resolved && resolved->subject == SUBJECT_RECIPE && resolved->recipe.recipe && resolved->recipe.recipe != at.recipe)
            weight_of(weighing, resolved->recipe)->is_inside = true;
    }
}

static void make_dish(struct weighing *weighing, struct recipe_at at)
{
    struct weight *weight = weight_of(weighing, at);
    bool serves = !at.recipe->is_day && at.recipe->serves.low > 0;
    weight->is_dish = true;
    weight->of = (struct rank_amount){ range_exact(1), serves ? range_divide(range_exact(1), at.recipe->serves) : range_exact(1) };
    weighing->ranking->recipes++;
    weighing->ranking->whole_pots += !serves && !at.recipe->is_day;
}

static void choose_dishes(struct weighing *weighing)
{
    const struct kitchen *kitchen = weighing->kitchen;
    for (uint32_t i = 0; i < kitchen->recipes_count; i++) {
        if (is_asked_for(weighing, kitchen->recipes[i].recipe))
            mark_inside(weighing, kitchen->recipes[i]);
    }
    for (uint32_t i = 0; i < kitchen->recipes_count; i++) {
        struct recipe_at at = kitchen->recipes[i];
        if (is_asked_for(weighing, at.recipe) && weight_of(weighing, at)->is_inside)
            weighing->ranking->inside++;
        else if (is_asked_for(weighing, at.recipe))
            make_dish(weighing, at);
    }
}

static bool is_called(struct text name, struct text key)
{
    char storage[KEY_BYTES];
    return key.length && text_equal((struct text){ storage, name_key_of(name, true, storage) }, key);
}

static void note_near_days(struct ranking *ranking, const struct kitchen *kitchen)
{
    for (uint32_t i = 0; i < kitchen->recipes_count && ranking->near.length < 120; i++) {
        struct text name = kitchen->recipes[i].recipe->name;
        if (!kitchen->recipes[i].recipe->is_day)
            continue;
        char *list = arena_print(&ranking->arena, "%.*s%s\"%.*s\"", (int)ranking->near.length, ranking->near.length ? ranking->near.bytes : "",
                                 ranking->near.length ? ", " : "", (int)name.length, name.bytes);
        ranking->near = text_of(list ? list : "");
    }
}

static void choose_day(struct weighing *weighing)
{
    char key[KEY_BYTES];
    struct ranking *ranking = weighing->ranking;
    const struct kitchen *kitchen = weighing->kitchen;
    struct text wanted = { key, name_key_of(text_of(ranking->wanted->day), true, key) };
    for (uint32_t i = 0; i < kitchen->recipes_count; i++) {
        struct recipe_at at = kitchen->recipes[i];
        if (!is_called(at.recipe->name, wanted))
            continue;
        ranking->is_recipe = ranking->is_recipe || !at.recipe->is_day;
        if (at.recipe->is_day && ranking->days++ == 0) {
            make_dish(weighing, at);
            ranking->name = ranking_keep(ranking, at.recipe->name);
        }
    }
    for (uint32_t i = 0; i < kitchen->weeks_count; i++)
        ranking->is_week = ranking->is_week || is_called(kitchen->weeks[i].week->name, wanted);
    if (ranking->days == 0)
        note_near_days(ranking, kitchen);
}

/* ---- one kitchen ------------------------------------------------------------------------------------------------------------- */

/* Dishes first, in the order of their files; then what stands in them, each behind all that it stands in. */
static int compare_weights(const void *left, const void *right)
{
    const struct weight *a = *(struct weight *const *)left, *b = *(struct weight *const *)right;
    if (a->is_dish != b->is_dish)
        return a->is_dish ? -1 : 1;
    if (!a->is_dish && a->at.recipe->depth != b->at.recipe->depth)
        return a->at.recipe->depth > b->at.recipe->depth ? -1 : 1;
    return a->number < b->number ? -1 : 1;
}

static bool open_weights(struct weighing *weighing, struct arena *arena, struct weight ***order)
{
    struct kitchen *kitchen = weighing->kitchen;
    uint32_t count = 0;
    weighing->first = arena_take(arena, (kitchen->gatherings_count + 1) * sizeof *weighing->first);
    weighing->weights = arena_take(arena, (kitchen->recipes_count + 1) * sizeof *weighing->weights);
    *order = arena_take(arena, (kitchen->recipes_count + 1) * sizeof **order);
    if (arena->failed)
        return false;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++) {
        weighing->first[i] = count;
        count += kitchen->gatherings[i].recipes_count;
    }
    for (uint32_t i = 0; i < kitchen->recipes_count; i++) {
        struct weight *weight = weight_of(weighing, kitchen->recipes[i]);
        *weight = (struct weight){ .at = kitchen->recipes[i], .number = i };
        (*order)[i] = weight;
    }
    return true;
}

static enum status add_kitchen(struct weighing *weighing, struct arena *arena)
{
    struct weight **order;
    enum status status = STATUS_OK;
    if (!open_weights(weighing, arena, &order))
        return STATUS_NO_MEMORY;
    if (weighing->ranking->wanted->day)
        choose_day(weighing);
    else
        choose_dishes(weighing);
    qsort(order, weighing->kitchen->recipes_count, sizeof *order, compare_weights);
    for (uint32_t i = 0; i < weighing->kitchen->recipes_count && status == STATUS_OK; i++) {
        if (order[i]->is_dish || order[i]->is_reached)
            status = add_recipe(weighing, order[i]);
        else
            weighing->ranking->left_out += order[i]->is_inside && is_asked_for(weighing, order[i]->at.recipe);
    }
    return status;
}

static enum status choose_nutrient(struct ranking *ranking, struct telling *telling, const struct kitchen *kitchen)
{
    char key[KEY_BYTES], words[200];
    const struct library *owner;
    const char *wanted = ranking->wanted->nutrient;
    uint32_t nutrient = kitchen->library->traced;
    bool found = !wanted || library_nutrient(kitchen->library, (struct text){ key, name_key_of(text_of(wanted), false, key) }, &nutrient);
    if (!found || nutrient == NONE_INDEX) {
        snprintf(words, sizeof words, "no nutrient is called \"%.100s\"; `quern report` lists their names, such as potassium", wanted ? wanted : "");
        return telling_fail(telling, STATUS_USAGE, words, NULL);
    }
    ranking->nutrient = nutrient;
    if (ranking->kitchens++ > 0)
        return STATUS_OK;
    const struct nutrient *one = library_nutrient_at(kitchen->library, nutrient, &owner);
    ranking->nutrient_name = ranking_keep(ranking, library_text(owner, one->name));
    ranking->nutrient_key = ranking_keep(ranking, library_text(owner, one->key));
    ranking->unit = ranking_keep(ranking, library_text(owner, one->unit));
    ranking->name = ranking_keep(ranking, kitchen->name);
    return STATUS_OK;
}

enum status ranking_kitchen(struct telling *telling, struct kitchen *kitchen)
{
    struct ranking *ranking = telling->task;
    struct weighing weighing = { .ranking = ranking, .kitchen = kitchen };
    struct arena arena;
    enum status status = choose_nutrient(ranking, telling, kitchen);
    if (status != STATUS_OK)
        return status;
    arena_open(&arena, ranking->arena.allocator);
    sums_open(&weighing.sums, ranking->arena.allocator);
    sums_ask(&weighing.sums, (uint64_t)1 << ranking->nutrient);
    sources_open(&weighing.sources, kitchen, kitchen->input);
    status = add_kitchen(&weighing, &arena);
    if (weighing.sources.failed || ranking->arena.failed)
        status = STATUS_NO_MEMORY;
    sources_close(&weighing.sources);
    sums_close(&weighing.sums);
    arena_close(&arena);
    return status;
}

bool ranking_is_complete(const struct ranking *ranking)
{
    return ranking->unknown_count == 0 && ranking->left_out == 0;
}

/* ---- the end ------------------------------------------------------------------------------------------------------------------- */

static int compare_foods(const void *left, const void *right)
{
    const struct rank_food *a = left, *b = right;
    if (a->amount.total.best != b->amount.total.best)
        return a->amount.total.best > b->amount.total.best ? -1 : 1;
    uint32_t shorter = a->name.length < b->name.length ? a->name.length : b->name.length;
    int order = memcmp(a->name.bytes, b->name.bytes, shorter);
    return order ? order : a->name.length < b->name.length ? -1 : a->name.length > b->name.length;
}

static enum status fail_day(const struct ranking *ranking, struct telling *telling)
{
    char words[400];
    const char *day = ranking->wanted->day;
    if (ranking->days > 1)
        snprintf(words, sizeof words, "two days are called \"%.100s\"; rename one, or name the file of the one you mean", day);
    else if (ranking->is_recipe)
        snprintf(words, sizeof words, "\"%.100s\" is a recipe; --day takes a day, and `quern rank FILE` ranks the recipes of a file", day);
    else if (ranking->is_week)
        snprintf(words, sizeof words, "\"%.100s\" is a week; name one of its days", day);
    else
        snprintf(words, sizeof words, "no day is called \"%.100s\"%s%.*s", day, ranking->near.length ? "; these are: " : "",
                 (int)ranking->near.length, ranking->near.length ? ranking->near.bytes : "");
    return telling_fail(telling, STATUS_USAGE, words, NULL);
}

enum status ranking_tell(struct ranking *ranking, struct telling *telling)
{
    if (ranking->wanted->day && ranking->days != 1)
        return fail_day(ranking, telling);
    if (ranking->recipes == 0)
        return telling_fail(telling, STATUS_USAGE, "there is no recipe to rank; `quern check` says what is wrong with files that should hold some", NULL);
    if (ranking->food_count)
        qsort(ranking->foods, ranking->food_count, sizeof *ranking->foods, compare_foods);
    if (ranking->line_count)
        qsort(ranking->lines, ranking->line_count, sizeof *ranking->lines, compare_lines);
    ranking_sort_limits(ranking);
    ranking->inside -= ranking->left_out;
    if (ranking->kitchens > 1 && !ranking->wanted->day)
        ranking->name = text_of("");
    telling->errors = ranking_is_complete(ranking) ? 0 : 1;
    if (telling->form != QUERN_AS_JSON)
        return rank_people(ranking, telling);
    rank_json(ranking, telling);
    return STATUS_OK;
}
