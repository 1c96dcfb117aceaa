/* A food goes into a bath: what it keeps of its own, how far it comes to equilibrium, and the water that it takes up.
 * The sums are done where all that shares the bath is known: amount/bath.c. */
#include "model/treating.h"

/* The reach of a nutrient: its own figure, else that of all that dissolves. What does not dissolve may be carried along
 * by the water, or stay behind. */
static bool find_reach(const struct treating *treating, const struct found *found, uint32_t nutrient, struct range *reach)
{
    const struct library *library = treating->resolving->library;
    const struct effect *effect = effects_find(found, nutrient, EFFECT_REACHES);
    *reach = effect ? effect->share : range_exact(0);
    if (effect && effect->nutrient == nutrient)
        return true;
    bool dissolves = library_nutrient_at(library, nutrient, NULL)->role == NUTRIENT_DISSOLVES;
    if (!dissolves)
        reach->low = reach->best = 0;
    return dissolves && effect;
}

/* What the food keeps of its own: the figure for the nutrient; else what mass balance leaves where it dissolves; else
 * the figure for others. Nobody knows the rest. */
static void set_column(struct treating *treating, const struct found *found, struct visit *visit, uint32_t column,
                       struct range *own, struct range *reach)
{
    const struct library *library = treating->resolving->library;
    uint32_t nutrient = column < library->nutrient_total ? column : library->traced;
    const struct effect *keeps = effects_find(found, nutrient, EFFECT_KEEPS);
    bool balances = find_reach(treating, found, nutrient, reach);
    *own = keeps ? keeps->share : range_exact(0);
    if (keeps && (keeps->nutrient == nutrient || !balances))
        return;
    if (balances)
        visit->balanced |= (uint64_t)1 << column;
    else if (nutrient != library->solvent)
        visit->lost |= (uint64_t)1 << column;
}

static struct range uptake_of(const struct treatment *treatment)
{
    const struct range *mass = &treatment->mass;
    if (treatment->flags & TREATMENT_HAS_UPTAKE)
        return treatment->uptake;
    if (treatment->flags & TREATMENT_HAS_MASS)
        return range_add(*mass, range_exact(-1));
    return range_exact(0);
}

/* What a dry food takes up in all, it takes up less of where an earlier bath has swollen it. */
static void set_swollen(struct treating *treating, struct visit *visit, bool in_all)
{
    struct range after = range_add(range_exact(1), visit->uptake), before = treating->swollen;
    if (in_all && before.best > 1) {
        struct range more = range_divide(after, before);
        visit->uptake = range_of(amount_larger(0, more.low - 1), amount_larger(0, more.best - 1), amount_larger(0, more.high - 1));
        after = range_add(range_exact(1), visit->uptake);
    }
    if (after.best > SWELLS)
        treating->swollen = before.best > 1 ? range_multiply(before, after) : after;
}

void visit_add(struct treating *treating, const struct found *found, const struct step *step)
{
    struct resolving *resolving = treating->resolving;
    struct resolved *resolved = resolving->resolved;
    struct arena *arena = &resolving->gathering->arena;
    uint32_t columns = resolving->library->mass_column;
    if (!treating->visits)
        treating->visits = arena_take(arena, LIMIT_PHRASES * sizeof *treating->visits);
    struct range *own = arena_take(arena, columns * sizeof *own), *reach = arena_take(arena, columns * sizeof *reach);
    if (!treating->visits || !own || !reach)
        return;
    struct visit *visit = &treating->visits[resolving->rare.visit_count++];
    *visit = (struct visit){ .bath = step->bath, .span = step->span, .part = step->part, .own = own, .reach = reach,
                             .uptake = uptake_of(found->treatment) };
    set_swollen(treating, visit, found->treatment->flags & TREATMENT_IN_ALL);
    for (uint32_t i = 0; i < columns; i++)
        set_column(treating, found, visit, i, &own[i], &reach[i]);
    derive_note(resolving->derivation, DERIVED_VISIT, step->bath, library_text(found->library, found->treatment->source), range_exact(1), range_exact(1));
    resolving->rare.visits = treating->visits;
    resolved->flags |= RESOLVED_MOVES;
    effects_begin(treating, &visit->after);
}
