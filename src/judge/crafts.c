/* Ways in which a recipe keeps food: its salt may do more than season then, and is not advised away. */
#include "judge/judge.h"

/* What is written behind the first comma of a line. */
static struct text behind_comma(struct text tail)
{
    while (tail.length && tail.bytes[0] != ',')
        tail = (struct text){ tail.bytes + 1, tail.length - 1 };
    return tail;
}

/* Whether a food of the line does one of the uses; a recipe in it is finished, whatever it did. */
static bool line_is_used(const struct line_amount *amount, uint32_t uses)
{
    const struct resolved *resolved = amount->resolved;
    return resolved && resolved->subject == SUBJECT_FOOD && resolved->food.food && library_is_used(resolved->food, uses);
}

static bool is_used(const struct sums *sums, uint32_t uses)
{
    bool used = false;
    for (uint32_t i = 0; i < sums->line_count && !used; i++)
        used = line_is_used(&sums->lines[i], uses);
    return used;
}

uint32_t recipe_crafts(const struct sums *sums)
{
    const struct recipe *recipe = sums->at.recipe;
    const struct gathering *gathering = sums->at.gathering;
    const struct library *library = gathering->kitchen->library;
    if (recipe->is_day)
        return 0;
    uint32_t crafts = recipe->crafts | library_crafts(library, recipe->name, true);
    for (uint32_t i = recipe->first_part; i < recipe->first_part + recipe->part_count; i++) {
        const struct part *part = &gathering->parts[i];
        crafts |= library_crafts(library, part->name, true);
        crafts |= part->tail == NONE_INDEX ? 0 : library_crafts(library, gathering->tails[part->tail].text, true);
    }
    for (uint32_t i = 0; i < sums->line_count; i++) {
        const struct line *line = sums->lines[i].line;
        crafts |= line->tail == NONE_INDEX ? 0 : library_crafts(library, behind_comma(gathering->tails[line->tail].text), false);
    }
    return crafts;
}

bool recipe_needs_salt(const struct sums *sums)
{
    return is_used(sums, GROUP_PRESERVES) || recipe_crafts(sums) != 0;
}

bool recipe_keeps_by(const struct sums *sums, uint32_t crafts)
{
    return (recipe_crafts(sums) & crafts) && is_used(sums, GROUP_SEASONS | GROUP_PRESERVES);
}
