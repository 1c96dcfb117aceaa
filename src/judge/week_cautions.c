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

static bool say(struct week_cautions *said, struct allocator allocator, const struct caution_told *told)
{
    if (is_said(said, told->words))
        return true;
    if (!array_grow(&allocator, &said->at, said->count, &said->capacity, sizeof *said->at))
        return false;
    struct week_caution *made = &said->at[said->count++];
    *made = (struct week_caution){ .words = told->words, .source = told->source, .exactly = told->exactly };
    size_t length = told->because.length < sizeof made->because ? told->because.length : sizeof made->because - 1;
    if (length)
        memcpy(made->because, told->because.bytes, length);
    made->because[length] = 0;
    return true;
}

struct saying_on {
    struct week_cautions *said;
    struct allocator allocator;
    bool failed;
};

static void receive(void *context, const struct caution_told *told)
{
    struct saying_on *on = context;
    on->failed = on->failed || !say(on->said, on->allocator, told);
}

/* Those that something calls for, or those that are told of everything. */
static bool say_rules(struct week_cautions *said, const struct cautious *cautious, bool called_for)
{
    struct saying_on on = { said, cautious->kitchen->allocator, false };
    if (called_for)
        cautions_called_for(cautious, receive, &on);
    else
        cautions_of_all(cautious->kitchen->cautions, cautious->kitchen->cautions_owner, receive, &on);
    return !on.failed;
}

enum said_first { SAID_CALLED_FOR, SAID_OF_EATERS, SAID_EVERYWHERE, SAID_KINDS };

static bool say_of_day(struct week_cautions *said, const struct cautious *cautious, const struct recipe *day, const struct verdicts *verdicts,
                       enum said_first kind)
{
    struct eater_caution cautions[EATER_CAUTIONS];
    if (kind != SAID_OF_EATERS)
        return say_rules(said, cautious, kind == SAID_CALLED_FOR);
    uint32_t count = eater_cautions(day, verdicts, cautions);
    for (uint32_t i = 0; i < count; i++) {
        if (!say(said, cautious->kitchen->allocator, &(struct caution_told){ .words = cautions[i].words, .source = cautions[i].source }))
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
