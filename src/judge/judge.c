/* Three outcomes, and findings that name what drives them. */
#include <math.h>
#include <string.h>

#include "judge/judge.h"

/* ---- outcomes ------------------------------------------------------------------------------------------------------ */

static enum outcome most_outcome(const struct bound *bound, struct range value, bool complete)
{
    int low = amount_compare(value.low, bound->most), high = amount_compare(value.high, bound->most);
    int loosest = amount_compare(value.low, bound->most + bound->slack);
    if (bound->slack > 0 && loosest <= 0 && low > 0)
        return OUTCOME_IN_DOUBT;
    if (low > 0 || (bound->strict && low == 0))
        return OUTCOME_BROKEN;
    return complete && (high < 0 || (!bound->strict && high == 0)) ? OUTCOME_KEPT : OUTCOME_IN_DOUBT;
}

static enum outcome least_outcome(const struct bound *bound, struct range value, bool complete)
{
    int low = amount_compare(value.low, bound->least), high = amount_compare(value.high, bound->least);
    int loosest = amount_compare(value.high, bound->least - bound->slack);
    if (low > 0 || (!bound->strict && low == 0))
        return OUTCOME_KEPT;
    if (bound->slack > 0 && loosest >= 0)
        return OUTCOME_IN_DOUBT;
    return complete && (high < 0 || (bound->strict && high == 0)) ? OUTCOME_BROKEN : OUTCOME_IN_DOUBT;
}

enum outcome bound_outcome(const struct bound *bound, struct range value, bool complete)
{
    enum outcome most = bound->has_most ? most_outcome(bound, value, complete) : OUTCOME_KEPT;
    enum outcome least = bound->has_least ? least_outcome(bound, value, complete) : OUTCOME_KEPT;
    if (most == OUTCOME_BROKEN || least == OUTCOME_BROKEN)
        return OUTCOME_BROKEN;
    return most == OUTCOME_KEPT && least == OUTCOME_KEPT ? OUTCOME_KEPT : OUTCOME_IN_DOUBT;
}

const char *outcome_name(enum outcome outcome)
{
    static const char *const names[] = { "kept", "broken", "in doubt" };
    return names[outcome];
}

uint32_t energy_column(const struct library *library)
{
    const struct library *owner;
    for (uint32_t i = 0; i < library->nutrient_total; i++) {
        const struct nutrient *nutrient = library_nutrient_at(library, i, &owner);
        if (text_is(library_text(owner, nutrient->unit), "kcal"))
            return i;
    }
    return NONE_INDEX;
}

uint32_t bound_under(const struct library *library, const struct bound *bound)
{
    return bound->over == NONE_INDEX && bound->basis == PER_ENERGY ? energy_column(library) : bound->over;
}

double mole_factor(const struct library *library, uint32_t over, uint32_t under)
{
    double above = library_nutrient_at(library, over, NULL)->mole, below = library_nutrient_at(library, under, NULL)->mole;
    return above > 0 ? below / above : 0;
}

/* ---- values ----------------------------------------------------------------------------------------------------------- */

struct judging {
    const struct sums *sums;
    struct verdicts *verdicts;
    struct findings *findings;
    const struct library *library;
    const struct recipe *recipe;
    const struct amounts *total;            /* of what is judged now: all of it, or one meal */
    struct amounts of_meal;
    const struct part *meal;
    uint32_t first, end;                    /* its lines */
    bool failed;
};

static void ratio_value(const struct judging *judging, struct verdict *verdict, uint32_t over, uint32_t under, double factor)
{
    const struct amounts *total = judging->total;
    bool over_known = amounts_complete(total, over), under_known = amounts_complete(total, under);
    verdict->value = range_scale(ratio_of_lines(judging->sums->lines + judging->first, judging->end - judging->first,
                                                judging->library, over, under, over_known, under_known), factor);
    verdict->complete = over_known && under_known && isfinite(verdict->value.high);
}

static void mass_value(const struct judging *judging, struct verdict *verdict, double per)
{
    bool known;
    const struct bound *bound = verdict->bound;
    const struct amounts *total = judging->total;
    struct range grams = recipe_grams(judging->recipe, total, judging->library, &verdict->estimated, &known);
    if (verdict->estimated) {
        ratio_value(judging, verdict, bound->column, judging->library->mass_column, per);
        return;
    }
    verdict->value = range_scale(range_divide(total->column[bound->column], grams), per);
    verdict->complete = amounts_complete(total, bound->column);
}

/* Of so many millilitres; false when nobody says how much the recipe makes. */
static bool volume_value(const struct judging *judging, struct verdict *verdict, double per)
{
    struct range ml = recipe_ml(judging->recipe);
    if (ml.low > 0)
        verdict->value = range_scale(range_divide(judging->sums->total.column[verdict->bound->column], ml), per);
    return ml.low > 0;
}

static bool reference_value(const struct judging *judging, struct verdict *verdict)
{
    struct reference reference;
    if (!recipe_reference(judging->sums->at.gathering->kitchen, judging->recipe, &reference))
        return false;
    if (reference.ml > 0)
        return volume_value(judging, verdict, reference.ml);
    mass_value(judging, verdict, reference.grams);
    return true;
}

static bool set_own_value(const struct judging *judging, struct verdict *verdict)
{
    const struct bound *bound = verdict->bound;
    struct range total = judging->total->column[bound->column];
    uint32_t energy = energy_column(judging->library);
    if (bound->over != NONE_INDEX) {
        ratio_value(judging, verdict, bound->column, bound->over, bound->by_moles ? mole_factor(judging->library, bound->column, bound->over) : 1);
        return true;
    }
    verdict->complete = amounts_complete(judging->total, bound->column);
    switch (bound->basis) {
    case PER_MASS: mass_value(judging, verdict, bound->per); return true;
    case PER_VOLUME: return volume_value(judging, verdict, bound->per);
    case PER_REFERENCE: return reference_value(judging, verdict);
    case PER_ENERGY:
        if (energy != NONE_INDEX)
            ratio_value(judging, verdict, bound->column, energy, bound->per);
        return energy != NONE_INDEX;
    case PER_RECIPE: verdict->value = total; return !judging->recipe->is_day;
    case PER_DAY:
    case PER_MEAL: verdict->value = total; return judging->recipe->is_day;
    case PER_SERVING:
        if (judging->recipe->serves.low > 0)
            verdict->value = range_divide(total, judging->recipe->serves);
        return judging->recipe->serves.low > 0 && !(verdict->policy && judging->recipe->pieces.length);     /* a loaf is no serving */
    case PER_NOT_COMPUTED: break;
    }
    return false;
}

/* False when the bound cannot be held against this recipe. What cannot be told apart may be of the origin that is bounded. */
static bool set_value(const struct judging *judging, struct verdict *verdict)
{
    struct bound bound = *verdict->bound;
    struct verdict beside = { .bound = &bound };
    if (!set_own_value(judging, verdict))
        return false;
    verdict->estimated = verdict->estimated || judging->sums->estimated;
    bound.column = unseparated_beside(judging->library, bound.column);
    if (bound.column == NONE_INDEX || !set_own_value(judging, &beside))
        return true;
    verdict->value.high += beside.value.high;
    verdict->complete = verdict->complete && beside.complete;
    return true;
}

static void report_verdict(const struct judging *judging, const struct verdict *verdict)
{
    struct place title = { judging->recipe->file, judging->recipe->title };
    if (judging->findings && verdict->outcome != OUTCOME_KEPT)
        verdict_note_causes(judging->sums, verdict, judging->findings, verdict_tell(judging->library, verdict, title, judging->findings));
}

bool verdict_set_value(const struct sums *sums, struct verdict *verdict)
{
    struct judging judging = { .sums = sums, .library = sums->at.gathering->kitchen->library, .recipe = sums->at.recipe, .total = &sums->total,
                               .end = sums->line_count };
    verdict->line_end = sums->line_count;
    return set_value(&judging, verdict);
}

/* An upper limit that is kept even of a dish boiled down as far as the rules say that one may be. */
static bool is_far_below(const struct kitchen *kitchen, const struct verdict *verdict)
{
    const struct bound *bound = verdict->bound;
    double least = kitchen->rules ? kitchen->rules->yield_least : 0;
    bool upper = least > 0 && bound->has_most && !bound->has_least && bound->over == NONE_INDEX && verdict->complete;
    int compared = upper ? amount_compare(verdict->value.high / least, bound->most) : 1;
    return compared < 0 || (compared == 0 && !bound->strict);
}

/* Simmering concentrates: the high end of what nobody weighed is no end, and nothing near it is kept for certain. */
void verdict_decide(const struct kitchen *kitchen, struct verdict *verdict)
{
    verdict->outcome = bound_outcome(verdict->bound, verdict->value, verdict->complete && !verdict->estimated);
    if (verdict->estimated && verdict->outcome != OUTCOME_BROKEN)
        verdict->outcome = is_far_below(kitchen, verdict) ? OUTCOME_KEPT : OUTCOME_IN_DOUBT;
}

/* ---- the bounds of a recipe ---------------------------------------------------------------------------------------------- */

/* Against all of it, or against the meal that is being judged. */
static void judge_here(struct judging *judging, const struct bound *bound, const struct policy *policy,
                       const struct published *published)
{
    struct verdict verdict = { .bound = bound, .policy = policy, .published = published, .meal = judging->meal, .first_line = judging->first,
                               .line_end = judging->end };
    struct verdicts *verdicts = judging->verdicts;
    struct allocator allocator = judging->sums->allocator;
    if (!set_value(judging, &verdict)) {
        /* A policy per serving says nothing of a stock that has no servings. */
        if (!policy && judging->findings)
            finding_add(judging->findings, bound->basis == PER_REFERENCE ? FINDING_BOUND_NEEDS_REFERENCE : FINDING_BOUND_NEEDS_SERVES,
                        bound->place, NO_GAPS);
        return;
    }
    verdict_decide(judging->sums->at.gathering->kitchen, &verdict);
    report_verdict(judging, &verdict);
    if (!array_grow(&allocator, &verdicts->at, verdicts->count, &verdicts->capacity, sizeof verdict)) {
        judging->failed = true;
        return;
    }
    verdicts->at[verdicts->count++] = verdict;
}

static void judge_whole(struct judging *judging)
{
    judging->total = &judging->sums->total;
    judging->meal = NULL;
    judging->first = 0;
    judging->end = judging->sums->line_count;
}

static void judge_bound(struct judging *judging, const struct bound *bound, const struct policy *policy)
{
    const struct recipe *recipe = judging->recipe;
    uint32_t meals = 0;
    if (bound->basis != PER_MEAL && bound->meal == NONE_INDEX) {
        judge_here(judging, bound, policy, NULL);
        return;
    }
    for (uint32_t i = recipe->first_part; i < recipe->first_part + recipe->part_count; i++) {
        const struct part *part = &judging->sums->at.gathering->parts[i];
        if (!part->is_meal || (bound->meal != NONE_INDEX && bound->meal != i))
            continue;
        meals++;
        meal_lines(judging->sums, part, &judging->first, &judging->end);
        meal_total(judging->sums, judging->first, judging->end, &judging->of_meal);
        judging->total = &judging->of_meal;
        judging->meal = part;
        judge_here(judging, bound, policy, NULL);
    }
    judge_whole(judging);
    if (meals == 0 && !policy && judging->findings)
        finding_add(judging->findings, FINDING_DAY_WITHOUT_MEALS, bound->place, NO_GAPS);
}

/* True of a policy for somebody else, which is told in a line. */
static bool is_for_others(const struct judging *judging, const struct policy *policy, struct place place)
{
    char words[200];
    const struct kitchen *kitchen = judging->sums->at.gathering->kitchen;
    const struct recipe *recipe = judging->recipe;
    if (!policy || policy_is_for(kitchen, policy, recipe->eater))
        return false;
    if (judging->findings)
        finding_add(judging->findings, FINDING_POLICY_FOR_OTHERS, place,
                    GAPS(policy->name, policy_person(kitchen, policy, words, sizeof words), text_of(recipe->is_day ? "day" : "recipe"), recipe->eater->written));
    return true;
}

static void judge_policy(struct judging *judging, const struct follow *follow, bool say)
{
    struct gathering *owner;
    const struct policy *policy = kitchen_policy(judging->sums->at.gathering->kitchen, follow->name, &owner);
    if (is_for_others(judging, policy, say ? follow->place : (struct place){ judging->recipe->file, judging->recipe->title }))
        return;
    if (!policy && say && judging->findings)
        finding_add(judging->findings, FINDING_UNKNOWN_POLICY, follow->place, GAPS(follow->name));
    if (policy && policy->variation && say && judging->findings && !judging->sums->at.gathering->kitchen->variation)
        finding_add(judging->findings, FINDING_VARIATION_IN_RECIPE, follow->place, GAPS(follow->name));
    if (policy && policy->spoon_error > judging->sums->at.gathering->kitchen->spoon_error && say && judging->findings)
        finding_add(judging->findings, FINDING_SPOON_ERROR_IN_RECIPE, follow->place, GAPS(follow->name));
    if (policy && policy->packets.tolerance && say && judging->findings && !judging->sums->at.gathering->kitchen->tolerance)
        finding_add(judging->findings, FINDING_TOLERANCE_IN_RECIPE, follow->place, GAPS(follow->name));
    for (uint32_t i = 0; policy && i < policy->bound_count; i++)
        judge_bound(judging, &owner->bounds[policy->first_bound + i], policy);
}

/* Whether the recipe follows this policy by one of its first `count` lines. */
static bool follows_itself(const struct recipe_at at, const struct follow *follow, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        if (text_equal(at.gathering->follows[at.recipe->first_follow + i].name, follow->name))
            return true;
    }
    return false;
}

enum status recipe_judge(const struct sums *sums, struct verdicts *verdicts, struct findings *findings)
{
    struct recipe_at at = sums->at;
    const struct kitchen *kitchen = at.gathering->kitchen;
    struct judging judging = { .sums = sums, .verdicts = verdicts, .findings = findings, .library = kitchen->library,
                               .recipe = at.recipe };
    verdicts->count = 0;
    judge_whole(&judging);
    for (uint32_t i = 0; i < at.recipe->bound_count; i++)
        judge_bound(&judging, &at.gathering->bounds[at.recipe->first_bound + i], NULL);
    for (uint32_t i = 0; i < at.recipe->follow_count; i++) {
        const struct follow *follow = &at.gathering->follows[at.recipe->first_follow + i];
        if (!follows_itself(at, follow, i))
            judge_policy(&judging, follow, true);
    }
    for (uint32_t i = 0; i < kitchen->follows_count; i++) {
        if (!follows_itself(at, &kitchen->follows[i], at.recipe->follow_count))
            judge_policy(&judging, &kitchen->follows[i], false);
    }
    judging.failed = !day_find_published(sums, verdicts, findings) || judging.failed;
    for (uint32_t i = 0; i < verdicts->published.count; i++) {
        const struct published *published = &verdicts->published.at[i];
        if (published->use == PUBLISHED_JUDGED)
            judge_here(&judging, &published->bound, NULL, published);
    }
    if (findings) {
        tell_contradictions(kitchen->library, (struct place){ at.recipe->file, at.recipe->title }, verdicts, findings);
        recipe_check_expectations(sums, findings);
    }
    return judging.failed ? STATUS_NO_MEMORY : STATUS_OK;
}

void verdicts_close(struct verdicts *verdicts, struct allocator allocator)
{
    if (verdicts->at)
        allocator.resize(allocator.context, verdicts->at, 0);
    if (verdicts->published.at)
        allocator.resize(allocator.context, verdicts->published.at, 0);
    *verdicts = (struct verdicts){ 0 };
}
