/* Lines of one recipe of which one holds already what the other brings: boiled pasta with its salt, and the salt. */
#include "judge/judge.h"

/* Whether the line brings any of the traced nutrient: what may be left out doubles nothing, and potassium chloride no
 * salt. */
static bool stands(const struct line_amount *amount, const struct library *library)
{
    const struct resolved *resolved = amount->resolved;
    if (!resolved || !resolved->food.food || resolved->flags & RESOLVED_OPTIONAL || library->traced == NONE_INDEX)
        return false;
    return (amount->unmeasured || amount->driver.high > 0)
        && (amount->values[library->traced].high > 0 || amount->incomplete >> library->traced & 1);
}

static uint32_t first_within(const struct sums *sums, const struct library *library, uint32_t group)
{
    for (uint32_t i = 0; i < sums->line_count; i++) {
        const struct line_amount *amount = &sums->lines[i];
        if (stands(amount, library) && library_group_distance(library, amount->resolved->food.food->group, group) != NONE_INDEX)
            return i;
    }
    return NONE_INDEX;
}

static void warn(const struct sums *sums, uint32_t holder, uint32_t bringer, struct findings *findings)
{
    uint32_t first = holder < bringer ? holder : bringer, second = holder < bringer ? bringer : holder;
    struct food_at holds = sums->lines[holder].resolved->food, brings = sums->lines[bringer].resolved->food;
    struct food_at before = sums->lines[first].resolved->food;
    struct finding *finding = finding_add(findings, FINDING_COUNTED_TWICE, recipe_line_place(sums, sums->lines[second].line),
        GAPS(library_text(holds.library, holds.food->name), library_text(brings.library, brings.food->name)));
    finding_label(findings, finding, recipe_line_place(sums, sums->lines[first].line), WORDS_COUNTED_HERE,
                  GAPS(library_text(before.library, before.food->name)));
    kitchen_note_milder(findings, finding, sums->at.gathering->kitchen, holds);
}

static bool doubles(const struct sums *sums, const struct library *library, const struct doubling *doubling, uint32_t line)
{
    const struct line_amount *amount = &sums->lines[line];
    return stands(amount, library) && amount->resolved->flags & RESOLVED_DOUBLES
        && library_group_distance(library, amount->resolved->food.food->group, doubling->group) != NONE_INDEX;
}

/* All lines that hold what foods of the doubling's other group bring; a food once. */
static void warn_of(const struct sums *sums, const struct library *library, const struct doubling *doubling, struct findings *findings)
{
    uint32_t bringer = first_within(sums, library, doubling->with);
    for (uint32_t i = 0; i < sums->line_count && bringer != NONE_INDEX; i++) {
        bool new = i != bringer && doubles(sums, library, doubling, i);
        for (uint32_t j = 0; j < i && new; j++) {
            bool told = j != bringer && doubles(sums, library, doubling, j);
            new = !told || sums->lines[j].resolved->food.food != sums->lines[i].resolved->food.food;
        }
        if (new)
            warn(sums, i, bringer, findings);
    }
}

/* ---- what treatments add ---------------------------------------------------------------------------------------- */

static bool stage_salts(const struct stage *stage, const struct library *library)
{
    return stage->adds && library->traced != NONE_INDEX && stage->adds[library->origin_column + ORIGIN_COOK].high > 0;
}

bool resolved_is_salted_by_cook(const struct resolved *resolved, const struct library *library)
{
    bool salted = stage_salts(&resolved->done, library);
    for (uint32_t i = 0; i < resolved->rare->visit_count; i++)
        salted = salted || stage_salts(&resolved->rare->visits[i].after, library);
    return salted;
}

bool line_is_salted_by_cook(const struct line_amount *amount, const struct library *library)
{
    return amount->resolved && !amount->unknown && resolved_is_salted_by_cook(amount->resolved, library);
}

/* What brings salt outside of a bath: of that in a bath the food takes what mass balance says. */
static uint32_t first_outside_baths(const struct sums *sums, const struct library *library, uint32_t group)
{
    for (uint32_t i = 0; i < sums->line_count; i++) {
        const struct line_amount *amount = &sums->lines[i];
        if (stands(amount, library) && !line_stands_in_bath(sums, amount->line)
            && library_group_distance(library, amount->resolved->food.food->group, group) != NONE_INDEX)
            return i;
    }
    return NONE_INDEX;
}

/* The first line of a food that some doubling says brings salt. */
static uint32_t first_bringer(const struct sums *sums, const struct library *library)
{
    for (const struct library *at = library; at; at = at->base) {
        for (uint32_t i = 0; i < at->doublings_count; i++) {
            uint32_t found = at->doublings[i].with == NONE_INDEX ? NONE_INDEX : first_outside_baths(sums, library, at->doublings[i].with);
            if (found != NONE_INDEX)
                return found;
        }
    }
    return NONE_INDEX;
}

/* The first treatment of a line that a cook salts by it; no bytes where there is none. */
static struct text salting(const struct sums *sums, const struct library *library, uint32_t line)
{
    const struct line_amount *amount = &sums->lines[line];
    bool salted = line_is_salted_by_cook(amount, library) && amount->resolved->treatment_count;
    return salted ? amount->resolved->treatments[0] : (struct text){ "", 0 };
}

/* A treatment once. */
static void warn_of_added(const struct sums *sums, const struct library *library, struct findings *findings)
{
    uint32_t bringer = first_bringer(sums, library);
    for (uint32_t i = 0; i < sums->line_count && bringer != NONE_INDEX; i++) {
        struct text treatment = salting(sums, library, i);
        bool new = i != bringer && treatment.length;
        for (uint32_t j = 0; j < i && new; j++)
            new = j == bringer || !text_equal(salting(sums, library, j), treatment);
        if (!new)
            continue;
        uint32_t first = i < bringer ? i : bringer, second = i < bringer ? bringer : i;
        struct food_at brings = sums->lines[bringer].resolved->food, before = sums->lines[first].resolved->food;
        struct finding *finding = finding_add(findings, FINDING_ADDED_TWICE, recipe_line_place(sums, sums->lines[second].line),
            GAPS(treatment, library_text(brings.library, brings.food->name)));
        if (before.food)
            finding_label(findings, finding, recipe_line_place(sums, sums->lines[first].line), WORDS_COUNTED_HERE,
                          GAPS(library_text(before.library, before.food->name)));
    }
}

void recipe_warn_of_doublings(const struct sums *sums, struct findings *findings)
{
    const struct library *library = sums->at.gathering->kitchen->library;
    for (const struct library *at = library; at; at = at->base) {
        for (uint32_t i = 0; i < at->doublings_count; i++) {
            if (at->doublings[i].with != NONE_INDEX)
                warn_of(sums, library, &at->doublings[i], findings);
        }
    }
    warn_of_added(sums, library, findings);
}
