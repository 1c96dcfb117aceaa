/* What a week is held to. A limit is held against the average of the days, as what people eat is; the day that goes
 * furthest is told where the average hides it. */
#include <math.h>
#include <string.h>

#include "judge/judge.h"

struct week_judging {
    const struct kitchen *kitchen;
    struct week_at at;
    struct sums *sums;
    const struct week_sum *week;
    struct week_verdicts *verdicts;
    struct findings *findings;
    enum status status;
};

/* ---- the days ------------------------------------------------------------------------------------------------------ */

struct of_days {
    struct range ends;                      /* lowest low and highest high of their values */
    bool estimated;                         /* one of them is */
    double over, under;                     /* of a ratio: best values, or what is known of them, added up */
    struct week_furthest furthest;
};

/* How far the value lies to the side that the bound forbids: more is worse, whatever the unit. */
static double beyond(const struct verdict *verdict)
{
    double value = verdict->complete ? verdict->value.best : verdict->value.low;
    return verdict->bound->has_most ? value : -value;
}

static bool is_further(const struct verdict *now, const struct week_furthest *before)
{
    static const int worse[] = { [OUTCOME_KEPT] = 0, [OUTCOME_IN_DOUBT] = 1, [OUTCOME_BROKEN] = 2 };
    if (!before->day.recipe || worse[now->outcome] != worse[before->verdict.outcome])
        return !before->day.recipe || worse[now->outcome] > worse[before->verdict.outcome];
    return beyond(now) > beyond(&before->verdict);
}

/* A day that nobody declares may hold anything. */
static void add_unknown_day(struct of_days *days)
{
    days->ends = (struct range){ 0, 0, INFINITY };
}

static void add_day(struct of_days *days, struct recipe_at day, const struct verdict *verdict)
{
    days->ends.low = amount_smaller(days->ends.low, verdict->value.low);
    days->ends.high = amount_larger(days->ends.high, verdict->value.high);
    days->estimated = days->estimated || verdict->estimated;
    if (is_further(verdict, &days->furthest))
        days->furthest = (struct week_furthest){ day, *verdict };
}

static void judge_days(struct week_judging *judging, const struct bound *bound, const struct policy *policy, struct of_days *days)
{
    uint32_t under = bound_under(judging->kitchen->library, bound);
    *days = (struct of_days){ .ends = { INFINITY, 0, 0 } };
    for (uint32_t i = 0; i < judging->week->days && judging->status == STATUS_OK; i++) {
        struct verdict verdict = { .bound = bound, .policy = policy };
        struct recipe_at day = week_day(judging->kitchen, judging->at, i);
        judging->status = day.recipe ? sums_compute(judging->sums, day) : STATUS_OK;
        if (!day.recipe || judging->status != STATUS_OK || !verdict_set_value(judging->sums, &verdict)) {
            add_unknown_day(days);
            continue;
        }
        days->over += judging->sums->total.column[bound->column].best;
        days->under += under == NONE_INDEX ? 0 : judging->sums->total.column[under].best;
        verdict_decide(judging->kitchen, &verdict);
        add_day(days, day, &verdict);
    }
}

/* ---- the average --------------------------------------------------------------------------------------------------- */

/* What all days hold of one column over what they hold of another. It lies between what the days are themselves, which
 * knows which lines are on both sides; and between the ends of both sums. */
static void set_ratio(const struct week_judging *judging, const struct of_days *days, struct verdict *verdict, double factor)
{
    const struct amounts *average = &judging->week->average;
    uint32_t column = verdict->bound->column, under = bound_under(judging->kitchen->library, verdict->bound);
    if (under == NONE_INDEX) {                          /* a library without energy */
        verdict->value = range_of(0, INFINITY, INFINITY);
        return;
    }
    bool above_known;
    struct range above = amounts_widened(average, judging->kitchen->library, column, &above_known), below = average->column[under];
    bool known = above_known && amounts_complete(average, under) && judging->week->days > 0;
    struct range whole = known && below.low > 0 ? range_scale(range_divide(above, below), factor) : range_of(0, INFINITY, INFINITY);
    double high = known ? amount_smaller(days->ends.high, whole.high) : INFINITY;
    double low = judging->week->days ? amount_larger(days->ends.low, whole.low) : 0;
    verdict->value = range_of(low, known && days->under > 0 ? days->over / days->under * factor : INFINITY, high);
    verdict->complete = known && isfinite(high);
}

static void set_average(const struct week_judging *judging, const struct of_days *days, struct verdict *verdict)
{
    const struct library *library = judging->kitchen->library;
    const struct bound *bound = verdict->bound;
    if (bound->over != NONE_INDEX) {
        set_ratio(judging, days, verdict, bound->by_moles ? mole_factor(library, bound->column, bound->over) : 1);
    } else if (bound->basis == PER_ENERGY) {
        set_ratio(judging, days, verdict, bound->per);
    } else {
        verdict->value = amounts_widened(&judging->week->average, library, bound->column, &verdict->complete);
        verdict->complete = verdict->complete && judging->week->days > 0;
    }
}

/* ---- what is told -------------------------------------------------------------------------------------------------- */

static uint32_t days_open(const struct week_judging *judging, const struct bound *bound)
{
    const uint32_t *complete = judging->week->complete, others[] = { bound->over, unseparated_beside(judging->kitchen->library, bound->column) };
    uint32_t fewest = complete[bound->column];
    for (uint32_t i = 0; i < COUNT_OF(others); i++)
        fewest = others[i] != NONE_INDEX && complete[others[i]] < fewest ? complete[others[i]] : fewest;
    return judging->week->days - fewest;
}

static void note_open_days(const struct week_judging *judging, const struct verdict *average, struct finding *finding)
{
    char open[16], all[16];
    uint32_t count = days_open(judging, average->bound);
    if (average->outcome != OUTCOME_IN_DOUBT || !count)
        return;
    snprintf(open, sizeof open, "%u", count);
    snprintf(all, sizeof all, "%u", judging->week->days);
    finding_note(judging->findings, finding, WORDS_WEEK_DAYS_OPEN, GAPS(text_of(open), text_of(all), text_of(count == 1 ? "is" : "are")));
}

static void tell_furthest(const struct week_judging *judging, const struct verdict *average, const struct week_furthest *furthest, struct finding *finding)
{
    char subject[200], value[200], limit[100];
    const struct library *library = judging->kitchen->library;
    const struct verdict *verdict = &furthest->verdict;
    double against = bound_against(verdict);
    struct text is = verdict_value(library, verdict, against, value, sizeof value), name = furthest->day.recipe->name;
    if (finding) {
        finding_note(judging->findings, finding, WORDS_WEEK_FURTHEST, GAPS(name, is));
    } else if (average->outcome == OUTCOME_KEPT && verdict->outcome == OUTCOME_BROKEN) {
        const struct week *week = judging->at.week;
        struct place place = verdict->policy ? (struct place){ week->file, week->title } : verdict->bound->place;
        finding = finding_add(judging->findings, verdict->bound->is_goal ? FINDING_WEEK_DAY_PAST_GOAL : FINDING_WEEK_DAY_OVER, place,
            GAPS(name, verdict_subject(library, verdict, subject, sizeof subject), is, text_of(bound_words(verdict)),
                 bound_limit(library, verdict->bound, against, limit, sizeof limit)));
        if (verdict->policy)
            finding_label(judging->findings, finding, verdict->bound->place, WORDS_POLICY_HERE, GAPS(verdict->policy->name));
    }
}

static void tell(const struct week_judging *judging, const struct verdict *average, const struct week_furthest *furthest)
{
    const struct week *week = judging->at.week;
    struct finding *finding = NULL;
    if (average->outcome != OUTCOME_KEPT) {
        finding = verdict_tell(judging->kitchen->library, average, (struct place){ week->file, week->title }, judging->findings);
        note_open_days(judging, average, finding);
    }
    if (furthest->day.recipe)
        tell_furthest(judging, average, furthest, finding);
}

/* ---- the bounds ---------------------------------------------------------------------------------------------------- */

static bool add_verdict(struct week_judging *judging, const struct verdict *average, const struct week_furthest *furthest)
{
    struct week_verdicts *verdicts = judging->verdicts;
    struct allocator allocator = judging->kitchen->allocator;
    uint32_t count = verdicts->averages.count;
    if (!array_grow(&allocator, &verdicts->averages.at, count, &verdicts->averages.capacity, sizeof *average)
        || !array_grow(&allocator, &verdicts->days, count, &verdicts->days_capacity, sizeof *furthest))
        return false;
    verdicts->averages.at[count] = *average;
    verdicts->days[count] = *furthest;
    verdicts->averages.count++;
    return true;
}

static void judge_bound(struct week_judging *judging, const struct bound *bound, const struct policy *policy)
{
    struct of_days days;
    struct verdict average = { .bound = bound, .policy = policy, .is_average = true };
    judge_days(judging, bound, policy, &days);
    if (judging->status != STATUS_OK)
        return;
    set_average(judging, &days, &average);
    average.estimated = days.estimated;
    verdict_decide(judging->kitchen, &average);
    if (judging->findings)
        tell(judging, &average, &days.furthest);
    if (!add_verdict(judging, &average, &days.furthest))
        judging->status = STATUS_NO_MEMORY;
}

/* What a policy holds per day, by 1,000 kcal, or as a ratio; the rest of it is for dishes and meals. */
static bool is_for_weeks(const struct bound *bound)
{
    return bound->basis == PER_DAY || bound->basis == PER_ENERGY || bound->over != NONE_INDEX;
}

/* True where a day of the week is for somebody whom the policy is not for, which is told in a line. */
static bool is_for_others(const struct week_judging *judging, const struct policy *policy, struct place place)
{
    char words[200];
    for (uint32_t i = 0; policy && i < judging->at.week->day_count; i++) {
        const struct recipe *day = week_day(judging->kitchen, judging->at, i).recipe;
        if (!day || policy_is_for(judging->kitchen, policy, day->eater))
            continue;
        if (judging->findings)
            finding_add(judging->findings, FINDING_POLICY_FOR_OTHERS, place,
                        GAPS(policy->name, policy_person(judging->kitchen, policy, words, sizeof words), text_of("week"), day->eater->written));
        return true;
    }
    return false;
}

static void judge_policy(struct week_judging *judging, const struct follow *follow)
{
    struct gathering *owner;
    const struct policy *policy = kitchen_policy(judging->kitchen, follow->name, &owner);
    if (!policy && judging->findings)
        finding_add(judging->findings, FINDING_UNKNOWN_POLICY, follow->place, GAPS(follow->name));
    if (is_for_others(judging, policy, follow->place))
        return;
    for (uint32_t i = 0; policy && i < policy->bound_count && judging->status == STATUS_OK; i++) {
        if (is_for_weeks(&owner->bounds[policy->first_bound + i]))
            judge_bound(judging, &owner->bounds[policy->first_bound + i], policy);
    }
}

enum status week_judge(const struct kitchen *kitchen, struct week_at at, struct sums *sums, const struct week_sum *week,
                       struct week_verdicts *verdicts, struct findings *findings)
{
    struct week_judging judging = { kitchen, at, sums, week, verdicts, findings, STATUS_OK };
    verdicts->averages.count = 0;
    for (uint32_t i = 0; i < at.week->bound_count && judging.status == STATUS_OK; i++)
        judge_bound(&judging, &at.gathering->bounds[at.week->first_bound + i], NULL);
    for (uint32_t i = 0; i < at.week->follow_count && judging.status == STATUS_OK; i++)
        judge_policy(&judging, &at.gathering->follows[at.week->first_follow + i]);
    if (findings && judging.status == STATUS_OK)
        tell_contradictions(kitchen->library, (struct place){ at.week->file, at.week->title }, &verdicts->averages, findings);
    return judging.status;
}

void week_verdicts_close(struct week_verdicts *verdicts, struct allocator allocator)
{
    verdicts_close(&verdicts->averages, allocator);
    if (verdicts->days)
        allocator.resize(allocator.context, verdicts->days, 0);
    *verdicts = (struct week_verdicts){ 0 };
}

enum status kitchen_judge_weeks(struct kitchen *kitchen, uint64_t columns)
{
    struct sums sums;
    struct week_sum week;
    struct week_verdicts verdicts = { 0 };
    enum status status = STATUS_OK;
    uint32_t energy = energy_column(kitchen->library);
    sums_open(&sums, kitchen->allocator);
    sums_ask(&sums, columns | (energy != NONE_INDEX ? (uint64_t)1 << energy : 0));
    for (uint32_t i = 0; i < kitchen->weeks_count && status == STATUS_OK; i++) {
        struct week_at at = kitchen->weeks[i];
        if (!at.week->bound_count && !at.week->follow_count)
            continue;
        status = week_compute(kitchen, at, &sums, &week);
        if (status == STATUS_OK)
            status = week_judge(kitchen, at, &sums, &week, &verdicts, &at.gathering->findings);
    }
    week_verdicts_close(&verdicts, kitchen->allocator);
    sums_close(&sums);
    return status;
}
