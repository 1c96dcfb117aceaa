/* Which cautions stand beside a recipe, and what they stand for. One too many is a nuisance, one too few may hurt
 * somebody: what cannot be told counts as there. */
#include <stdio.h>
#include <string.h>

#include "judge/judge.h"

#define LINES_LOOKED_AT 100000u         /* recipes inside recipes, line by line; beyond that nobody is asked any more */

struct looking {
    const struct kitchen *kitchen;
    const struct library *owner;        /* of the rules */
    const struct when *when;
    uint32_t looked;
    struct text found;                  /* the name of what was found */
};

/* ---- what is in it ------------------------------------------------------------------------------------------------- */

static bool label_lists(struct looking *looking, struct food_at label)
{
    struct text kind = library_text(looking->owner, looking->when->words);
    for (uint32_t i = 0; i < label.food->listed_count; i++) {
        const struct listed *listed = &label.library->listed[label.food->first_listed + i];
        if (!text_equal(library_text(label.library, listed->kind), kind))
            continue;
        looking->found = library_text(label.library, listed->written);
        return true;
    }
    return false;
}

static bool food_fits(struct looking *looking, struct food_at food)
{
    if (looking->when->kind == WHEN_LISTED)
        return label_lists(looking, food);
    looking->found = library_text(food.library, food.food->name);
    return library_group_distance(looking->kitchen->library, food.food->group, looking->when->number) != NONE_INDEX;
}

static bool recipe_holds(struct looking *looking, struct recipe_at at, uint32_t depth);

static bool subject_fits(struct looking *looking, const struct resolved *resolved, uint32_t depth)
{
    if (!resolved)
        return false;
    if (resolved->subject == SUBJECT_RECIPE && resolved->recipe.recipe)
        return recipe_holds(looking, resolved->recipe, depth + 1);
    return resolved->food.food && food_fits(looking, resolved->food);
}

/* What it is made of, and what that is made of. */
static bool recipe_holds(struct looking *looking, struct recipe_at at, uint32_t depth)
{
    if (depth > LIMIT_NESTING)
        return false;                   /* a cycle, or deeper than any recipe is computed: an error speaks of it */
    for (uint32_t i = 0; i < at.recipe->line_count; i++) {
        struct line line = gathering_line(at.gathering, at.recipe->first_line + i);
        if (++looking->looked > LINES_LOOKED_AT) {
            looking->found = text_of("too much to look through");
            return true;
        }
        if (line.tail != NONE_INDEX && subject_fits(looking, at.gathering->tails[line.tail].resolved, depth))
            return true;
    }
    return false;
}

static bool lines_hold(struct looking *looking, const struct sums *sums)
{
    for (uint32_t i = 0; i < sums->line_count; i++) {
        if (subject_fits(looking, sums->lines[i].resolved, 0))
            return true;
    }
    return false;
}

/* ---- conditions ---------------------------------------------------------------------------------------------------- */

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

static bool is_for(const struct cautious *cautious, struct text person)
{
    for (uint32_t i = 0; i < cautious->person_count; i++) {
        if (text_equal(cautious->persons[i], person))
            return true;
    }
    return false;
}

static bool holds(const struct cautious *cautious, struct looking *looking, char *storage, size_t size)
{
    const struct when *when = looking->when;
    struct text words = library_text(looking->owner, when->words);
    int length = 0;
    if (when->kind == WHEN_GOAL && cautious->goals >> when->number & 1) {
        struct text name = column_name(looking->kitchen->library, when->number);
        length = snprintf(storage, size, "%.*s is a goal here", (int)name.length, name.bytes);
    } else if (when->kind == WHEN_PERSON && is_for(cautious, words)) {
        length = snprintf(storage, size, "it is for: %.*s", (int)words.length, words.bytes);
    } else if ((when->kind == WHEN_FOOD || when->kind == WHEN_LISTED) && lines_hold(looking, cautious->sums)) {
        int cut = looking->found.length > 80 ? 80 : (int)looking->found.length;
        length = snprintf(storage, size, when->kind == WHEN_FOOD ? "%.*s is in it" : "a packet in it lists %.*s", cut, looking->found.bytes);
    }
    looking->found = (struct text){ storage, (uint32_t)length };
    return length > 0;
}

bool caution_stands(const struct cautious *cautious, const struct caution *caution, char *storage, size_t size, struct text *because)
{
    const struct kitchen *kitchen = cautious->kitchen;
    struct looking looking = { .kitchen = kitchen, .owner = kitchen->cautions_owner };
    *because = text_of("");
    for (uint32_t i = 0; i < caution->when_count; i++) {
        looking.when = &kitchen->cautions_owner->whens[caution->first_when + i];
        if (!holds(cautious, &looking, storage, size))
            continue;
        *because = looking.found;
        return true;
    }
    return caution->when_count == 0;
}

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
