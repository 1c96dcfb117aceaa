/* What a food holds already and a treatment brings again. Which foods and treatments: stdlib/doublings.quern. Lines that
 * double one another are told by judge/doubling.c. */
#include <stdio.h>

#include "model/resolve.h"

static bool knows(struct food_at food, uint32_t nutrient)
{
    return nutrient != NONE_INDEX && food.food->known >> nutrient & 1;
}

static double best_of(struct food_at food, uint32_t nutrient)
{
    return food.library->values[food.food->values + nutrient].best;
}

uint32_t kitchen_other_nutrient(const struct kitchen *kitchen)
{
    char key[KEY_BYTES];
    const struct library *owner;
    const struct rules *rules = kitchen->cautions;
    if (!rules || rules->compare_under == NONE_INDEX)
        rules = library_rules(kitchen->library, (struct text){ key, name_key_of(text_of(USUAL_RULES), false, key) }, &owner);
    return rules ? rules->compare_under : NONE_INDEX;
}

struct text kitchen_print_kind(const struct library *library, struct food_at food, uint32_t other, char *storage, size_t size)
{
    const uint32_t nutrients[] = { library->traced, other };
    size_t used = 0;
    for (uint32_t i = 0; i < COUNT_OF(nutrients); i++) {
        const struct library *owner;
        const struct nutrient *nutrient = knows(food, nutrients[i]) ? library_nutrient_at(library, nutrients[i], &owner) : NULL;
        if (!nutrient || used >= size)
            continue;
        struct text unit = library_text(owner, nutrient->unit), name = library_text(owner, nutrient->name);
        int length = snprintf(storage + used, size - used, "%s%.0f %.*s %.*s", used ? ", " : "", best_of(food, nutrients[i]), (int)unit.length, unit.bytes,
                              (int)name.length, name.bytes);
        used += length > 0 ? (size_t)length : 0;
    }
    return (struct text){ storage, (uint32_t)(used < size ? used : size - 1) };
}

#define MUCH_MORE 1.5                    /* times as much of the other nutrient: less goes without saying */

void kitchen_note_milder(struct findings *findings, struct finding *finding, const struct kitchen *kitchen, struct food_at food)
{
    char key[KEY_BYTES], milder[120], ordinary[120];
    const struct library *library = kitchen->library;
    struct text name = library_text(food.library, food.food->milder);
    struct food_at kind = library_food(library, (struct text){ key, name_key_of(name, false, key) });
    if (!finding || !kind.food || library->traced == NONE_INDEX)
        return;
    uint32_t other = kitchen_other_nutrient(kitchen);
    bool more = knows(kind, other) && !(knows(food, other) && best_of(kind, other) <= MUCH_MORE * best_of(food, other));
    struct text than = kitchen_print_kind(library, food, more ? other : NONE_INDEX, ordinary, sizeof ordinary);
    const struct library *owner;
    const struct nutrient *nutrient = library_nutrient_at(library, library->traced, &owner);
    if (!more && than.length > library_text(owner, nutrient->name).length)
        than.length -= library_text(owner, nutrient->name).length + 1;          /* it is said already */
    finding_note(findings, finding, WORDS_MILDER_KIND,
                 GAPS(name, kitchen_print_kind(library, kind, more ? other : NONE_INDEX, milder, sizeof milder), than));
}

/* Whether some doubling says that a food salted by its maker is not to be treated so. */
static bool is_a_brine(const struct library *library, struct text name)
{
    bool found = false;
    for (; library; library = library->base) {
        for (uint32_t i = 0; i < library->doublings_count; i++)
            found = found || (library->doublings[i].with == NONE_INDEX && text_equal(library_text(library, library->doublings[i].treatment), name));
    }
    return found;
}

void treat_warn_of_doubling(struct resolving *resolving, const struct library *owner, const struct treatment *treatment,
                            bool by_maker, struct text written, struct span span)
{
    char key[KEY_BYTES];
    struct food_at food = resolving->resolved->food;
    struct text name = { key, name_key_of(library_text(owner, treatment->name), false, key) };
    const struct library *of = NULL;
    const struct doubling *doubling = NULL;
    bool doubles = food.food && by_maker && is_a_brine(resolving->library, name);
    while (food.food && !doubles && (doubling = library_doubling(resolving->library, food.food->group, doubling, &of)))
        doubles = doubling->with == NONE_INDEX && text_equal(library_text(of, doubling->treatment), name);
    if (!doubles)
        return;
    struct finding *finding = resolve_say(resolving, FINDING_BRINED_TWICE, span, GAPS(library_text(food.library, food.food->name), written));
    if (!by_maker)
        kitchen_note_milder(resolving->voice.findings, finding, resolving->gathering->kitchen, food);
}
