/* What a treatment does to a line: shares that stay, amounts that are added or put in the place of the food's own. */
#include <string.h>

#include "model/treating.h"

void effects_begin(struct treating *treating, struct stage *stage)
{
    *stage = (struct stage){ .mass = range_exact(1), .weight_is_water = true };
    treating->stage = stage;
    treating->keeps = treating->adds = NULL;
}

struct range *effects_keeps(struct treating *treating)
{
    struct resolving *resolving = treating->resolving;
    uint32_t count = resolving->library->column_count;
    if (treating->keeps)
        return treating->keeps;
    bool first = treating->stage == &resolving->resolved->done;     /* those are shared among tails */
    struct arena *arena = first ? &resolving->gathering->keeps_arena : &resolving->gathering->arena;
    treating->keeps = arena_take(arena, count * sizeof *treating->keeps);
    for (uint32_t i = 0; treating->keeps && i < count; i++)
        treating->keeps[i] = range_exact(1);
    treating->stage->keeps = treating->keeps;
    return treating->keeps;
}

struct range *effects_adds(struct treating *treating)
{
    struct resolving *resolving = treating->resolving;
    uint32_t count = resolving->library->column_count;
    if (!treating->adds) {
        treating->adds = arena_take(&resolving->gathering->arena, count * sizeof *treating->adds);
        for (uint32_t i = 0; treating->adds && i < count; i++)
            treating->adds[i] = range_exact(0);
        treating->stage->adds = treating->adds;
    }
    return treating->adds;
}

/* A copy of what was made before, since it may be shared. */
static void copy_columns(struct treating *treating, struct range *copy, const struct range *columns)
{
    if (copy && columns)
        memcpy(copy, columns, treating->resolving->library->column_count * sizeof *copy);
}

void effects_resume(struct treating *treating, struct stage *stage)
{
    const struct range *keeps = stage->keeps, *adds = stage->adds;
    treating->stage = stage;
    treating->keeps = treating->adds = NULL;
    if (keeps)
        copy_columns(treating, effects_keeps(treating), keeps);
    if (adds)
        copy_columns(treating, effects_adds(treating), adds);
}

const struct effect *effects_find(const struct found *found, uint32_t nutrient, enum effect_kind kind)
{
    const struct effect *others = NULL;
    for (uint32_t i = 0; i < found->treatment->effect_count; i++) {
        const struct effect *effect = &found->library->effects[found->treatment->first_effect + i];
        if (effect->kind == (uint32_t)kind && effect->nutrient == nutrient)
            return effect;
        if (effect->kind == (uint32_t)kind && effect->nutrient == EFFECT_OTHERS)
            others = effect;
    }
    return others;
}

/* `keeps others` of a treatment that tells what a bath does says nothing of what would move with its water. */
static const struct effect *find_keeps(const struct treating *treating, const struct found *found, uint32_t nutrient)
{
    const struct effect *keeps = effects_find(found, nutrient, EFFECT_KEEPS);
    bool in_bath = found->treatment->flags & TREATMENT_REACHES;
    if (keeps && in_bath && keeps->nutrient == EFFECT_OTHERS
        && library_nutrient_at(treating->resolving->library, nutrient, NULL)->role == NUTRIENT_DISSOLVES)
        return NULL;
    return keeps;
}

/* A named `keeps` over mass is nearer than a `strength others`. What is replaced need not be kept. */
bool effects_share(const struct treating *treating, const struct found *found, uint32_t nutrient, struct range *share)
{
    const struct treatment *treatment = found->treatment;
    const struct effect *keeps = find_keeps(treating, found, nutrient);
    const struct effect *strength = effects_find(found, nutrient, EFFECT_STRENGTH);
    if (!treating->weighed_after) {
        *share = keeps ? keeps->share : range_exact(1);
        return keeps || effects_find(found, nutrient, EFFECT_BECOMES);
    }
    bool derived = keeps && treatment->flags & TREATMENT_HAS_MASS && treatment->mass.low > 0;
    if (strength && (strength->nutrient == nutrient || !derived || keeps->nutrient != nutrient)) {
        *share = strength->share;
        return true;
    }
    if (derived)
        *share = range_divide(keeps->share, treatment->mass);
    return derived || effects_find(found, nutrient, EFFECT_BECOMES);
}

/* The nutrient that a column tells of: origins follow the traced one. */
static uint32_t column_nutrient(const struct library *library, uint32_t column)
{
    return column < library->nutrient_total ? column : library->traced;
}

static void lose(struct stage *stage, uint32_t column)
{
    stage->lost |= (uint64_t)1 << column;
}

static void apply_share(struct treating *treating, uint32_t column, struct range share)
{
    if (treating->repeated)             /* nobody measured a second rinse: it may take as much again, or nothing */
        share.best = share.high = amount_larger(1, share.high);
    derive_effect(treating->resolving, DERIVED_KEEPS, column, share);
    treating->keeps[column] = range_multiply(treating->keeps[column], share);
    if (treating->adds)
        treating->adds[column] = range_multiply(treating->adds[column], share);
}

/* What is lost is not surely there: the known part is 0. */
static void lose_share(struct treating *treating, uint32_t column)
{
    derive_effect(treating->resolving, DERIVED_LOST, column, range_exact(0));
    treating->keeps[column] = range_exact(0);
    if (treating->adds)
        treating->adds[column] = range_exact(0);
    lose(treating->stage, column);
}

/* Where no figure tells of water, it is what the weight changes by (FAO: Greenfield & Southgate 2003, read). Figures and
 * weight in turn cannot be told apart. */
static bool water_by_weight(struct treating *treating, const struct found *found, bool known)
{
    struct stage *stage = treating->stage;
    bool by_weight = !known && !treating->weighed_after && found->treatment->flags & TREATMENT_HAS_MASS;
    bool before = range_is_exact(stage->mass) && stage->mass.best == 1;         /* no weight has changed so far */
    uint32_t solvent = treating->resolving->library->solvent;
    bool follows = by_weight && stage->weight_is_water, tells = known && (before || !stage->weight_is_water);
    if (follows || !tells)
        derive_effect(treating->resolving, follows ? DERIVED_WATER : DERIVED_UNKNOWN, solvent, range_exact(1));
    if (follows)
        return true;
    if (tells)
        stage->weight_is_water = false;
    else
        lose(stage, solvent);
    return false;
}

static void apply_shares(struct treating *treating, const struct found *found)
{
    const struct library *library = treating->resolving->library;
    if (!effects_keeps(treating))
        return;
    for (uint32_t i = 0; i < library->mass_column; i++) {
        struct range share = range_exact(1);
        bool known = effects_share(treating, found, column_nutrient(library, i), &share);
        if (i == library->solvent && water_by_weight(treating, found, known))
            continue;
        if (known)
            apply_share(treating, i, share);
        else
            lose_share(treating, i);
    }
}

/* A food that came swollen out of a bath: what the treatment says of its weight is told of the dry one. */
static void apply_swollen(struct treating *treating, struct range *mass)
{
    if (treating->swollen.best > 1 && mass->best > SWELLS)
        *mass = range_divide(*mass, treating->swollen);
}

static void apply_mass(struct treating *treating, const struct found *found)
{
    struct stage *stage = treating->stage;
    if (treating->weighed_after)
        return;
    if (found->treatment->flags & TREATMENT_HAS_MASS) {
        struct range mass = found->treatment->mass;
        apply_swollen(treating, &mass);
        stage->mass = range_multiply(stage->mass, mass);
        derive_effect(treating->resolving, DERIVED_MASS, NONE_INDEX, mass);
    } else {
        stage->mass = range_exact(0);
        derive_effect(treating->resolving, DERIVED_MASS, NONE_INDEX, range_exact(0));
        lose(stage, treating->resolving->library->mass_column);
    }
}

static void add_to(struct treating *treating, uint32_t column, struct range amount)
{
    struct range *adds = effects_adds(treating);
    derive_effect(treating->resolving, DERIVED_ADDS, column, amount);
    if (adds)
        adds[column] = range_add(adds[column], amount);
}

/* What 100 g of the food hold of a column as it comes. */
static struct range value_of(const struct resolving *resolving, uint32_t column)
{
    struct food_at at = resolving->resolved->food;
    if (!at.food)
        return range_exact(0);
    return at.library->values[kitchen_food_row(resolving->gathering->kitchen, at.food) + column];
}

/* The food's own part of what replaces it stays inherent; the rest is the maker's or the cook's. Where there may be more of
 * its own than in all, nobody can tell the parts apart. */
static void replace_origins(struct treating *treating, struct range all, uint32_t added)
{
    struct resolving *resolving = treating->resolving;
    uint32_t first = resolving->library->origin_column;
    struct range *keeps = effects_keeps(treating);
    if (!keeps)
        return;
    struct range own = range_multiply(value_of(resolving, first + ORIGIN_INHERENT), keeps[first + ORIGIN_INHERENT]);
    struct range rest = range_without(all, own);
    bool parted = own.low <= all.low && own.best <= all.best && own.high <= all.high;
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        bool goes = !parted || i != ORIGIN_INHERENT;
        derive_effect(resolving, DERIVED_REPLACED, first + i, range_exact(goes ? 0 : 1));
        if (goes)
            keeps[first + i] = range_exact(0);
        if (treating->adds)
            treating->adds[first + i] = range_exact(0);
    }
    add_to(treating, first + (parted ? added : (uint32_t)ORIGIN_UNSEPARATED), parted ? rest : all);
}

/* Per 100 g of a weight that nobody knows, nobody knows how much: what is there already is the known part. */
static void lose_amount(struct treating *treating, uint32_t column)
{
    derive_effect(treating->resolving, DERIVED_UNKNOWN, column, range_exact(1));
    lose(treating->stage, column);
}

/* Nothing is known then of what an amount stands for, nor whose it is. */
static void lose_all_of_it(struct treating *treating, uint32_t column)
{
    const struct library *library = treating->resolving->library;
    if (!effects_keeps(treating))
        return;
    lose_share(treating, column);
    for (uint32_t i = 0; i < ORIGIN_COUNT && column == library->traced; i++)
        lose_share(treating, library->origin_column + i);
}

static void apply_unknown_amount(struct treating *treating, const struct effect *effect, bool by_maker)
{
    const struct library *library = treating->resolving->library;
    if (effect->kind == EFFECT_BECOMES) {
        lose_all_of_it(treating, effect->nutrient);
        return;
    }
    lose_amount(treating, effect->nutrient);
    if (effect->nutrient == library->traced)
        lose_amount(treating, library->origin_column + (by_maker ? ORIGIN_MAKER : ORIGIN_COOK));
}

static bool knows_mass(const struct treating *treating)
{
    return !(treating->stage->lost >> treating->resolving->library->mass_column & 1);
}

/* Amounts are kept per 100 g that went in, so the mass that is left so far carries them there. */
static void apply_amount(struct treating *treating, const struct effect *effect, bool by_maker, struct range mass_before)
{
    const struct library *library = treating->resolving->library;
    uint32_t column = effect->nutrient, added = by_maker ? ORIGIN_MAKER : ORIGIN_COOK;
    bool becomes = effect->kind == EFFECT_BECOMES;
    struct range amount = range_multiply(effect->share, becomes ? mass_before : treating->stage->mass);
    struct range *keeps = becomes ? effects_keeps(treating) : NULL;
    if (becomes)
        derive_effect(treating->resolving, DERIVED_REPLACED, column, range_exact(0));
    if (keeps)
        keeps[column] = range_exact(0);
    if (keeps && treating->adds)
        treating->adds[column] = range_exact(0);
    add_to(treating, column, amount);
    if (column == library->traced && becomes)
        replace_origins(treating, amount, added);
    else if (column == library->traced)
        add_to(treating, library->origin_column + added, amount);
}

void effects_apply(struct treating *treating, const struct found *found)
{
    const struct treatment *treatment = found->treatment;
    struct range before = treating->stage->mass;
    bool by_maker = treatment->flags & TREATMENT_BY_MAKER, before_known = knows_mass(treating);
    if (treatment->kept.high > 0) {     /* weight and all: with the amount itself */
        struct resolved *resolved = treating->resolving->resolved;
        resolved->kept = range_multiply(resolved->kept, treatment->kept);
        derive_effect(treating->resolving, DERIVED_KEPT, NONE_INDEX, treatment->kept);
        return;
    }
    apply_shares(treating, found);
    apply_mass(treating, found);
    for (uint32_t i = 0; i < treatment->effect_count; i++) {
        const struct effect *effect = &found->library->effects[treatment->first_effect + i];
        if (effect->kind != EFFECT_ADDS && effect->kind != EFFECT_BECOMES)
            continue;
        if (effect->kind == EFFECT_ADDS ? knows_mass(treating) : before_known)
            apply_amount(treating, effect, by_maker, before);
        else
            apply_unknown_amount(treating, effect, by_maker);
    }
}
