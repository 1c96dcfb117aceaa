/* The cautions of a week: those of each of its days, once. */
#include <string.h>

#include "judge/judge.h"

static bool is_said(const struct week_cautions *said, struct text words)
{
    for (uint32_t i = 0; i < said->count; i++) {
        if (text_equal(said->at[i].words, words))
            return true;
    }
    return false;
}

static bool say(struct week_cautions *said, struct allocator allocator, struct text words, struct text source, struct text because)
{
    if (is_said(said, words))
        return true;
    if (!array_grow(&allocator, &said->at, said->count, &said->capacity, sizeof *said->at))
        return false;
    struct week_caution *made = &said->at[said->count++];
    *made = (struct week_caution){ .words = words, .source = source };
    size_t length = because.length < sizeof made->because ? because.length : sizeof made->because - 1;
    memcpy(made->because, because.bytes, length);
    made->because[length] = 0;
    return true;
}

/* Those that something calls for, or those that stand everywhere. */
static bool say_rules(struct week_cautions *said, const struct cautious *cautious, bool called_for)
{
    const struct kitchen *kitchen = cautious->kitchen;
    for (uint32_t i = 0; kitchen->cautions && i < kitchen->cautions->caution_count; i++) {
        char storage[200];
        struct text because;
        const struct library *owner = kitchen->cautions_owner;
        const struct caution *caution = &owner->cautions[kitchen->cautions->first_caution + i];
        if (!caution_stands(cautious, caution, storage, sizeof storage, &because) || (because.length > 0) != called_for)
            continue;
        if (!say(said, kitchen->allocator, library_text(owner, caution->words), library_text(owner, caution->source), because))
            return false;
    }
    return true;
}

enum said_first { SAID_CALLED_FOR, SAID_EVERYWHERE, SAID_OF_EATERS, SAID_KINDS };

static bool say_of_day(struct week_cautions *said, const struct cautious *cautious, const struct recipe *day, const struct verdicts *verdicts,
                       enum said_first kind)
{
    struct eater_caution cautions[EATER_CAUTIONS];
    if (kind != SAID_OF_EATERS)
        return say_rules(said, cautious, kind == SAID_CALLED_FOR);
    uint32_t count = eater_cautions(day, verdicts, cautions);
    for (uint32_t i = 0; i < count; i++) {
        if (!say(said, cautious->kitchen->allocator, cautions[i].words, cautions[i].source, text_of("")))
            return false;
    }
    return true;
}

static enum status say_day(const struct kitchen *kitchen, struct recipe_at day, uint64_t goals, struct sums *sums, struct verdicts *verdicts,
                           struct week_cautions *said, enum said_first kind)
{
    enum status status = sums_compute(sums, day);
    if (status == STATUS_OK)
        status = recipe_judge(sums, verdicts, NULL);
    if (status != STATUS_OK)
        return status;
    struct cautious cautious = cautious_of(kitchen, sums, verdicts);
    cautious.goals |= goals;
    return say_of_day(said, &cautious, day.recipe, verdicts, kind) ? STATUS_OK : STATUS_NO_MEMORY;
}

enum status week_find_cautions(const struct kitchen *kitchen, struct week_at at, struct sums *sums, struct week_cautions *said)
{
    struct verdicts verdicts = { 0 };
    enum status status = STATUS_OK;
    uint64_t goals = week_goals(kitchen, at);
    *said = (struct week_cautions){ 0 };
    for (uint32_t kind = 0; kind < SAID_KINDS; kind++) {
        for (uint32_t i = 0; i < at.week->day_count && status == STATUS_OK; i++) {
            struct recipe_at day = week_day(kitchen, at, i);
            if (day.recipe)
                status = say_day(kitchen, day, goals, sums, &verdicts, said, (enum said_first)kind);
        }
    }
    verdicts_close(&verdicts, kitchen->allocator);
    return status;
}

void week_cautions_close(struct week_cautions *said, struct allocator allocator)
{
    if (said->at)
        allocator.resize(allocator.context, said->at, 0);
    *said = (struct week_cautions){ 0 };
}
