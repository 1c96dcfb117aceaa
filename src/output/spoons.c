/* Amounts of a nutrient as spoons of a food that the rules name for it. */
#include "output/figures.h"

bool spoon_of(const struct kitchen *kitchen, uint32_t nutrient, uint32_t number, struct spoonful *spoon)
{
    char key[KEY_BYTES];
    uint32_t count = kitchen->rules ? kitchen->rules->equivalent_count : 0;
    for (uint32_t i = 0; i < count; i++) {
        const struct equivalent *equivalent = &kitchen->rules_owner->equivalents[kitchen->rules->first_equivalent + i];
        struct text name = library_text(kitchen->rules_owner, equivalent->food), unit = library_text(kitchen->rules_owner, equivalent->unit);
        struct food_at food = library_food(kitchen->library, (struct text){ key, name_key_of(name, false, key) });
        const struct unit *measure = library_unit(kitchen->library, (struct text){ key, name_key_of(unit, false, key) }, NULL);
        if (equivalent->nutrient != nutrient || !food.food || !measure || number-- > 0)
            continue;
        double grams = 0;
        for (uint32_t j = 0; j < food.food->portion_count; j++) {
            const struct portion *portion = &food.library->portions[food.food->first_portion + j];
            if (portion->volume_ml > 0 && amount_compare(portion->volume_ml, measure->factor.best) == 0)
                grams = portion->grams.best;
        }
        *spoon = (struct spoonful){ food.library->values[food.food->values + nutrient].best / 100 * grams, unit, name };
        return spoon->holds > 0;
    }
    return false;
}
