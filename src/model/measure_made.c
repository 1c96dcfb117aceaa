/* How much of something that is made: servings of a package label, and shares of a recipe used as an ingredient. */
#include <math.h>

#include "model/resolve.h"

static struct text food_name(struct food_at food)
{
    return library_text(food.library, food.food->name);
}

/* ---- labels -------------------------------------------------------------------------------------------------------------- */

static void set_servings(struct resolving *resolving, struct range servings)
{
    resolving->resolved->scale = servings;
    if (resolving->resolved->food.food->known >> resolving->library->mass_column & 1)
        resolving->resolved->flags |= RESOLVED_MASS_KNOWN;
}

/* Whole millilitres are written in metric units; the label's own cup counts for cups and spoons. */
static bool is_metric(double ml)
{
    return fabs(ml - floor(ml + 0.5)) < 1e-9;
}

static bool label_volume(const struct resolving *resolving, struct food_at label, struct range ml, struct range *servings)
{
    const struct food *food = label.food;
    if (is_metric(ml.best) && food->serving_ml.high > 0) {
        *servings = range_divide(ml, food->serving_ml);
        derive_of_food(resolving, label, DERIVED_SERVING, "ml", range_exact(1), food->serving_ml);
        return true;
    }
    for (uint32_t i = 0; i < food->portion_count; i++) {
        const struct portion *portion = &label.library->portions[food->first_portion + i];
        if (portion->volume_ml > 0) {
            *servings = range_scale(range_multiply(portion->grams, ml), 1 / portion->volume_ml);
            derive_portion(resolving, label, portion, portion->grams, portion->volume_ml, false);
            return true;
        }
    }
    if (food->serving_ml.high > 0) {
        *servings = range_divide(ml, food->serving_ml);
        derive_of_food(resolving, label, DERIVED_SERVING, "ml", range_exact(1), food->serving_ml);
    }
    return food->serving_ml.high > 0;
}

bool measure_label_unit(const struct resolving *resolving, struct food_at label, const struct unit *unit, struct range amount, struct range *servings)
{
    struct range measure = range_multiply(amount, unit->factor);
    derive_times(resolving, DERIVED_AMOUNT, text_of(""), amount);
    if (unit->dimension != DIMENSION_PACKAGE)
        derive_unit(resolving, unit);
    if (unit->dimension == DIMENSION_MASS && label.food->serving_grams.high > 0) {
        *servings = range_divide(measure, label.food->serving_grams);
        derive_of_food(resolving, label, DERIVED_SERVING, "g", range_exact(1), label.food->serving_grams);
        return true;
    }
    if (unit->dimension == DIMENSION_VOLUME)
        return label_volume(resolving, label, measure, servings);
    if (unit->dimension == DIMENSION_PACKAGE && label.food->servings.high > 0) {
        *servings = range_multiply(amount, label.food->servings);
        derive_of_food(resolving, label, DERIVED_PACKAGE, "", label.food->servings, range_exact(1));
        return true;
    }
    return false;
}

static bool is_serving_word(struct text word)
{
    char key[KEY_BYTES];
    uint32_t length = name_key(&word, 1, false, key);
    return text_is((struct text){ key, length }, "serving");
}

/* What was noted of a measure that did not do is forgotten. */
static bool measure_begin_again(const struct resolving *resolving)
{
    derive_restart(resolving->derivation);
    return true;
}

void measure_label(struct resolving *resolving, struct food_at label, uint32_t end)
{
    struct range servings;
    bool joined;
    uint32_t at, length;
    const struct library *owner;
    const struct unit *unit = end ? measure_find_unit(resolving, 0, end, &at, &length, &owner) : NULL;
    struct range size = unit ? measure_size_factor(resolving, unit, 0, end, at, length) : range_exact(1);
    if (measure_refuses_size(resolving, unit, 0, end))
        return;
    if (resolving->aside.found && measure_label_unit(resolving, label, resolving->aside.unit,
                                             range_between(resolving->aside.low, resolving->aside.high), &servings)) {
        bool package = unit && unit->dimension == DIMENSION_PACKAGE, all = package && package_read_part(resolving, label, &servings);
        set_servings(resolving, servings);
        if (all || (!resolving->aside.each && !package))
            resolving->resolved->flags |= RESOLVED_TOTAL;
    } else if (end == 1 && is_serving_word(resolving->words[0].text)) {
        set_servings(resolving, range_exact(1));
    } else if (unit && measure_begin_again(resolving) && measure_label_unit(resolving, label, unit, size, &servings)) {
        set_servings(resolving, measure_by_spoon(resolving, unit, servings));
        measure_note_volume(resolving, unit, size, 0, end);
    } else if (end > 0 && measure_begin_again(resolving) && portion_piece(resolving, label, 0, end, &servings, &joined)) {
        set_servings(resolving, servings);
    } else if (end > 0) {
        resolve_fail(resolving, FINDING_LABEL_MEASURE, resolve_words_span(resolving, 0, end),
                     GAPS(resolve_words_text(resolving, 0, end), food_name(label)));
    } else {
        resolve_fail(resolving, FINDING_BARE_RECIPE, resolve_whole_span(resolving), GAPS(food_name(label)));
    }
}

/* ---- recipes as ingredients -------------------------------------------------------------------------------------------- */

static const struct recipe_portion *find_recipe_portion(struct recipe_at at, struct text key)
{
    for (uint32_t i = 0; i < at.recipe->portion_count; i++) {
        const struct recipe_portion *portion = &at.gathering->portions[at.recipe->first_portion + i];
        if (text_equal(portion->key, key))
            return portion;
    }
    return NULL;
}

static void set_recipe_measure(struct resolving *resolving, enum recipe_measure measure, struct range scale)
{
    resolving->resolved->measure = measure;
    resolving->resolved->scale = scale;
    resolving->resolved->flags |= RESOLVED_MASS_KNOWN;
}

static void set_recipe_portion(struct resolving *resolving, enum recipe_measure measure, uint32_t end, struct range scale)
{
    set_recipe_measure(resolving, measure, scale);
    derive_note(resolving->derivation, DERIVED_MADE, resolve_words_text(resolving, 0, end), text_of(""), scale, range_exact(1));
}

static void fail_yield(struct resolving *resolving, struct recipe_at at, uint32_t end)
{
    resolve_fail(resolving, FINDING_NO_YIELD, resolve_words_span(resolving, 0, end),
                 GAPS(resolve_words_text(resolving, 0, end), at.recipe->name));
}

static void measure_recipe_unit(struct resolving *resolving, struct recipe_at at, uint32_t end)
{
    const struct recipe *recipe = at.recipe;
    uint32_t place, length;
    const struct library *owner;
    const struct unit *unit = measure_find_unit(resolving, 0, end, &place, &length, &owner);
    struct range size = unit ? measure_size_factor(resolving, unit, 0, end, place, length) : range_exact(1);
    if (measure_refuses_size(resolving, unit, 0, end))
        return;
    derive_times(resolving, DERIVED_SIZE, resolve_words_text(resolving, 0, end), size);
    if (unit)
        derive_unit(resolving, unit);
    bool volume_known = recipe->yields->makes_ml.high > 0 || (recipe->yields->serving_ml.high > 0 && recipe->serves.high > 0);
    if (unit && unit->dimension == DIMENSION_MASS)
        set_recipe_measure(resolving, RECIPE_GRAMS, range_multiply(unit->factor, size));
    else if (unit && unit->dimension == DIMENSION_VOLUME && volume_known) {
        set_recipe_measure(resolving, RECIPE_ML, measure_by_spoon(resolving, unit, range_multiply(unit->factor, size)));
        measure_note_volume(resolving, unit, size, 0, end);
    } else if (unit && unit->dimension == DIMENSION_VOLUME)
        fail_yield(resolving, at, end);
    else
        resolve_fail(resolving, FINDING_UNKNOWN_PORTION, resolve_words_span(resolving, 0, end),
                     GAPS(resolve_words_text(resolving, 0, end), recipe->name));
}

void measure_recipe(struct resolving *resolving, struct recipe_at recipe, uint32_t end)
{
    char key[KEY_BYTES];
    struct text words[4];
    for (uint32_t i = 0; i < end && i < 4; i++)
        words[i] = resolving->words[i].text;
    struct text found = { key, end && end <= 4 ? name_key(words, end, false, key) : 0 };
    const struct recipe_portion *portion = find_recipe_portion(recipe, found);
    if (end == 0)
        resolve_fail(resolving, FINDING_BARE_RECIPE, resolve_whole_span(resolving), GAPS(recipe.recipe->name));
    else if (portion && portion->batch.high > 0)
        set_recipe_portion(resolving, RECIPE_BATCHES, end, portion->batch);
    else if (portion)
        set_recipe_portion(resolving, RECIPE_GRAMS, end, portion->grams);
    else if (text_is(found, "serving") && recipe.recipe->serves.high > 0)
        set_recipe_measure(resolving, RECIPE_SERVINGS, range_exact(1));
    else if (text_is(found, "serving"))
        fail_yield(resolving, recipe, end);
    else if (text_is(found, "batch"))
        set_recipe_measure(resolving, RECIPE_BATCHES, range_exact(1));
    else
        measure_recipe_unit(resolving, recipe, end);
}

void measure_bath(struct resolving *resolving, uint32_t end)
{
    uint32_t at, length;
    const struct library *owner;
    const struct unit *unit = end ? measure_find_unit(resolving, 0, end, &at, &length, &owner) : NULL;
    bool measured = unit && length == end && (unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_VOLUME);
    if (measured)
        derive_unit(resolving, unit);
    if (measured)
        set_recipe_measure(resolving, unit->dimension == DIMENSION_MASS ? RECIPE_GRAMS : RECIPE_ML, measure_by_spoon(resolving, unit, unit->factor));
    else
        resolve_fail(resolving, FINDING_BATH_MEASURE, resolve_whole_span(resolving), GAPS(resolving->rare.bath));
}
