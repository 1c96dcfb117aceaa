/* The second pass over a kitchen, in threads: each resolves and judges what it has gathered itself. */
#include "judge/judge.h"

struct judging_worker {
    struct gathering *gathering;
    enum status status;
};

static void *resolve_all(void *context)
{
    struct judging_worker *worker = context;
    for (uint32_t i = 0; i < worker->gathering->tails_count && worker->status == STATUS_OK; i++)
        worker->status = tail_resolve(worker->gathering, i) ? STATUS_OK : STATUS_NO_MEMORY;
    return NULL;
}

static enum status run_each(struct kitchen *kitchen, void *(*work)(void *))
{
    struct judging_worker workers[LIMIT_JOBS];
    enum status status = STATUS_OK;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        workers[i] = (struct judging_worker){ &kitchen->gatherings[i], STATUS_OK };
    threads_run(work, workers, sizeof *workers, kitchen->gatherings_count);
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        status = status == STATUS_OK ? workers[i].status : status;
    return status;
}

static enum status judge_one(struct gathering *gathering, struct recipe *recipe, struct sums *sums,
                             struct verdicts *verdicts)
{
    enum status status = sums_compute(sums, (struct recipe_at){ gathering, recipe });
    if (status != STATUS_OK)
        return status;
    recipe_speak(sums, &gathering->findings);
    status = recipe_judge(sums, verdicts, &gathering->findings);
    if (status == STATUS_OK)
        recipe_note_measures(sums, verdicts, &gathering->findings);
    recipe_speak_claiming(gathering->kitchen, recipe, &gathering->findings);
    if (status == STATUS_OK && !recipe_is_compared(sums->at))
        status = recipe_speak_claims(sums, NULL, &gathering->findings);
    if (status == STATUS_OK)
        recipe_check_packets(sums, &gathering->findings);
    if (status == STATUS_OK)
        recipe_note_caution(sums, verdicts, &gathering->findings);
    return status;
}

static bool has_eaters(const struct kitchen *kitchen)
{
    bool has = false;
    for (uint32_t i = 0; i < kitchen->recipes_count; i++)
        has = has || (kitchen->recipes[i].recipe->is_day && kitchen->recipes[i].recipe->eater);
    return has;
}

/* A policy may stand in what another thread has gathered. */
static uint64_t bound_columns(const struct kitchen *kitchen)
{
    uint64_t columns = 0;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        columns |= kitchen->gatherings[i].bound_columns
                 | (kitchen->gatherings[i].claims_count ? rules_claim_columns(kitchen->rules_owner, kitchen->rules) : 0);
    bool eaters = has_eaters(kitchen);
    for (const struct library *library = kitchen->library; library; library = library->base) {
        for (uint32_t i = 0; i < library->intake_figures_count; i++)
            columns |= (uint64_t)eaters << library->intake_figures[i].nutrient;
    }
    return columns;
}

static void *judge_all(void *context)
{
    struct judging_worker *worker = context;
    struct gathering *gathering = worker->gathering;
    struct sums sums;
    struct verdicts verdicts = { 0 };
    sums_open(&sums, gathering->kitchen->allocator);
    sums_ask(&sums, bound_columns(gathering->kitchen));
    for (uint32_t i = 0; i < gathering->recipes_count && worker->status == STATUS_OK; i++)
        worker->status = judge_one(gathering, &gathering->recipes[i], &sums, &verdicts);
    sums_close(&sums);
    verdicts_close(&verdicts, gathering->kitchen->allocator);
    return NULL;
}

/* Claims that compare look into another recipe, which another thread may be at work on: they come last, in one. */
static enum status judge_comparing(struct kitchen *kitchen)
{
    enum status status = STATUS_OK;
    struct sums sums, other;
    sums_open(&sums, kitchen->allocator);
    sums_open(&other, kitchen->allocator);
    sums_ask(&sums, bound_columns(kitchen));
    sums_ask(&other, bound_columns(kitchen));
    for (uint32_t i = 0; i < kitchen->recipes_count && status == STATUS_OK; i++) {
        if (!recipe_is_compared(kitchen->recipes[i]))
            continue;
        status = sums_compute(&sums, kitchen->recipes[i]);
        if (status == STATUS_OK)
            status = recipe_speak_claims(&sums, &other, &kitchen->recipes[i].gathering->findings);
    }
    sums_close(&sums);
    sums_close(&other);
    return status;
}

static void check_follows(struct kitchen *kitchen)
{
    struct gathering *owner;
    for (uint32_t i = 0; i < kitchen->follows_count; i++) {
        if (!kitchen_policy(kitchen, kitchen->follows[i].name, &owner))
            finding_add(&kitchen->gatherings[0].findings, FINDING_UNKNOWN_POLICY, kitchen->follows[i].place,
                        GAPS(kitchen->follows[i].name));
    }
}

/* Rules that publish no tolerance widen nothing by it, which is refused instead of done in silence. */
static void choose_tolerance(struct kitchen *kitchen, const struct follow *follow)
{
    const struct library *owner = kitchen->rules_owner;
    kitchen->tolerance = rules_of_tolerance(kitchen->library, kitchen->rules, &owner) != NULL;
    if (!kitchen->tolerance && kitchen->rules)
        finding_add(&kitchen->gatherings[0].findings, FINDING_TOLERANCE_NONE, follow->place,
                    GAPS(follow->name, library_text(kitchen->rules_owner, kitchen->rules->name)));
}

/* Recipes are made from one another, so foods vary, and spoons err, in all of a kitchen or in none of it. */
static void choose_spread(struct kitchen *kitchen)
{
    struct gathering *owner;
    for (uint32_t i = 0; i < kitchen->follows_count; i++) {
        const struct policy *policy = kitchen_policy(kitchen, kitchen->follows[i].name, &owner);
        kitchen->variation = kitchen->variation || (policy && policy->variation);
        if (policy && policy->packets.tolerance)
            choose_tolerance(kitchen, &kitchen->follows[i]);
        kitchen->spoon_error = amount_larger(kitchen->spoon_error, policy ? policy->spoon_error : 0);
    }
}

enum status kitchen_judge(struct kitchen *kitchen)
{
    choose_spread(kitchen);
    enum status status = run_each(kitchen, resolve_all);
    if (status == STATUS_OK)
        status = kitchen_total_sources(kitchen);
    if (status == STATUS_OK)
        status = run_each(kitchen, judge_all);
    if (status == STATUS_OK)
        status = judge_comparing(kitchen);
    if (status == STATUS_OK) {
        check_follows(kitchen);
        kitchen_check_policies(kitchen);
        kitchen_name_weeks(kitchen);
        kitchen_check_packets(kitchen);
        status = kitchen_judge_weeks(kitchen, bound_columns(kitchen));
    }
    if (status == STATUS_OK)
        status = kitchen_grant_wishes(kitchen);
    return status;
}
