/* What happened to a line in its dish, as rows: baths, what is thrown away, water that boiled away. */
#include "output/trace_rows.h"

static const struct text none = { "", 0 };

#define SAY(symbol, ...) sheet_say(rows->sheet, PHRASE_##symbol, __VA_ARGS__)
#define WORDS(symbol) phrase_text(PHRASE_##symbol)

static struct text part_name(const struct traced_recipe *recipe, uint32_t part)
{
    return part == NONE_INDEX ? none : recipe->at.gathering->parts[part].name;
}

static bool is_same(struct range a, struct range b)
{
    return a.low == b.low && a.best == b.best && a.high == b.high;
}

static void add_parting(struct trace_rows *rows, const struct traced_recipe *recipe, const struct trace_move *move)
{
    uint32_t column = rows->trace->column;
    bool balanced = move->visit->balanced >> column & 1;
    rows_add(rows, 1, SAY(TRACE_BATH_MEETS, part_name(recipe, move->part)), move->before, move->known, none);
    if (column < rows->trace->library->mass_column && column != rows->trace->library->solvent) {
        struct range reach = move->visit->reach[column], water = move->of_water;
        struct range own = balanced ? range_of(1 - reach.high * (1 - water.low), 1 - reach.best * (1 - water.best), 1 - reach.low * (1 - water.high))
                                    : move->visit->own[column];
        rows_add(rows, 2, WORDS(TRACE_BATH_OF_WATER), water, true, none);
        rows_add(rows, 2, WORDS(TRACE_BATH_REACH), reach, true, none);
        rows_add(rows, 2, balanced ? WORDS(TRACE_BATH_OWN_BALANCED) : WORDS(TRACE_BATH_OWN), own, true, none);
    }
    rows_add(rows, 2, WORDS(TRACE_BATH_HELD), move->bath_before, move->bath_known, none);
    rows_add(rows, 1, WORDS(TRACE_BATH_PARTS), move->after, move->known, none);
    rows_add(rows, 2, WORDS(TRACE_BATH_LEFT), move->bath_after, move->bath_known, none);
}

static void add_move(struct trace_rows *rows, const struct traced_recipe *recipe, const struct trace_move *move, uint32_t baths)
{
    bool changes = !is_same(move->before, move->after);
    switch (move->kind) {
    case DISH_GIVEN: rows_add(rows, 0, SAY(TRACE_GIVEN, rows->unit), move->after, move->known, none); return;
    case DISH_PARTS: add_parting(rows, recipe, move); return;
    case DISH_TREATED:
        if (rows_treatments(rows, &recipe->lines[move->line], baths) || changes)
            rows_add(rows, 1, WORDS(TRACE_TREATED), move->after, move->known, none);
        return;
    case DISH_TAKEN:
        rows_add(rows, 1, SAY(TRACE_BATH_EATEN, part_name(recipe, move->part)), move->bath_after, move->bath_known, none);
        rows_add(rows, 1, SAY(TRACE_TAKEN, part_name(recipe, move->part)), move->share, true, none);
        return;
    case DISH_SHARED:
        rows_add(rows, 1, SAY(TRACE_BATH_EATEN, part_name(recipe, move->part)), move->bath_after, move->bath_known, none);
        rows_add(rows, 1, WORDS(TRACE_SHARED), move->share, true, none);
        return;
    case DISH_FATE:
        if (!is_same(move->share, range_exact(1)))
            rows_add(rows, 1, move->part == NONE_INDEX ? WORDS(TRACE_FATE) : SAY(TRACE_FATE_PART, part_name(recipe, move->part)), move->share, true, none);
        if (!is_same(range_multiply(move->before, move->share), move->after))
            rows_add(rows, 1, WORDS(TRACE_BOILED), move->after, move->known, none);
        return;
    case DISH_CAPPED:
        if (changes)
            rows_add(rows, 1, WORDS(TRACE_CAPPED), move->after, move->known, none);
        return;
    case DISH_LOST: rows_say(rows, 1, WORDS(TRACE_DISH_LOST), none); return;
    default: return;
    }
}

void rows_moves(struct trace_rows *rows, const struct traced_recipe *recipe, uint32_t number)
{
    uint32_t baths = 0;
    for (const struct trace_move *move = recipe->moves; move; move = move->next) {
        if (move->line != number)
            continue;
        baths += move->kind == DISH_PARTS;
        add_move(rows, recipe, move, baths);
    }
}

void rows_baths(struct trace_rows *rows, const struct traced_recipe *recipe)
{
    uint32_t column = rows->trace->column;
    if (recipe->sums.bath_count == 0)
        return;
    rows_table(rows, WORDS(TRACE_BATHS));
    for (uint32_t i = 0; i < recipe->sums.bath_count; i++) {
        const struct bath_sum *bath = &recipe->sums.baths[i];
        rows_add(rows, 0, SAY(TRACE_BATH_WENT_IN, part_name(recipe, bath->part)), bath->went_in.column[column], amounts_complete(&bath->went_in, column), none);
        rows_add(rows, 1, WORDS(TRACE_BATH_LEFT_OVER), bath->left.column[column], amounts_complete(&bath->left, column), none);
        for (const struct trace_move *move = recipe->moves; move; move = move->next) {
            if (move->kind != DISH_ENDS || move->bath != i)
                continue;
            rows_add(rows, 1, WORDS(TRACE_BATH_KEPT), move->share, true, none);
            rows_add(rows, 1, WORDS(TRACE_BATH_KEPT_IS), move->after, amounts_complete(&bath->kept, column), none);
        }
    }
    sheet_table_end(rows->sheet);
}
