/* Units and amounts as the library knows them. */
#include <string.h>

#include "import/parts.h"

#define KCAL_PER_GRAM_MOST 10       /* fat, the most, has 9 (the general factors of Atwater, from memory) */

const struct unit *figure_unit(const struct import *import, struct text name)
{
    char key[KEY_BYTES];
    uint32_t length = name_key_of(name, false, key);
    return length ? library_unit(import->library, (struct text){ key, length }, NULL) : NULL;
}

static bool is_energy(const struct library *owner, const struct nutrient *nutrient)
{
    return text_is(library_text(owner, nutrient->unit), "kcal");
}

double figure_factor(const struct import *import, struct text name, uint32_t number)
{
    const struct library *owner;
    const struct nutrient *nutrient = library_nutrient_at(import->library, number, &owner);
    const struct unit *unit = figure_unit(import, name);
    enum dimension wanted = is_energy(owner, nutrient) ? DIMENSION_ENERGY : DIMENSION_MASS;
    if (!unit || unit->dimension != (uint32_t)wanted || nutrient->unit_factor <= 0)
        return 0;
    return unit->factor.best == nutrient->unit_factor ? 1 : number_rounded(unit->factor.best / nutrient->unit_factor);
}

bool figure_fits(const struct import *import, uint32_t number, double amount, double grams)
{
    const struct library *owner;
    const struct nutrient *nutrient = library_nutrient_at(import->library, number, &owner);
    double most = is_energy(owner, nutrient) ? grams * KCAL_PER_GRAM_MOST : grams;
    return amount_compare(amount * nutrient->unit_factor, most) <= 0;
}

struct text figure_group(const struct import *import, struct text name)
{
    char key[KEY_BYTES];
    uint32_t length = name_key_of(name, false, key);
    uint32_t number = length ? library_group(import->library, (struct text){ key, length }) : NONE_INDEX;
    const struct group *group = number == NONE_INDEX ? NULL : library_group_at(import->library, number);
    return group ? library_text(import->library, group->name) : (struct text){ NULL, 0 };
}
