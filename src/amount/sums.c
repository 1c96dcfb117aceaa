/* A recipe added up: its tails are resolved on the way, its lines computed and summed. */
#include <assert.h>

#include "amount/amount.h"

#ifdef __GNUC__
#define PREFETCH(address) __builtin_prefetch(address)
#else
#define PREFETCH(address) ((void)(address))
#endif

void sums_open(struct sums *sums, struct allocator allocator)
{
    *sums = (struct sums){ .allocator = allocator };
}

void sums_close(struct sums *sums)
{
    struct allocator *allocator = &sums->allocator;
    if (sums->lines)
        allocator->resize(allocator->context, sums->lines, 0);
    if (sums->written)
        allocator->resize(allocator->context, sums->written, 0);
    if (sums->own)
        allocator->resize(allocator->context, sums->own, 0);
    if (sums->baths)
        allocator->resize(allocator->context, sums->baths, 0);
    sums->lines = NULL;
    sums->written = NULL;
    sums->own = NULL;
    sums->baths = NULL;
}

/* Room for all lines of a recipe, since lines are pointed to. */
static bool make_room(struct sums *sums, uint32_t count)
{
    struct allocator *allocator = &sums->allocator;
    if (count <= sums->capacity)
        return true;
    struct line_amount *lines = allocator->resize(allocator->context, sums->lines, 2 * count * sizeof *lines);
    if (lines)
        sums->lines = lines;
    struct line *written = lines ? allocator->resize(allocator->context, sums->written, 2 * count * sizeof *written) : NULL;
    if (!written)
        return false;
    sums->written = written;
    sums->capacity = 2 * count;
    return true;
}

void sums_ask(struct sums *sums, uint64_t columns)
{
    sums->asked = true;
    sums->columns_count = 0;
    for (uint32_t i = 0; i < LIMIT_COLUMNS; i++) {
        if (columns >> i & 1)
            sums->columns[sums->columns_count++] = (uint8_t)i;
    }
}

static bool resolve_parts(struct sums *sums, const struct recipe *recipe)
{
    struct gathering *gathering = sums->at.gathering;
    for (uint32_t i = recipe->first_part; i < recipe->first_part + recipe->part_count; i++) {
        const struct part *part = &gathering->parts[i];
        const struct resolved *resolved = part->tail == NONE_INDEX ? NULL : tail_resolve(gathering, part->tail);
        if (part->tail != NONE_INDEX && !resolved)
            return false;
        sums->moves = sums->moves || part->is_bath || (resolved && resolved->flags & RESOLVED_MOVES);
    }
    return true;
}

/* Whether a part around the line has figures for the foods in it. */
static bool is_treated_within(const struct gathering *gathering, uint32_t part)
{
    bool treated = false;
    for (; part != NONE_INDEX; part = gathering->parts[part].parent) {
        uint32_t tail = gathering->parts[part].tail;
        treated = treated || (tail != NONE_INDEX && !gathering->parts[part].is_bath
                              && gathering->tails[tail].resolved->flags & RESOLVED_TREATS);
    }
    return treated;
}

/* Looks up what the lines say. Apart from the sums, so that the processor waits for several of them at once. */
static bool gather_lines(struct sums *sums, const struct recipe *recipe)
{
    struct gathering *gathering = sums->at.gathering;
    if (!resolve_parts(sums, recipe))
        return false;
    for (uint32_t i = 0; i < recipe->line_count; i++)
        sums->written[i] = gathering_line(gathering, recipe->first_line + i);
    for (uint32_t i = 0; i < recipe->line_count; i++) {
        const struct line *line = &sums->written[i];
        const struct resolved *resolved = NULL;
        if (line->tail != NONE_INDEX)
            resolved = line->part != NONE_INDEX && is_treated_within(gathering, line->part)
                           ? tail_resolve_within(gathering, line->tail, line->part) : tail_resolve(gathering, line->tail);
        if (line->tail != NONE_INDEX && !resolved)
            return false;
        sums->lines[i].resolved = resolved;
        if (resolved) {
            PREFETCH(resolved);
            PREFETCH(&resolved->expected);
        }
    }
    return true;
}

bool line_stands_in_bath(const struct sums *sums, const struct line *line)
{
    const struct part *parts = sums->at.gathering->parts;
    uint32_t part = line->part;
    while (part != NONE_INDEX && !parts[part].is_bath)
        part = parts[part].parent;
    return part != NONE_INDEX;
}

void sums_cap(const struct sums *sums, const struct library *library, struct range *columns)
{
    uint32_t end = library->traced == NONE_INDEX ? library->nutrient_total : library->mass_column;
    bool origins = library->traced != NONE_INDEX && columns[library->traced].high > sums->ceiling[library->traced];
    for (uint32_t i = 0; i < end; i++) {
        bool caps = i < library->nutrient_total ? columns[i].high > sums->ceiling[i] : origins;
        if (caps)
            columns[i].high = amount_larger(sums->ceiling[i], columns[i].best);
    }
}

/* What a food took is not in the bath, and the bath is eaten, too: low ends of both together are less than what there
 * surely is, and high ends more. */
static void take_up_slack(struct sums *sums, const struct library *library)
{
    for (uint32_t i = 0; i < library->column_count && sums->moves; i++) {
        struct range *sum = &sums->total.column[i];
        sum->low = amount_smaller(sum->low + sums->slack[i].low, sum->best);
        sum->high = amount_larger(sum->high + sums->slack[i].high, sum->best);
    }
    if (sums->bath_count)
        sums_cap(sums, library, sums->total.column);
}

static void add_up(struct sums *sums, const struct library *library)
{
    for (uint32_t i = 0; i < sums->line_count; i++) {
        const struct line_amount *amount = &sums->lines[i];
        if (sums->asked)
            amounts_add_some(&sums->total, amount, library, sums->columns, sums->columns_count);
        else
            amounts_add(&sums->total, amount, library);
        sums->estimated = sums->estimated || amount->estimated;
    }
}

static void begin(struct sums *sums, struct recipe_at at)
{
    sums->at = at;
    sums->line_count = sums->bath_count = sums->told_count = 0;
    sums->estimated = sums->moves = false;
    amounts_clear(&sums->total, at.gathering->kitchen->library->column_count);
}

enum status sums_set_food(struct sums *sums, struct recipe_at at, struct food_at food)
{
    const struct kitchen *kitchen = at.gathering->kitchen;
    static const struct line unwritten = { .tail = NONE_INDEX, .part = NONE_INDEX };
    static const struct resolved untreated = { .subject = SUBJECT_FOOD, .done = { .mass = { 1, 1, 1 } } };
    uint64_t columns = kitchen->library->column_count == 64 ? UINT64_MAX : ((uint64_t)1 << kitchen->library->column_count) - 1;
    begin(sums, at);
    if (!make_room(sums, 1))
        return STATUS_NO_MEMORY;
    sums->lines[sums->line_count++] = (struct line_amount){
        .line = &unwritten, .resolved = &untreated, .driver = range_exact(1), .as_written = range_exact(1),
        .values = food.library->values + kitchen_food_row(kitchen, food.food),
        .incomplete = (~food.food->known | (kitchen->tolerance ? food.food->open : 0)) & columns };
    add_up(sums, kitchen->library);
    return STATUS_OK;
}

enum status sums_compute(struct sums *sums, struct recipe_at at)
{
    struct gathering *gathering = at.gathering;
    const struct library *library = gathering->kitchen->library;
    begin(sums, at);
    if (!make_room(sums, at.recipe->line_count) || !gather_lines(sums, at.recipe))
        return STATUS_NO_MEMORY;
    for (uint32_t i = 0; i < at.recipe->line_count; i++) {
        struct line_amount *amount = &sums->lines[sums->line_count++];
        line_compute(gathering, &sums->written[i], amount->resolved, amount);
        sums->moves = sums->moves || (amount->resolved && amount->resolved->flags & RESOLVED_MOVES);
    }
    enum status status = sums->moves ? dish_settle(sums) : STATUS_OK;
    add_up(sums, library);
    take_up_slack(sums, library);
    for (uint32_t i = 0; i < library->column_count; i++)
        assert(range_in_order(sums->total.column[i]));
    return status;
}
