/* The claims of a recipe: its own, then those of the policies that it and its kitchen follow. */
#include "judge/judge.h"

/* Walks over what is said; false from `visit` ends the walk. */
struct claim_walk {
    struct recipe_at at;
    bool (*visit)(struct claim_walk *walk, const struct claim_said *said, const struct policy *policy);
};

static bool walk_policy(struct claim_walk *walk, struct text name)
{
    struct gathering *owner;
    const struct policy *policy = kitchen_policy(walk->at.gathering->kitchen, name, &owner);
    bool applies = policy && policy_is_for(walk->at.gathering->kitchen, policy, walk->at.recipe->eater);
    for (uint32_t i = 0; applies && i < policy->claim_count; i++) {
        if (!walk->visit(walk, &owner->claims[policy->first_claim + i], policy))
            return false;
    }
    return true;
}

static bool follows_before(const struct claim_walk *walk, struct text name, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        if (text_equal(walk->at.gathering->follows[walk->at.recipe->first_follow + i].name, name))
            return true;
    }
    return false;
}

static bool walk_claims(struct claim_walk *walk)
{
    const struct recipe *recipe = walk->at.recipe;
    const struct gathering *gathering = walk->at.gathering;
    const struct kitchen *kitchen = gathering->kitchen;
    if (recipe->is_day)
        return true;                                    /* claims are of foods, whatever a day follows */
    for (uint32_t i = 0; i < recipe->claim_count; i++) {
        if (!walk->visit(walk, &gathering->claims[recipe->first_claim + i], NULL))
            return false;
    }
    for (uint32_t i = 0; i < recipe->follow_count; i++) {
        struct text name = gathering->follows[recipe->first_follow + i].name;
        if (!follows_before(walk, name, i) && !walk_policy(walk, name))
            return false;
    }
    for (uint32_t i = 0; i < kitchen->follows_count; i++) {
        if (!follows_before(walk, kitchen->follows[i].name, recipe->follow_count) && !walk_policy(walk, kitchen->follows[i].name))
            return false;
    }
    return true;
}

static bool is_not_compared(struct claim_walk *walk, const struct claim_said *said, const struct policy *policy)
{
    (void)walk;
    (void)policy;
    return said->compared.length == 0;
}

static bool is_none(struct claim_walk *walk, const struct claim_said *said, const struct policy *policy)
{
    (void)walk;
    (void)said;
    (void)policy;
    return false;
}

bool recipe_is_compared(struct recipe_at at)
{
    struct claim_walk walk = { at, is_not_compared };
    return !walk_claims(&walk);
}

bool recipe_has_claims(struct recipe_at at)
{
    struct claim_walk walk = { at, is_none };
    return !walk_claims(&walk);
}

/* ---- judging what is said ---- */

struct judging_walk {
    struct claim_walk walk;             /* first */
    const struct sums *sums;
    struct sums *other;
    claim_receiver *receive;
    void *context;
    enum status status;
    bool some;                          /* one of them is a claim of the rules */
};

static bool judge_said(struct claim_walk *walk, const struct claim_said *said, const struct policy *policy)
{
    struct judging_walk *judging = (struct judging_walk *)walk;
    const struct kitchen *kitchen = walk->at.gathering->kitchen;
    struct claim_grounds grounds = { .count = 0, .outcome = OUTCOME_BROKEN };
    struct claim_case at = { .sums = judging->sums, .footnote = said->footnote };
    struct recipe recipe;
    struct yields yields;
    struct claim_other compared = claim_find_other(kitchen, said);
    const struct claim *claim = rules_claim_said(kitchen->rules_owner, kitchen->rules, said->name, &at.share);
    struct claim_told told = { said, policy, claim, &grounds, judging->sums };
    if (judging->other && (compared.recipe.recipe || compared.food.food)) {
        judging->status = claim_set_other(judging->other, walk->at.gathering, said, compared, &recipe, &yields);
        at.compared = judging->other;
    }
    if (claim && judging->status == STATUS_OK)
        judging->status = claim_judge(&at, claim, &grounds);
    judging->some = judging->some || claim;
    if (judging->status == STATUS_OK)
        judging->receive(judging->context, &told);
    claim_grounds_close(&grounds, kitchen->allocator);
    return judging->status == STATUS_OK;
}

static enum status give_of_use(const struct sums *sums, uint64_t uses, claim_receiver *receive, void *context)
{
    const struct kitchen *kitchen = sums->at.gathering->kitchen;
    struct claim_grounds grounds = { .count = 0 };
    enum status status = STATUS_OK;
    for (uint32_t i = 0; kitchen->rules && i < kitchen->rules->claim_count && status == STATUS_OK; i++) {
        struct claim_case at = { .sums = sums };
        const struct claim *claim = &kitchen->rules_owner->claims[kitchen->rules->first_claim + i];
        if (!(uses >> claim->use & 1))
            continue;
        status = claim_judge(&at, claim, &grounds);
        struct claim_told told = { NULL, NULL, claim, &grounds, sums };
        if (status == STATUS_OK)
            receive(context, &told);
    }
    claim_grounds_close(&grounds, kitchen->allocator);
    return status;
}

enum status recipe_claims(const struct sums *sums, struct sums *other, claim_receiver *receive, void *context)
{
    struct judging_walk judging = { { sums->at, judge_said }, sums, other, receive, context, STATUS_OK, false };
    walk_claims(&judging.walk);
    if (judging.status == STATUS_OK && judging.some)
        judging.status = give_of_use(sums, 1u << CLAIM_DISCLOSED, receive, context);
    return judging.status;
}

enum status recipe_could_claim(const struct sums *sums, claim_receiver *receive, void *context)
{
    return give_of_use(sums, 1u << CLAIM_SAID | 1u << CLAIM_MARKED, receive, context);
}
