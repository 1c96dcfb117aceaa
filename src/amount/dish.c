/* A recipe's lines as one dish: baths that foods share, and what becomes of parts as wholes. Lines that have been
 * computed each by itself get columns of their own here. Order: foods go into baths, lines take liquid out of them, what
 * is left is kept or thrown away; then lines and parts are reduced or partly thrown away, the innermost part first. */
#include <string.h>

#include "amount/dish.h"

struct part *dish_part(const struct dish *dish, uint32_t part)
{
    return &dish->gathering->parts[part];
}

const struct resolved *dish_part_resolved(const struct dish *dish, uint32_t part)
{
    uint32_t tail = dish_part(dish, part)->tail;
    return tail == NONE_INDEX ? NULL : dish->gathering->tails[tail].resolved;
}

uint32_t dish_bath_around(const struct dish *dish, const struct line *line)
{
    uint32_t part = line->part;
    while (part != NONE_INDEX && !dish_part(dish, part)->is_bath)
        part = dish_part(dish, part)->parent;
    return part;
}

void dish_tell(const struct dish *dish, enum dish_trouble trouble, uint32_t line, uint32_t part, const struct visit *visit)
{
    struct sums *sums = dish->sums;
    if (sums->told_count < LIMIT_DISH_TOLD)
        sums->told[sums->told_count++] = (struct dish_told){ trouble, line, part, visit };
}

void dish_show(const struct dish *dish, struct dish_event event)
{
    if (dish->sums->witness)
        dish->sums->witness(dish->sums->witness_context, &event);
}

static void show_line(const struct dish *dish, enum dish_event_kind kind, uint32_t number, uint32_t part, struct range share)
{
    dish_show(dish, (struct dish_event){ .kind = kind, .line = number, .part = part, .share = share, .columns = dish->sums->lines[number].own });
}

void dish_lose_line(const struct dish *dish, uint32_t number)
{
    struct line_amount *line = &dish->sums->lines[number];
    line->unknown = true;
    line->mass_known = false;
    line->incomplete = dish->library->column_count == 64 ? UINT64_MAX : ((uint64_t)1 << dish->library->column_count) - 1;
    for (uint32_t i = 0; line->own && i < dish->library->column_count; i++)
        line->own[i] = range_exact(0);
    if (line->own)
        show_line(dish, DISH_LOST, number, NONE_INDEX, range_exact(0));
}

/* ---- columns of their own ------------------------------------------------------------------------------------------ */

static bool make_own_room(struct sums *sums, uint32_t ranges)
{
    struct allocator *allocator = &sums->allocator;
    if (ranges <= sums->own_capacity)
        return true;
    struct range *own = allocator->resize(allocator->context, sums->own, ranges * sizeof *own);
    if (!own)
        return false;
    sums->own = own;
    sums->own_capacity = ranges;
    return true;
}

/* What of the line is eaten, `kept` and what is thrown away together. */
static struct range eaten_share(const struct line_amount *line)
{
    struct range whole = line->as_written, eaten = line->driver;
    return range_of(whole.low > 0 ? eaten.low / whole.low : 0, whole.best > 0 ? eaten.best / whole.best : 0,
                    whole.high > 0 ? eaten.high / whole.high : 0);
}

/* A food goes whole into its bath; what is eaten of it comes off afterwards. */
static void give_own(const struct dish *dish, uint32_t number)
{
    struct line_amount *line = &dish->sums->lines[number];
    struct range *own = dish->sums->own + (size_t)number * dish->library->column_count;
    if (line->resolved && line->resolved->rare->visit_count)
        line->driver = line->as_written;
    for (uint32_t i = 0; i < dish->library->column_count; i++)
        own[i] = line_column(line, dish->library, i);
    line->own = own;
    show_line(dish, DISH_GIVEN, number, NONE_INDEX, line->driver);
    line->driver = range_exact(1);
}

void dish_scale(const struct dish *dish, struct range *own, struct range share)
{
    for (uint32_t i = 0; i < dish->library->column_count; i++)
        own[i] = range_multiply(own[i], share);
}

/* ---- lines and parts as wholes --------------------------------------------------------------------------------------- */

/* Reduces, leaves over and keeps; the lines' columns are in the whole. */
static void meet_fate(const struct dish *dish, struct whole *whole, const struct fate *fate, struct range kept, uint32_t line,
                      uint32_t part)
{
    enum dish_trouble trouble = DISH_THROWN_TOO_MUCH;
    struct range share = range_exact(1);
    bool good = whole->count == 0 || !fate || !fate->reduced || fate_reduce(dish->library, whole, fate, &trouble);
    if (good && fate && fate->thrown && whole->count) {
        trouble = whole->mass_known ? DISH_THROWN_TOO_MUCH : DISH_WEIGHT_UNKNOWN;
        good = whole->mass_known && fate_thrown(dish->library, whole, fate, &share);
    }
    if (!good)
        dish_tell(dish, trouble, line, part, NULL);
    for (uint32_t i = 0; i < whole->count; i++)
        dish_scale(dish, whole->columns[i], range_multiply(share, kept));
    for (uint32_t i = 0; i < whole->count; i++)
        show_line(dish, DISH_FATE, whole->first_line + i, part, range_multiply(share, kept));
    for (uint32_t i = 0; i < whole->count && !good; i++)
        dish_lose_line(dish, whole->first_line + i);
}

static void add_to_whole(const struct dish *dish, struct whole *whole, uint32_t number)
{
    const struct line_amount *line = &dish->sums->lines[number];
    whole->columns[whole->count++] = line->own;
    whole->mass_known = whole->mass_known && dish_knows(line->incomplete, dish->library->mass_column);
    whole->water_known = whole->water_known && dish_knows(line->incomplete, dish->library->solvent);
}

static void end_line(const struct dish *dish, uint32_t number)
{
    struct line_amount *line = &dish->sums->lines[number];
    struct whole whole = { dish->columns, 0, number, true, true };
    if (line->unknown || !line->resolved || line->resolved->subject == SUBJECT_BATH)
        return;
    add_to_whole(dish, &whole, number);
    meet_fate(dish, &whole, line->resolved->rare->fate, dish->eaten[number], number, NONE_INDEX);
}

static void end_part(const struct dish *dish, uint32_t number)
{
    const struct part *part = dish_part(dish, number);
    const struct resolved *resolved = dish_part_resolved(dish, number);
    struct whole whole = { dish->columns, 0, part->first_line - dish->recipe->first_line, true, true };
    if (part->is_bath || !resolved || !(resolved->flags & RESOLVED_MOVES))
        return;
    for (uint32_t i = part->first_line; i < part->line_end; i++)
        add_to_whole(dish, &whole, i - dish->recipe->first_line);
    meet_fate(dish, &whole, resolved->rare->fate, resolved->kept, NONE_INDEX, number);
}

static void end_wholes(const struct dish *dish)
{
    for (uint32_t i = 0; i < dish->sums->line_count; i++)
        end_line(dish, i);
    for (uint32_t i = dish->recipe->part_count; i > 0; i--)     /* parts inside parts have the higher numbers */
        end_part(dish, dish->recipe->first_part + i - 1);
}

static bool is_lost(const struct dish *dish, uint32_t number)
{
    const struct resolved *resolved = dish->sums->lines[number].resolved;
    return dish->library->solvent == NONE_INDEX && resolved && resolved->rare->visit_count;
}

/* Where a bath is used again, highs of food and bath hold the same twice. Nothing holds more than there is in all. */
static void keep_below_ceiling(const struct dish *dish)
{
    for (uint32_t i = 0; i < dish->sums->line_count && dish->sums->bath_count; i++) {
        sums_cap(dish->sums, dish->library, dish->sums->lines[i].own);
        show_line(dish, DISH_CAPPED, i, NONE_INDEX, range_exact(1));
    }
    for (uint32_t i = 0; i < dish->sums->bath_count; i++)
        sums_cap(dish->sums, dish->library, dish->sums->baths[i].kept.column);
}

/* Room for all lines, in one piece. */
static bool make_dish_room(struct dish *dish)
{
    struct allocator *allocator = &dish->sums->allocator;
    size_t count = dish->sums->line_count + 1, guests = 2 * count * sizeof *dish->guests;
    size_t columns = count * sizeof *dish->columns;
    unsigned char *room = allocator->resize(allocator->context, NULL, guests + columns + count * sizeof *dish->eaten);
    if (!room || !make_own_room(dish->sums, dish->sums->line_count * dish->library->column_count)) {
        if (room)
            allocator->resize(allocator->context, room, 0);
        return false;
    }
    dish->guests = (void *)room;
    dish->eaten = (void *)(room + guests);
    dish->columns = (void *)(room + guests + count * sizeof *dish->eaten);
    return true;
}

static void open_lines(struct dish *dish)
{
    for (uint32_t i = 0; i < dish->sums->line_count; i++) {
        const struct line_amount *line = &dish->sums->lines[i];
        dish->has_errors = dish->has_errors || line->unknown;
        bool goes = line->resolved && line->resolved->rare->visit_count && !line->unknown;
        dish->eaten[i] = goes ? eaten_share(line) : range_exact(1);
        give_own(dish, i);
        for (uint32_t c = 0; c < dish->library->column_count; c++)
            dish->sums->ceiling[c] += line->own[c].high;
        if (is_lost(dish, i))           /* no library of ours: none that knows water can be without it */
            dish_lose_line(dish, i);
    }
}

/* Such a recipe is a slip or an attack; what it holds is not known then. */
static bool is_too_long(const struct dish *dish)
{
    uint32_t baths = 0;
    for (uint32_t i = 0; i < dish->recipe->part_count; i++)
        baths += dish_part(dish, dish->recipe->first_part + i)->is_bath;
    return dish->sums->line_count > LIMIT_DISH_LINES || baths > LIMIT_BATHS;
}

static void lose_all(const struct dish *dish)
{
    dish_tell(dish, DISH_TOO_LONG, NONE_INDEX, NONE_INDEX, NULL);
    for (uint32_t i = 0; i < dish->sums->line_count; i++)
        dish_lose_line(dish, i);
}

enum status dish_settle(struct sums *sums)
{
    struct gathering *gathering = sums->at.gathering;
    struct dish dish = { .sums = sums, .gathering = gathering, .library = gathering->kitchen->library, .recipe = sums->at.recipe };
    struct allocator *allocator = &sums->allocator;
    memset(sums->slack, 0, dish.library->column_count * sizeof *sums->slack);
    memset(sums->ceiling, 0, dish.library->column_count * sizeof *sums->ceiling);
    if (is_too_long(&dish)) {
        lose_all(&dish);
        return STATUS_OK;
    }
    if (!make_dish_room(&dish))
        return STATUS_NO_MEMORY;
    table_open(&dish.baths, *allocator);
    open_lines(&dish);
    enum status status = dish_settle_baths(&dish);
    if (status == STATUS_OK)
        end_wholes(&dish);
    keep_below_ceiling(&dish);
    table_close(&dish.baths);
    allocator->resize(allocator->context, dish.guests, 0);
    return status;
}
