/* What a claim is compared to: a recipe, a label or a food, and what is told where it is none of these. */
#include "judge/judge.h"

struct claim_other claim_find_other(const struct kitchen *kitchen, const struct claim_said *said)
{
    char key[KEY_BYTES], ordered[KEY_BYTES];
    struct text set = { key, name_key_of(said->compared, false, key) };
    struct text row = { ordered, name_key_of(said->compared, true, ordered) };
    struct claim_other other = { { NULL, NULL }, { NULL, NULL } };
    if (!said->compared.length)
        return other;
    if (said->compared_bare) {
        other.food = library_food(kitchen->library, row);
        other.food = other.food.food ? other.food : library_food(kitchen->library, set);
        return other;
    }
    other.recipe = kitchen_recipe(kitchen, said->compared);
    if (other.recipe.recipe && other.recipe.recipe->is_day)
        other.recipe = (struct recipe_at){ NULL, NULL };
    if (!other.recipe.recipe)
        other.food = library_label(kitchen->library, row);
    return other;
}

/* A label weighs what its serving does, a food is taken by 100 g; nothing of either is an estimate. */
static void describe_food(struct food_at at, struct text name, struct recipe *recipe, struct yields *yields)
{
    const struct food *food = at.food;
    *yields = (struct yields){ .makes_grams = range_exact(100) };
    *recipe = (struct recipe){ .name = name, .yields = yields };
    if (food->basis == FOOD_PER_SERVING) {
        recipe->serves = range_exact(1);
        *yields = (struct yields){ .makes_grams = food->serving_grams, .makes_ml = food->serving_ml };
    } else if (food->density.high > 0) {
        yields->makes_ml = range_divide(range_exact(100), food->density);
    }
}

enum status claim_set_other(struct sums *sums, struct gathering *gathering, const struct claim_said *said, struct claim_other other,
                            struct recipe *recipe, struct yields *yields)
{
    if (other.recipe.recipe)
        return sums_compute(sums, other.recipe);
    describe_food(other.food, said->compared, recipe, yields);
    return sums_set_food(sums, (struct recipe_at){ gathering, recipe }, other.food);
}

/* ---- what is none of them ---- */

static void offer_foods(const struct kitchen *kitchen, const struct claim_said *said, struct place place, struct findings *findings, struct finding *finding)
{
    struct near_name near[5];
    uint32_t count = library_near(kitchen->library, 1u << SPACE_FOOD, said->compared, near, COUNT_OF(near));
    for (uint32_t i = 0; i < count; i++) {
        struct text name = library_text(near[i].library, near[i].name->written);
        finding_note(findings, finding, WORDS_NEAR_NAME, GAPS(name));
        finding_fix(findings, finding, place, name, WORDS_FIX_NAME, GAPS(name));
    }
}

static void tell_no_food(const struct kitchen *kitchen, const struct claim_said *said, struct place place, struct findings *findings)
{
    char key[KEY_BYTES];
    const struct shelf *shelf;
    const struct library *owner = library_shelf(kitchen->library, (struct text){ key, name_key_of(said->compared, false, key) }, &shelf).library;
    struct finding *finding = finding_add(findings, shelf ? FINDING_CHOOSE_KIND : FINDING_UNKNOWN_FOOD, place, GAPS(said->compared));
    if (shelf)
        kitchen_note_kinds(kitchen, owner, shelf, findings, finding);
    else
        offer_foods(kitchen, said, place, findings, finding);
}

void claim_tell_no_other(const struct kitchen *kitchen, const struct claim_said *said, struct place place, struct findings *findings)
{
    struct claim_said bare = *said;
    if (said->compared_bare) {
        tell_no_food(kitchen, said, place, findings);
        return;
    }
    struct finding *finding = finding_add(findings, FINDING_UNKNOWN_RECIPE, place, GAPS(said->compared));
    bare.compared_bare = true;
    if (claim_find_other(kitchen, &bare).food.food)
        finding_note(findings, finding, WORDS_CLAIM_COMPARED_FOOD, GAPS(said->compared));
    kitchen_near_recipes(kitchen, findings, finding, said->compared, place.file, place.span, 0);
}
