/* Which lines of a kitchen use the food that is looked up. */
#include "output/lookup.h"

/* The food that a resolved line means, or NULL. */
static const struct food *food_of(struct gathering *gathering, const struct line *line, bool *failed)
{
    if (line->tail == NONE_INDEX)
        return NULL;
    const struct resolved *resolved = tail_resolve(gathering, line->tail);
    *failed = *failed || !resolved;
    return resolved && resolved->subject == SUBJECT_FOOD ? resolved->food.food : NULL;
}

static bool is_unknown(struct gathering *gathering, const struct line *line)
{
    const struct resolved *resolved = line->tail == NONE_INDEX ? NULL : tail_resolve(gathering, line->tail);
    return !resolved || resolved->subject == SUBJECT_NONE;
}

static bool add_use(struct lookup *lookup, struct sources *sources, struct recipe_at at, const struct line *line)
{
    struct arena *arena = &lookup->arena;
    struct text tail = at.gathering->tails[line->tail].text, name = at.recipe->name;
    struct place place = { at.recipe->file, { line->start, line->tail_start + tail.length } };
    struct use *use = arena_take(arena, sizeof *use);
    const char *file = sources_path(sources, place.file);
    if (!use)
        return false;
    use->line = sources_position(sources, place).line;
    struct text written = sources->text.bytes ? span_text(sources->text, place.span) : tail;
    use->file = arena_copy(arena, file, text_of(file).length);
    use->text = (struct text){ arena_copy(arena, written.bytes, written.length), written.length };
    use->recipe = (struct text){ arena_copy(arena, name.bytes, name.length), name.length };
    *lookup->uses_end = use;
    lookup->uses_end = &use->next;
    lookup->use_count++;
    return !arena->failed;
}

static bool add_recipe(struct lookup *lookup, struct sources *sources, struct recipe_at at, const struct food *food)
{
    bool failed = false;
    for (uint32_t i = 0; i < at.recipe->line_count && !failed; i++) {
        struct line line = gathering_line(at.gathering, at.recipe->first_line + i);
        if (food_of(at.gathering, &line, &failed) == food)
            failed = failed || !add_use(lookup, sources, at, &line);
        else
            lookup->unknown_lines += is_unknown(at.gathering, &line);
    }
    return !failed && !sources->failed;
}

/* The food that the words name. Where there are several kitchens, what one of them declares in place of a food of the
 * library is another food. */
static const struct food *food_meant(const struct lookup *lookup, const struct kitchen *kitchen, bool *is_own)
{
    const struct food *own = lookup_named(kitchen->library, lookup->words).food;
    const struct food *shared = lookup_named(kitchen->stdlib, lookup->words).food;
    *is_own = own && !shared;
    return lookup->is_alone || !shared ? own : shared;
}

static enum status add_kitchen(struct lookup *lookup, struct kitchen *kitchen, const struct food *food)
{
    struct sources sources;
    bool good = true;
    sources_open(&sources, kitchen, kitchen->input);
    for (uint32_t i = 0; food && i < kitchen->recipes_count && good; i++) {
        if (kitchen->files[kitchen->recipes[i].recipe->file].requested)
            good = add_recipe(lookup, &sources, kitchen->recipes[i], food);
    }
    sources_close(&sources);
    return good ? STATUS_OK : STATUS_NO_MEMORY;
}

enum status lookup_kitchen(struct telling *telling, struct kitchen *kitchen)
{
    struct lookup *lookup = telling->task;
    bool is_own;
    const struct food *food = food_meant(lookup, kitchen, &is_own);
    if (lookup->was_told)
        return STATUS_OK;
    enum status status = add_kitchen(lookup, kitchen, food);
    if (status != STATUS_OK || !(lookup->is_alone || is_own))
        return status;
    return lookup_tell(lookup, telling, kitchen->library, kitchen->rules, kitchen->rules_owner);
}
