/* Which cautions are told beside a recipe, and what they are told for. */
#include <stdio.h>
#include <string.h>

#include "judge/judge.h"

/* ---- what is wished for -------------------------------------------------------------------------------------------- */

/* What more of a nutrient serves: a least amount, a goal, or a ratio that it stands in. */
static uint64_t bounds_goals(const struct gathering *gathering, uint32_t first, uint32_t count)
{
    uint64_t goals = 0;
    for (uint32_t i = 0; i < count; i++) {
        const struct bound *bound = &gathering->bounds[first + i];
        if (bound->has_least || bound->is_goal || bound->over != NONE_INDEX)
            goals |= (uint64_t)1 << bound->column;
        if (bound->over != NONE_INDEX)
            goals |= (uint64_t)1 << bound->over;
    }
    return goals;
}

/* Of a policy that is for who eats. */
static uint64_t policy_goals(const struct kitchen *kitchen, const struct follow *follow, const struct eater *eater)
{
    struct gathering *owner;
    const struct policy *policy = kitchen_policy(kitchen, follow->name, &owner);
    return policy && policy_is_for(kitchen, policy, eater) ? bounds_goals(owner, policy->first_bound, policy->bound_count) : 0;
}

uint64_t recipe_goals(struct recipe_at at)
{
    const struct kitchen *kitchen = at.gathering->kitchen;
    uint64_t goals = bounds_goals(at.gathering, at.recipe->first_bound, at.recipe->bound_count);
    for (uint32_t i = 0; i < at.recipe->follow_count; i++)
        goals |= policy_goals(kitchen, &at.gathering->follows[at.recipe->first_follow + i], at.recipe->eater);
    for (uint32_t i = 0; i < kitchen->follows_count; i++)
        goals |= policy_goals(kitchen, &kitchen->follows[i], at.recipe->eater);
    return goals;
}

uint64_t week_goals(const struct kitchen *kitchen, struct week_at at)
{
    uint64_t goals = bounds_goals(at.gathering, at.week->first_bound, at.week->bound_count);
    for (uint32_t i = 0; i < at.week->follow_count; i++)
        goals |= policy_goals(kitchen, &at.gathering->follows[at.week->first_follow + i], NULL);
    return goals;
}

/* ---- what calls for a caution -------------------------------------------------------------------------------------- */

#define REASON_BYTES 240

/* All that calls for it, each reason once. */
struct reasons {
    char bytes[2 * REASON_BYTES];
    uint32_t length;
};

static bool has_reason(const struct reasons *reasons, struct text reason)
{
    for (uint32_t i = 0; i + reason.length <= reasons->length; i++) {
        if (memcmp(reasons->bytes + i, reason.bytes, reason.length) == 0)
            return true;
    }
    return false;
}

/* The first ones are the most dangerous; what there is no room for is left out. */
static void add_reason(struct reasons *reasons, struct text reason)
{
    struct text between = text_of(reasons->length ? "; " : "");
    if (has_reason(reasons, reason) || reasons->length + between.length + reason.length > sizeof reasons->bytes)
        return;
    memcpy(reasons->bytes + reasons->length, between.bytes, between.length);
    memcpy(reasons->bytes + reasons->length + between.length, reason.bytes, reason.length);
    reasons->length += between.length + reason.length;
}

static void find_reasons(const struct cautious *cautious, const struct caution *caution, struct reasons *reasons)
{
    const struct library *owner = cautious->kitchen->cautions_owner;
    reasons->length = 0;
    for (uint32_t i = 0; i < caution->when_count; i++) {
        char storage[REASON_BYTES];
        struct text reason;
        if (caution_is_met(cautious, owner, &owner->whens[caution->first_when + i], caution->nutrient, storage, sizeof storage, &reason))
            add_reason(reasons, reason);
    }
}

static const struct caution *caution_at(const struct rules *rules, const struct library *owner, uint32_t number)
{
    return rules && number < rules->caution_count ? &owner->cautions[rules->first_caution + number] : NULL;
}

static void give(const struct library *owner, const struct caution *caution, struct text because, caution_receiver *receive, void *context)
{
    receive(context, &(struct caution_told){ library_text(owner, caution->words), library_text(owner, caution->source), because,
                                             library_text(owner, caution->exactly), caution->comes_first && because.length > 0, caution->nutrient });
}

/* Whether a group before this one says the same of its foods. */
static bool is_said_before(const struct library *library, uint32_t number)
{
    struct text hazard = library_text(library, library->groups[number].hazard);
    for (uint32_t i = 0; i < number; i++) {
        if (text_equal(library_text(library, library->groups[i].hazard), hazard))
            return true;
    }
    return false;
}

static void give_hazards(const struct cautious *cautious, caution_receiver *receive, void *context)
{
    for (const struct library *library = cautious->kitchen->library; library; library = library->base) {
        for (uint32_t i = 0; i < library->groups_count; i++) {
            char storage[REASON_BYTES];
            struct text reason;
            const struct group *group = &library->groups[i];
            struct when when = { .kind = WHEN_HAZARD, .words = group->hazard };
            if (group->hazard.length && !is_said_before(library, i) && caution_is_met(cautious, library, &when, NONE_INDEX, storage, sizeof storage, &reason))
                receive(context, &(struct caution_told){ .words = library_text(library, group->hazard), .source = library_text(library, group->hazard_source), .because = reason, .first = true, .nutrient = NONE_INDEX });
        }
    }
}

void cautions_called_for(const struct cautious *cautious, caution_receiver *receive, void *context)
{
    const struct kitchen *kitchen = cautious->kitchen;
    const struct caution *caution;
    give_hazards(cautious, receive, context);
    for (uint32_t i = 0; (caution = caution_at(kitchen->cautions, kitchen->cautions_owner, i)); i++) {
        struct reasons reasons;
        find_reasons(cautious, caution, &reasons);
        if (reasons.length)
            give(kitchen->cautions_owner, caution, (struct text){ reasons.bytes, reasons.length }, receive, context);
    }
}

void cautions_of_all(const struct rules *rules, const struct library *owner, caution_receiver *receive, void *context)
{
    const struct caution *caution;
    for (uint32_t i = 0; (caution = caution_at(rules, owner, i)); i++) {
        if (caution->when_count == 0)
            give(owner, caution, text_of(""), receive, context);
    }
}

void cautions_of_food(const struct library *library, const struct rules *rules, const struct library *owner, struct food_at food,
                      caution_receiver *receive, void *context)
{
    char storage[REASON_BYTES];
    struct text source, name = library_text(food.library, food.food->name), hazard = library_hazard(food, &source);
    int length = snprintf(storage, sizeof storage, "of %.*s", name.length > 200 ? 200 : (int)name.length, name.bytes);
    struct text because = { storage, (uint32_t)length };
    const struct caution *caution;
    if (hazard.length)
        receive(context, &(struct caution_told){ .words = hazard, .source = source, .because = because, .first = true, .nutrient = NONE_INDEX });
    for (uint32_t i = 0; (caution = caution_at(rules, owner, i)); i++) {
        bool fits = false;
        for (uint32_t j = 0; j < caution->when_count; j++)
            fits = fits || caution_fits_food(library, owner, &owner->whens[caution->first_when + j], food);
        if (fits)
            give(owner, caution, because, receive, context);
    }
}

/* ---- of a recipe or day -------------------------------------------------------------------------------------------- */

static void add_person(struct cautious *cautious, struct text word)
{
    if (word.length && cautious->person_count < COUNT_OF(cautious->persons))
        cautious->persons[cautious->person_count++] = word;
}

struct cautious cautious_of(const struct kitchen *kitchen, const struct sums *sums, const struct verdicts *verdicts)
{
    struct cautious cautious = { .kitchen = kitchen, .sums = sums, .goals = recipe_goals(sums->at) };
    const struct published_set *set = &verdicts->published;
    for (uint32_t i = 0; i < verdicts->count; i++) {
        const struct bound *bound = verdicts->at[i].bound;
        if (bound->is_goal && bound->has_least && bound->over == NONE_INDEX)
            cautious.goals |= (uint64_t)1 << bound->column;
    }
    for (uint32_t i = 0; i < set->who.count; i++) {
        add_person(&cautious, library_text(set->who.owners[i], set->who.persons[i]->name));
        add_person(&cautious, library_text(set->who.owners[i], set->who.persons[i]->state));
    }
    if (sums->at.recipe->eater && sums->at.recipe->eater->under_care)
        add_person(&cautious, text_of("care"));
    return cautious;
}

/* ---- in a line ----------------------------------------------------------------------------------------------------- */

struct noting {
    struct findings *findings;
    struct place place;
    bool noted;
};

static void note_first(void *context, const struct caution_told *told)
{
    struct noting *noting = context;
    if (!told->first || noting->noted)
        return;
    finding_note(noting->findings, finding_add(noting->findings, FINDING_TAKE_CARE, noting->place, GAPS(told->because)), WORDS_CAUTION, GAPS(told->words));
    noting->noted = true;
}

void recipe_note_caution(const struct sums *sums, const struct verdicts *verdicts, struct findings *findings)
{
    const struct recipe *recipe = sums->at.recipe;
    struct cautious cautious = cautious_of(sums->at.gathering->kitchen, sums, verdicts);
    cautions_called_for(&cautious, note_first, &(struct noting){ findings, { recipe->file, recipe->title }, false });
}
