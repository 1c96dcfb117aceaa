/* The baths of a recipe. Foods go in by rounds: each line's first bath, then each line's second, and so on; in a round
 * the baths follow one another as they are declared. Foods share a bath at once, or take turns. */
#include <string.h>

#include "amount/dish.h"

static struct bath_sum *find_bath(const struct dish *dish, struct text name)
{
    char key[KEY_BYTES];
    struct text wanted = { key, name_key_of(name, true, key) };
    uint64_t hash = hash_bytes(key, wanted.length);
    uint32_t position;
    for (uint32_t at = table_find(&dish->baths, hash, &position); at != TABLE_NONE; at = table_next(&dish->baths, hash, &position)) {
        char other[KEY_BYTES];
        struct bath_sum *bath = &dish->sums->baths[at];
        if (text_equal(wanted, (struct text){ other, name_key_of(dish_part(dish, bath->part)->name, true, other) }))
            return bath;
    }
    return NULL;
}

static const struct fate *bath_fate(const struct dish *dish, const struct bath_sum *bath)
{
    const struct resolved *resolved = dish_part_resolved(dish, bath->part);
    return resolved ? resolved->rare->fate : NULL;
}

/* Its own lines stand one behind the other. */
static uint32_t first_line(const struct dish *dish, const struct bath_sum *bath)
{
    return dish_part(dish, bath->part)->first_line - dish->recipe->first_line;
}

static uint32_t line_end(const struct dish *dish, const struct bath_sum *bath)
{
    return dish_part(dish, bath->part)->line_end - dish->recipe->first_line;
}

/* A bath inside a bath keeps its lines to itself. */
static bool is_of_bath(const struct dish *dish, const struct bath_sum *bath, uint32_t line)
{
    return dish_bath_around(dish, dish->sums->lines[line].line) == bath->part;
}

static bool add_bath(struct dish *dish, uint32_t part)
{
    struct sums *sums = dish->sums;
    struct text name = dish_part(dish, part)->name;
    const struct resolved *resolved = dish_part_resolved(dish, part);
    char key[KEY_BYTES];
    bool again = find_bath(dish, name) != NULL;
    if (again || kitchen_recipe(dish->gathering->kitchen, name).recipe
        || library_label(dish->library, (struct text){ key, name_key_of(name, true, key) }).food)
        dish_tell(dish, DISH_BATH_NAME_TAKEN, NONE_INDEX, part, NULL);
    if (resolved && resolved->flags & RESOLVED_TREATS)
        dish_tell(dish, DISH_BATH_TREATMENT, NONE_INDEX, part, NULL);
    if (!array_grow(&sums->allocator, &sums->baths, sums->bath_count, &sums->bath_capacity, sizeof *sums->baths))
        return false;
    struct bath_sum *bath = &sums->baths[sums->bath_count++];
    memset(bath, 0, sizeof *bath);
    bath->part = part;
    bath->taken = range_exact(0);
    return again || table_add(&dish->baths, hash_bytes(key, name_key_of(name, true, key)), sums->bath_count - 1);
}

/* Where nobody says how much water it holds, it is taken as anything from none to all of its weight. */
static void guess_water(const struct dish *dish, uint32_t number)
{
    struct line_amount *line = &dish->sums->lines[number];
    uint64_t water = (uint64_t)1 << dish->library->solvent;
    struct range mass = line->own[dish->library->mass_column];
    if (line->unknown || !(line->incomplete & water) || !dish_knows(line->incomplete, dish->library->mass_column))
        return;
    line->own[dish->library->solvent] = range_of(0, mass.best / 2, mass.high);
    line->incomplete &= ~water;
    dish_tell(dish, DISH_WATER_NOT_KNOWN, number, NONE_INDEX, NULL);
}

/* Its own lines. They go into no other bath, and no bath's liquid goes into it. */
static void fill_bath(const struct dish *dish, struct bath_sum *bath)
{
    amounts_clear(&bath->went_in, dish->library->column_count);
    for (uint32_t i = first_line(dish, bath); i < line_end(dish, bath); i++) {
        struct line_amount *line = &dish->sums->lines[i];
        if (!is_of_bath(dish, bath, i))
            continue;
        if (line->resolved && (line->resolved->rare->visit_count || line->resolved->subject == SUBJECT_BATH)) {
            dish_tell(dish, DISH_BATH_IN_BATH, i, NONE_INDEX, NULL);
            dish_lose_line(dish, i);
        }
        guess_water(dish, i);
        amounts_add(&bath->went_in, line, dish->library);
    }
    bath->left = bath->went_in;
}

/* All of it stays in the dish, and nobody takes of it: nothing that is dissolved is lost, only moved. */
static void find_keepers(const struct dish *dish)
{
    struct sums *sums = dish->sums;
    for (uint32_t i = 0; i < sums->line_count; i++) {
        const struct resolved *resolved = sums->lines[i].resolved;
        struct bath_sum *bath = resolved && resolved->subject == SUBJECT_BATH ? find_bath(dish, resolved->rare->bath) : NULL;
        if (bath)
            bath->taken_from = true;
    }
    for (uint32_t i = 0; i < sums->bath_count; i++) {
        const struct resolved *resolved = dish_part_resolved(dish, sums->baths[i].part);
        sums->baths[i].keeps_all = resolved && resolved->rare->fate && resolved->rare->fate->keeps_bath && !sums->baths[i].taken_from
                                && resolved->kept.low == 1;
    }
}

/* Why a food cannot be told of in the bath; true when it can. */
static bool admit(const struct dish *dish, struct bath_sum *bath, struct guest *guest)
{
    struct line_amount *line = &dish->sums->lines[guest->line];
    if (!dish_knows(line->incomplete, dish->library->mass_column)) {
        if (!line->unknown)
            dish_tell(dish, DISH_WEIGHT_UNKNOWN, guest->line, NONE_INDEX, guest->visit);
        dish_lose_line(dish, guest->line);
        bath->left.incomplete |= line->incomplete;      /* what it gives is unknown, too */
        return false;
    }
    if (!dish_knows(line->incomplete, dish->library->solvent)) {
        struct range mass = guest->own[dish->library->mass_column];
        guest->own[dish->library->solvent] = range_of(0, mass.best / 2, mass.high);
        dish_tell(dish, DISH_WATER_NOT_KNOWN, guest->line, NONE_INDEX, guest->visit);
    }
    double gives = -guest->visit->uptake.low * guest->own[dish->library->mass_column].high;
    if (gives > 0 && amount_compare(-guest->visit->uptake.best * guest->own[dish->library->mass_column].best,
                                    guest->own[dish->library->solvent].high) > 0) {
        dish_tell(dish, DISH_MASS_TOO_LOW, guest->line, NONE_INDEX, guest->visit);
        dish_lose_line(dish, guest->line);
        return false;
    }
    return true;
}

/* What is unknown of one is unknown of all that share the bath. */
static void share_doubt(const struct dish *dish, struct bath_sum *bath, const struct guest *guests, uint32_t count)
{
    uint64_t doubt = bath->left.incomplete & ~((uint64_t)1 << dish->library->solvent);
    for (uint32_t i = 0; i < count; i++)
        doubt |= (dish->sums->lines[guests[i].line].incomplete | guests[i].visit->lost) & ~((uint64_t)1 << dish->library->solvent);
    bath->left.incomplete |= doubt;
    for (uint32_t i = 0; i < count; i++)
        dish->sums->lines[guests[i].line].incomplete |= doubt;
}

#define LEAST_WATER 0.1                 /* of a bath's weight: honey holds more, a salt crust does not */

/* Enough for what foods take up. Where a line of the bath is unknown, another finding says why. */
static bool has_water(const struct dish *dish, const struct bath_sum *bath, const struct guest *guests, uint32_t count)
{
    double up = 0, water = bath->left.column[dish->library->solvent].best, all = bath->left.column[dish->library->mass_column].best;
    for (uint32_t i = 0; i < count; i++)
        up += guests[i].visit->uptake.best * guests[i].own[dish->library->mass_column].best;
    bool known = dish_knows(bath->left.incomplete, dish->library->solvent), enough = water > 0 && water >= all * LEAST_WATER && amount_compare(up, water) <= 0;
    if (known && !enough)
        dish_tell(dish, DISH_BATH_WITHOUT_WATER, NONE_INDEX, bath->part, NULL);
    return known && enough;
}

/* Whether nothing is done to the food but this visit: then the sum of food and bath is what it was before. */
static bool only_visits(const struct dish *dish, const struct guest *guest)
{
    const struct line_amount *line = &dish->sums->lines[guest->line];
    return line->resolved->rare->visit_count == 1 && !guest->visit->after.keeps && !guest->visit->after.adds
        && dish->eaten[guest->line].low == 1 && !line->resolved->rare->fate && line->line->part == NONE_INDEX;
}

static void add_slack(const struct dish *dish, const struct range *columns, double sign)
{
    for (uint32_t i = 0; i < dish->library->mass_column; i++) {
        struct range *slack = &dish->sums->slack[i];
        if (i == dish->library->solvent)
            continue;
        slack->low += sign * columns[i].low;
        slack->high += sign * columns[i].high;
    }
}

static void count_slack(const struct dish *dish, const struct bath_sum *bath, const struct guest *guests, uint32_t count, double sign)
{
    add_slack(dish, bath->left.column, sign);
    for (uint32_t i = 0; i < count; i++)
        add_slack(dish, guests[i].own, sign);
}

static void share_bath_among(const struct dish *dish, struct bath_sum *bath, struct guest *guests, uint32_t count)
{
    bool whole = bath->keeps_all && dish_part(dish, bath->part)->parent == NONE_INDEX;
    if (!has_water(dish, bath, guests, count)) {
        for (uint32_t i = 0; i < count; i++)
            dish_lose_line(dish, guests[i].line);
        return;
    }
    for (uint32_t i = 0; i < count; i++)
        whole = whole && only_visits(dish, &guests[i]);
    share_doubt(dish, bath, guests, count);
    if (whole)
        count_slack(dish, bath, guests, count, 1);
    dish_show(dish, (struct dish_event){ .kind = DISH_MEETS, .line = NONE_INDEX, .part = bath->part, .bath = bath, .guests = guests, .count = count });
    bath_exchange(dish->library, bath->left.column, guests, count);
    dish_show(dish, (struct dish_event){ .kind = DISH_PARTS, .line = NONE_INDEX, .part = bath->part, .bath = bath, .guests = guests, .count = count });
    if (whole)
        count_slack(dish, bath, guests, count, -1);
}

static void treat_after(const struct dish *dish, const struct guest *guest)
{
    const struct stage *stage = &guest->visit->after;
    struct range grams = guest->own[dish->library->mass_column];
    for (uint32_t i = 0; i < dish->library->column_count; i++) {
        double before = guest->own[i].high;
        guest->own[i] = stage_rate(stage, guest->own[i], grams, dish->library, i);
        dish->sums->ceiling[i] += amount_larger(0, guest->own[i].high - before);
    }
    struct line_amount *line = &dish->sums->lines[guest->line];
    dish_show(dish, (struct dish_event){ .kind = DISH_TREATED, .line = guest->line, .part = NONE_INDEX, .columns = guest->own });
    line->incomplete |= stage->lost | guest->visit->lost;
    line->mass_known = dish_knows(line->incomplete, dish->library->mass_column);
}

/* A line's visit of this number, or NULL. What stands in a bath goes into no other. */
static const struct visit *visit_of(const struct dish *dish, const struct line_amount *line, uint32_t round)
{
    const struct resolved *resolved = line->resolved;
    if (line->unknown || !resolved || round >= resolved->rare->visit_count || dish_bath_around(dish, line->line) != NONE_INDEX)
        return NULL;
    return &resolved->rare->visits[round];
}

/* All that go into a bath in this round, in the order of lines. */
static uint32_t gather_guests(const struct dish *dish, uint32_t round, struct guest *guests)
{
    struct sums *sums = dish->sums;
    uint32_t count = 0;
    for (uint32_t i = 0; i < sums->line_count; i++) {
        const struct visit *visit = visit_of(dish, &sums->lines[i], round);
        struct bath_sum *bath = visit ? find_bath(dish, visit->bath) : NULL;
        struct guest guest = { .line = i, .visit = visit, .own = sums->lines[i].own };
        if (bath)
            bath->used = true;
        if (visit && !bath) {
            dish_tell(dish, DISH_BATH_UNKNOWN, i, NONE_INDEX, visit);
            dish_lose_line(dish, i);
        } else if (bath && admit(dish, bath, &guest)) {
            guest.bath = (uint32_t)(bath - sums->baths);
            guests[count++] = guest;
            bath->guests++;
        }
    }
    return count;
}

/* Sorts them by bath, each in the order of lines. */
static void sort_guests(const struct dish *dish, const struct guest *guests, uint32_t count, struct guest *sorted)
{
    struct sums *sums = dish->sums;
    uint32_t first = 0;
    for (uint32_t i = 0; i < sums->bath_count; i++) {
        sums->baths[i].first_guest = first;
        first += sums->baths[i].guests;
        sums->baths[i].guests = 0;
    }
    for (uint32_t i = 0; i < count; i++) {
        struct bath_sum *bath = &sums->baths[guests[i].bath];
        sorted[bath->first_guest + bath->guests++] = guests[i];
    }
}

static void run_bath(const struct dish *dish, struct bath_sum *bath, struct guest *guests)
{
    const struct fate *fate = bath_fate(dish, bath);
    uint32_t at_once = fate && fate->in_turn ? 1 : bath->guests;
    for (uint32_t i = 0; i < bath->guests; i += at_once)
        share_bath_among(dish, bath, guests + bath->first_guest + i, at_once);
    for (uint32_t i = 0; i < bath->guests; i++)
        treat_after(dish, &guests[bath->first_guest + i]);
    bath->guests = 0;
}

static void run_rounds(const struct dish *dish)
{
    struct sums *sums = dish->sums;
    struct guest *sorted = dish->guests + sums->line_count + 1;
    uint32_t count = 1;
    for (uint32_t round = 0; round < LIMIT_PHRASES && count; round++) {
        count = gather_guests(dish, round, dish->guests);
        sort_guests(dish, dish->guests, count, sorted);
        for (uint32_t i = 0; i < sums->bath_count; i++)
            run_bath(dish, &sums->baths[i], sorted);
    }
}

/* ---- what becomes of the baths ----------------------------------------------------------------------------------------- */

/* A line takes liquid out of a bath, as it is after the last food. */
static void take_liquid(const struct dish *dish, uint32_t number)
{
    struct line_amount *line = &dish->sums->lines[number];
    const struct resolved *resolved = line->resolved;
    struct bath_sum *bath = find_bath(dish, resolved->rare->bath);
    const struct library *library = dish->library;
    if (!bath || line->unknown || line->unmeasured) {
        if (!bath)
            dish_tell(dish, DISH_BATH_UNKNOWN, number, NONE_INDEX, NULL);
        dish_lose_line(dish, number);
        return;
    }
    struct range mass = bath->left.column[library->mass_column], amount = line->as_written;
    if (resolved->measure == RECIPE_ML)
        amount = range_multiply(amount, fate_density(mass, bath->left.column[library->solvent]));
    struct range share = mass.low > 0 ? range_divide(amount, mass) : range_exact(2);
    if (amount_compare(bath->taken.best + share.best, 1) > 0) {
        dish_tell(dish, DISH_TAKEN_TOO_MUCH, number, NONE_INDEX, NULL);
        dish_lose_line(dish, number);
        return;
    }
    bath->taken = range_add(bath->taken, share);
    share = range_of(amount_smaller(1, share.low), amount_smaller(1, share.best), amount_smaller(1, share.high));
    line->incomplete = bath->left.incomplete;
    line->mass_known = dish_knows(line->incomplete, library->mass_column);
    for (uint32_t i = 0; i < library->column_count; i++)
        line->own[i] = range_multiply(bath->left.column[i], share);
    line->own[library->mass_column] = amount;
    dish_scale(dish, line->own, resolved->kept);
    dish_show(dish, (struct dish_event){ .kind = DISH_TAKEN, .line = number, .part = bath->part, .bath = bath, .share = share, .columns = line->own });
}

/* What is left is kept by the bath's own lines, as they filled it; the first has what came from foods alone. */
static void share_bath(const struct dish *dish, struct bath_sum *bath)
{
    struct sums *sums = dish->sums;
    uint32_t columns = dish->library->column_count, first = NONE_INDEX;
    for (uint32_t i = first_line(dish, bath); i < line_end(dish, bath); i++) {
        struct line_amount *line = &sums->lines[i];
        if (!is_of_bath(dish, bath, i))
            continue;
        first = first == NONE_INDEX ? i : first;
        line->incomplete |= bath->kept.incomplete;
        for (uint32_t c = 0; c < columns; c++) {
            double in = bath->went_in.column[c].best, share = in > 0 ? line->own[c].best / in : i == first;
            line->own[c] = range_scale(bath->kept.column[c], share);
        }
        dish_show(dish, (struct dish_event){ .kind = DISH_SHARED, .line = i, .part = bath->part, .bath = bath, .columns = line->own });
    }
}

static void reduce_bath(const struct dish *dish, struct bath_sum *bath, const struct fate *fate)
{
    struct range *columns = bath->kept.column;
    enum dish_trouble trouble;
    struct whole whole = { &columns, 1, 0, dish_knows(bath->kept.incomplete, dish->library->mass_column),
                           dish_knows(bath->kept.incomplete, dish->library->solvent) };
    if (fate->reduced && !fate_reduce(dish->library, &whole, fate, &trouble)) {
        dish_tell(dish, trouble, NONE_INDEX, bath->part, NULL);
        bath->kept.incomplete |= (uint64_t)1 << dish->library->mass_column;
    }
}

/* What no line takes is thrown away, unless the bath says that it is kept. */
static void end_bath(const struct dish *dish, struct bath_sum *bath)
{
    const struct resolved *resolved = dish_part_resolved(dish, bath->part);
    const struct fate *fate = resolved ? resolved->rare->fate : NULL;
    struct range rest = range_of(amount_larger(0, 1 - bath->taken.high), amount_larger(0, 1 - bath->taken.best),
                                 amount_larger(0, 1 - bath->taken.low));
    struct range kept = fate && fate->keeps_bath ? resolved->kept : range_exact(0);
    bath->thrown = range_multiply(rest, range_of(1 - kept.high, 1 - kept.best, 1 - kept.low));
    kept = range_multiply(rest, kept);
    if (!bath->used && !bath->taken_from && !dish->has_errors)  /* the line that was meant for it may be the one */
        dish_tell(dish, DISH_BATH_UNUSED, NONE_INDEX, bath->part, NULL);
    bath->kept = bath->left;
    for (uint32_t i = 0; i < dish->library->column_count; i++)
        bath->kept.column[i] = range_multiply(bath->left.column[i], kept);
    if (kept.high <= 0)
        bath->kept.incomplete = 0;
    if (fate)
        reduce_bath(dish, bath, fate);
    dish_show(dish, (struct dish_event){ .kind = DISH_ENDS, .line = NONE_INDEX, .part = bath->part, .bath = bath, .share = kept, .columns = bath->kept.column });
    if (resolved && resolved->flags & (RESOLVED_BAD | RESOLVED_TREATS))
        bath->kept.incomplete = UINT64_MAX >> (64 - dish->library->column_count);
    for (uint32_t i = first_line(dish, bath); i < line_end(dish, bath) && kept.high <= 0; i++) {
        if (is_of_bath(dish, bath, i) && !dish->sums->lines[i].unknown)
            dish->sums->lines[i].incomplete = 0;        /* thrown away, whatever it was */
    }
    share_bath(dish, bath);
}

/* The lines that take of a bath are part of what is kept of it. */
static void count_taken(const struct dish *dish)
{
    for (uint32_t i = 0; i < dish->sums->line_count; i++) {
        const struct line_amount *line = &dish->sums->lines[i];
        struct bath_sum *bath = line->resolved && line->resolved->subject == SUBJECT_BATH && !line->unknown
                              ? find_bath(dish, line->resolved->rare->bath) : NULL;
        if (bath)
            amounts_add(&bath->kept, line, dish->library);
    }
}

enum status dish_settle_baths(struct dish *dish)
{
    struct sums *sums = dish->sums;
    for (uint32_t i = dish->recipe->first_part; i < dish->recipe->first_part + dish->recipe->part_count; i++) {
        if (dish_part(dish, i)->is_bath && !add_bath(dish, i))
            return STATUS_NO_MEMORY;
    }
    for (uint32_t i = 0; i < sums->bath_count; i++)
        fill_bath(dish, &sums->baths[i]);
    find_keepers(dish);
    run_rounds(dish);
    for (uint32_t i = 0; i < sums->bath_count; i++)
        sums_cap(sums, dish->library, sums->baths[i].left.column);
    for (uint32_t i = 0; i < sums->line_count; i++) {
        if (sums->lines[i].resolved && sums->lines[i].resolved->subject == SUBJECT_BATH)
            take_liquid(dish, i);
    }
    for (uint32_t i = 0; i < sums->bath_count; i++)
        end_bath(dish, &sums->baths[i]);
    count_taken(dish);
    return STATUS_OK;
}

struct amounts bath_discarded(const struct bath_sum *bath, const struct library *library)
{
    struct amounts discarded = { .incomplete = bath->left.incomplete };
    for (uint32_t i = 0; i < library->column_count; i++)
        discarded.column[i] = range_multiply(bath->left.column[i], bath->thrown);
    return discarded;
}
