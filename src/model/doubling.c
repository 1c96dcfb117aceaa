/* What a food holds already and a treatment brings again. Which foods and treatments: stdlib/doublings.quern. Lines that
 * double one another are told by judge/doubling.c. */
#include "model/resolve.h"

void kitchen_note_milder(struct findings *findings, struct finding *finding, const struct library *library, struct food_at food)
{
    char key[KEY_BYTES], milder[32], ordinary[32];
    struct text name = library_text(food.library, food.food->milder);
    struct food_at kind = library_food(library, (struct text){ key, name_key_of(name, false, key) });
    uint32_t traced = library->traced;
    if (!finding || !kind.food || traced == NONE_INDEX)
        return;
    snprintf(milder, sizeof milder, "%.0f", kind.library->values[kind.food->values + traced].best);
    snprintf(ordinary, sizeof ordinary, "%.0f", food.library->values[food.food->values + traced].best);
    finding_note(findings, finding, WORDS_MILDER_KIND, GAPS(name, text_of(milder), text_of(ordinary)));
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
        kitchen_note_milder(resolving->voice.findings, finding, resolving->library, food);
}
