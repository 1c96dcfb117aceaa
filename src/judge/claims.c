/* Whether a claim holds: each condition that concerns the recipe is looked at, and the worst decides. */
#include <math.h>

#include "judge/judge.h"
#include "model/visited.h"


struct judging {
    const struct claim_case *at;
    const struct kitchen *kitchen;
    const struct library *owner;
    const struct recipe *recipe;        /* whose kind and reference amount hold */
    uint32_t kind;
    uint32_t also;                      /* the kind that it may be instead; or NONE_INDEX */
    struct reference reference;
    bool has_reference;
    struct claim_grounds *grounds;
    uint32_t depth;
    bool concerned;                     /* some condition that decides is for what the recipe counts as */
    enum status status;
};

static enum status judge_claim(const struct claim_case *at, const struct claim *claim, struct claim_grounds *grounds, uint32_t depth);

const char *claim_outcome_name(enum outcome outcome)
{
    static const char *const names[] = { "proved", "refused", "in doubt" };
    return names[outcome];
}

struct text claim_source(const struct library *owner, const struct claim *claim, const struct claim_ground *ground)
{
    struct text own = ground && ground->condition ? library_text(owner, ground->condition->source) : (struct text){ "", 0 };
    return own.length ? own : library_text(owner, claim->source);
}

void claim_grounds_close(struct claim_grounds *grounds, struct allocator allocator)
{
    if (grounds->at)
        allocator.resize(allocator.context, grounds->at, 0);
    *grounds = (struct claim_grounds){ .outcome = OUTCOME_IN_DOUBT };
}

#define GROUNDS_OF_KIND 2u              /* that it counts as what it is not like, and that the claim is not defined for that */

/* Each condition gives one ground at most. */
static bool make_room(struct claim_grounds *grounds, struct allocator allocator, uint32_t condition_count)
{
    uint32_t wanted = condition_count + GROUNDS_OF_KIND;
    if (wanted <= grounds->capacity)
        return true;
    struct claim_ground *at = allocator.resize(allocator.context, grounds->at, wanted * sizeof *at);
    if (!at)
        return false;
    grounds->at = at;
    grounds->capacity = wanted;
    return true;
}

static struct claim_ground *add_ground(struct judging *judging, const struct condition *condition, enum ground_why why, enum outcome outcome)
{
    struct claim_grounds *grounds = judging->grounds;
    if (outcome == OUTCOME_BROKEN || (outcome == OUTCOME_IN_DOUBT && grounds->outcome == OUTCOME_KEPT))
        grounds->outcome = outcome;
    struct claim_ground *ground = &grounds->at[grounds->count++];
    *ground = (struct claim_ground){ .why = why, .condition = condition, .outcome = outcome,
                                     .words = condition ? library_text(judging->owner, condition->words) : (struct text){ "", 0 } };
    return ground;
}

/* ---- amounts ---------------------------------------------------------------------------------------------------------- */

static struct bound bound_of(const struct judging *judging, const struct condition *condition)
{
    const struct library *library = judging->kitchen->library;
    struct bound bound = { .column = condition->column, .over = NONE_INDEX, .basis = (enum basis)condition->basis, .per = condition->per,
                           .has_most = condition->flags & CONDITION_HAS_MOST, .has_least = condition->flags & CONDITION_HAS_LEAST,
                           .strict = condition->flags & CONDITION_STRICT, .most = condition->most, .least = condition->least,
                           .origin = ORIGIN_COUNT, .divisor = 1 };
    if (condition->column >= library->nutrient_total)
        bound.origin = (uint8_t)(condition->column - library->origin_column);
    if (judging->at->as && bound.basis == PER_REFERENCE && judging->has_reference) {
        bound.basis = judging->reference.ml > 0 ? PER_VOLUME : PER_MASS;
        bound.per = judging->reference.ml > 0 ? judging->reference.ml : judging->reference.grams;
    }
    return bound;
}

static void judge_limit(struct judging *judging, const struct condition *condition)
{
    struct claim_ground *ground = add_ground(judging, condition, GROUND_AMOUNT, OUTCOME_KEPT);
    ground->bound = bound_of(judging, condition);
    ground->verdict = (struct verdict){ .bound = &ground->bound };
    if (!verdict_set_value(judging->at->sums, &ground->verdict)) {
        ground->why = condition->basis == PER_SERVING ? GROUND_NO_SERVES
                    : condition->basis == PER_REFERENCE && !judging->has_reference ? GROUND_NO_REFERENCE : GROUND_NO_VOLUME;
        ground->outcome = OUTCOME_IN_DOUBT;
    } else {
        struct verdict *verdict = &ground->verdict;
        verdict_decide(judging->kitchen, verdict);
        ground->outcome = verdict->outcome;
    }
    if (ground->outcome != OUTCOME_KEPT && judging->grounds->outcome != OUTCOME_BROKEN)
        judging->grounds->outcome = ground->outcome;
}

/* Both amounts that are compared. What is added alone is no amount of its own. */
static void set_both(const struct judging *judging, const struct condition *condition, struct claim_ground *ground)
{
    struct verdict *own = &ground->verdict, *other = &ground->other;
    ground->bound = bound_of(judging, condition);
    if (condition->basis == PER_REFERENCE) {
        ground->bound.basis = judging->reference.ml > 0 ? PER_VOLUME : PER_MASS;
        ground->bound.per = judging->reference.ml > 0 ? judging->reference.ml : judging->reference.grams;
    }
    own->bound = other->bound = &ground->bound;
    bool both = verdict_set_value(judging->at->sums, own) && verdict_set_value(judging->at->compared, other);
    if (!both || condition->flags & CONDITION_ADDED)
        own->bound = other->bound = NULL;
}

static void judge_less(struct judging *judging, const struct condition *condition)
{
    bool estimated;
    struct range less;
    double share = condition->flags & CONDITION_CLAIMED_SHARE ? judging->at->share : condition->least;
    if (!judging->at->compared) {
        add_ground(judging, condition, GROUND_NO_COMPARED, OUTCOME_IN_DOUBT);
        return;
    }
    if (!compare_less(judging->at->sums, judging->at->compared, &judging->reference, condition, &less, &estimated)) {
        bool reference = condition->basis == PER_REFERENCE && !judging->has_reference;
        add_ground(judging, condition, condition->basis == PER_SERVING ? GROUND_NO_SERVES : reference ? GROUND_NO_REFERENCE : GROUND_NO_VOLUME, OUTCOME_IN_DOUBT);
        return;
    }
    enum outcome outcome = amount_compare(1 - less.low, 1 - share) <= 0 ? OUTCOME_KEPT
                         : amount_compare(1 - less.high, 1 - share) > 0 ? OUTCOME_BROKEN : OUTCOME_IN_DOUBT;
    if (estimated && outcome == OUTCOME_KEPT)
        outcome = OUTCOME_IN_DOUBT;
    struct claim_ground *ground = add_ground(judging, condition, GROUND_LESS, outcome);
    ground->less = less;
    ground->share = share;
    set_both(judging, condition, ground);
}

/* ---- ingredients ---------------------------------------------------------------------------------------------------------- */

static bool is_within(const struct judging *judging, const struct condition *condition, uint32_t group)
{
    for (uint32_t i = 0; i < condition->group_count; i++) {
        if (library_group_distance(judging->kitchen->library, group, judging->owner->references[condition->first_group + i]) != NONE_INDEX)
            return true;
    }
    return false;
}

/* A salt without any of the traced nutrient, such as potassium chloride, is not what is looked for; nor is what only impurity may
 * bring. */
static bool holds_none(const struct resolved *resolved, const struct library *library)
{
    return library->traced != NONE_INDEX && resolved->values && !(resolved->unknown >> library->traced & 1)
        && resolved->values[library->traced].best <= 0;
}

/* Whether cooks add what the group holds, by its own word or that of a group around it. */
static bool is_added_by_cook(const struct library *library, uint32_t number)
{
    while (number != NONE_INDEX) {
        const struct group *group = library_group_at(library, number);
        if (group->origin != ORIGIN_COUNT)
            return group->origin == ORIGIN_COOK;
        number = group->parent;
    }
    return false;
}

/* Salt by another way than by a food to salt with: a treatment brings it, or the food says by itself that a cook added it. */
static bool is_salted(const struct resolved *resolved, const struct library *library)
{
    uint32_t cook = library->origin_column + ORIGIN_COOK;
    bool own = resolved->values && !(resolved->unknown >> cook & 1) && resolved->values[cook].best > 0;
    return resolved_is_salted_by_cook(resolved, library) || (own && !is_added_by_cook(library, resolved->food.food->group));
}

/* Whether what cooks add is among the groups: then salt that comes in another way is meant, too. */
static bool forbids_salt(const struct judging *judging, const struct condition *condition)
{
    bool forbids = false;
    for (uint32_t i = 0; i < condition->group_count && !forbids; i++)
        forbids = is_added_by_cook(judging->kitchen->library, judging->owner->references[condition->first_group + i]);
    return forbids;
}

/* The worst that the lines of a recipe, and of those within it, say of the groups. All tails were resolved before. A recipe that
 * was met before has said its worst. */
static enum outcome find_ingredient(const struct judging *judging, struct recipe_at at, const struct condition *condition, struct text *name, struct visited *visited)
{
    bool first;
    enum outcome worst = OUTCOME_KEPT;
    if (visited_number(visited, at.recipe, &first) == NONE_INDEX || !first)
        return OUTCOME_KEPT;
    for (uint32_t i = 0; i < at.recipe->line_count && worst != OUTCOME_BROKEN; i++) {
        struct line line = gathering_line(at.gathering, at.recipe->first_line + i);
        const struct resolved *resolved = line.tail == NONE_INDEX ? NULL : at.gathering->tails[line.tail].resolved;
        enum outcome found = OUTCOME_KEPT;
        struct text found_name = text_of("a line that a finding speaks of");
        if (!resolved || resolved->flags & RESOLVED_BAD) {
            found = OUTCOME_IN_DOUBT;
        } else if (resolved->subject == SUBJECT_RECIPE && resolved->recipe.recipe) {
            found = find_ingredient(judging, resolved->recipe, condition, &found_name, visited);
        } else if (resolved->food.food && resolved->food.food->flags & FOOD_IS_LABEL) {
            found = OUTCOME_IN_DOUBT;                   /* what a packet holds besides its name nobody has said */
            found_name = library_text(resolved->food.library, resolved->food.food->name);
        } else if (resolved->food.food && !holds_none(resolved, judging->kitchen->library) && is_within(judging, condition, resolved->food.food->group)) {
            found = resolved->flags & RESOLVED_OPTIONAL || line.low <= 0 ? OUTCOME_IN_DOUBT : OUTCOME_BROKEN;
            found_name = library_text(resolved->food.library, resolved->food.food->name);
        } else if (resolved->food.food && is_salted(resolved, judging->kitchen->library) && forbids_salt(judging, condition)) {
            found = resolved->flags & RESOLVED_OPTIONAL || line.low <= 0 ? OUTCOME_IN_DOUBT : OUTCOME_BROKEN;
            found_name = library_text(resolved->food.library, resolved->food.food->name);
        }
        if (found == OUTCOME_BROKEN || (found == OUTCOME_IN_DOUBT && worst == OUTCOME_KEPT)) {
            worst = found;
            *name = found_name;
        }
    }
    return worst;
}

static void judge_without(struct judging *judging, const struct condition *condition)
{
    struct text name = { "", 0 };
    struct visited visited;
    visited_open(&visited, judging->kitchen->allocator);
    enum outcome outcome = find_ingredient(judging, judging->at->sums->at, condition, &name, &visited);
    judging->status = visited.failed ? STATUS_NO_MEMORY : judging->status;
    visited_close(&visited);
    bool footnote = condition->words.length && judging->at->footnote;
    struct claim_ground *ground = add_ground(judging, condition, outcome != OUTCOME_KEPT && footnote ? GROUND_NOTE : GROUND_INGREDIENT,
                                             footnote ? OUTCOME_KEPT : outcome);
    if (ground->why == GROUND_INGREDIENT)
        ground->words = name;
}

/* ---- other claims ---------------------------------------------------------------------------------------------------------- */

static enum outcome outcome_of(struct judging *judging, struct text name, const struct sums *sums)
{
    struct claim_grounds grounds = { .outcome = OUTCOME_IN_DOUBT };
    struct claim_case at = *judging->at;
    const struct claim *claim = rules_claim(judging->owner, judging->kitchen->rules, name, &at.share);
    at.sums = sums;
    if (sums != judging->at->sums) {
        at.as = judging->recipe;                        /* it is a food of the same sort */
        at.compared = NULL;
    }
    if (!claim || judging->depth == LIMIT_CLAIM_DEPTH)
        return OUTCOME_IN_DOUBT;
    enum status status = judge_claim(&at, claim, &grounds, judging->depth + 1);
    enum outcome outcome = grounds.outcome;
    judging->status = status == STATUS_OK ? judging->status : status;
    claim_grounds_close(&grounds, judging->kitchen->allocator);
    return outcome;
}

static void judge_other(struct judging *judging, const struct condition *condition)
{
    struct text name = library_text(judging->owner, condition->claim);
    add_ground(judging, condition, GROUND_CLAIM, outcome_of(judging, name, judging->at->sums))->words = name;
}

/* What it is compared to must not meet the claim itself, or must. */
static void judge_compared(struct judging *judging, const struct condition *condition)
{
    static const enum outcome turned[] = { [OUTCOME_KEPT] = OUTCOME_BROKEN, [OUTCOME_BROKEN] = OUTCOME_KEPT, [OUTCOME_IN_DOUBT] = OUTCOME_IN_DOUBT };
    struct text name = library_text(judging->owner, condition->claim);
    if (!judging->at->compared)
        return;                                         /* another ground says that it is missing */
    enum outcome outcome = outcome_of(judging, name, judging->at->compared);
    add_ground(judging, condition, GROUND_COMPARED, condition->kind == CONDITION_COMPARED_MEETS ? outcome : turned[outcome])->words = name;
}

/* ---- all conditions ---- */

enum concern { CONCERN_NO, CONCERN_MAYBE, CONCERN_YES };

/* Whether a serving is larger than so much; nobody can tell where it was not measured. */
static enum concern larger_than(struct range amount, struct range serves, double size, bool known)
{
    if (!known || amount.low <= 0 || serves.low <= 0)
        return CONCERN_MAYBE;
    struct range serving = range_divide(amount, serves);
    return amount_compare(serving.low, size) > 0 ? CONCERN_YES : amount_compare(serving.high, size) > 0 ? CONCERN_MAYBE : CONCERN_NO;
}

static enum concern serving_concern(const struct judging *judging, const struct claim_kind *size)
{
    bool estimated, known;
    const struct sums *sums = judging->at->sums;
    const struct recipe *recipe = sums->at.recipe;
    if (size->serving_ml > 0)
        return larger_than(recipe_ml(recipe), recipe->serves, size->serving_ml, true);
    struct range grams = recipe_grams(recipe, &sums->total, judging->kitchen->library, &estimated, &known);
    return larger_than(grams, recipe->serves, size->serving_grams, known && !estimated);
}

static const struct claim_kind *kind_at(const struct judging *judging, uint32_t number)
{
    const struct rules *rules = judging->kitchen->rules;
    return number < rules->claim_kind_count ? &judging->owner->claim_kinds[rules->first_claim_kind + number] : NULL;
}

/* Whether a condition is for what the recipe counts as, were it of this kind; a size needs the reference amount, or the serving. */
static enum concern concerns_kind(const struct judging *judging, const struct condition *condition, uint32_t kind)
{
    if (condition->claim_kind == NONE_INDEX || condition->claim_kind == kind)
        return CONCERN_YES;
    const struct claim_kind *size = kind_at(judging, condition->claim_kind);
    const struct reference *reference = &judging->reference;
    if (!size || size->within == NONE_INDEX || size->within != kind)
        return CONCERN_NO;
    if (size->serving_grams > 0 || size->serving_ml > 0)
        return serving_concern(judging, size);
    bool small = (reference->grams > 0 && size->grams > 0 && amount_compare(reference->grams, size->grams) <= 0)
              || (reference->ml > 0 && size->ml > 0 && amount_compare(reference->ml, size->ml) <= 0);
    return small ? CONCERN_YES : CONCERN_NO;
}

static enum concern concerns(const struct judging *judging, const struct condition *condition)
{
    enum concern concern = concerns_kind(judging, condition, judging->kind);
    bool instead = concern == CONCERN_NO && judging->also != NONE_INDEX;
    return instead && concerns_kind(judging, condition, judging->also) != CONCERN_NO ? CONCERN_MAYBE : concern;
}

static void judge_condition(struct judging *judging, const struct condition *condition)
{
    struct text claim = library_text(judging->owner, condition->claim);
    judging->concerned = judging->concerned || condition->kind < CONDITION_NOTE;
    switch ((enum condition_kind)condition->kind) {
    case CONDITION_LIMIT: judge_limit(judging, condition); break;
    case CONDITION_LESS: judge_less(judging, condition); break;
    case CONDITION_WITHOUT: judge_without(judging, condition); break;
    case CONDITION_NEEDS: judge_other(judging, condition); break;
    case CONDITION_COMPARED_MEETS:
    case CONDITION_COMPARED_FAILS: judge_compared(judging, condition); break;
    case CONDITION_NEVER: add_ground(judging, condition, GROUND_NEVER, OUTCOME_BROKEN); break;
    case CONDITION_UNCHECKED: add_ground(judging, condition, GROUND_UNCHECKED, OUTCOME_IN_DOUBT); break;
    case CONDITION_NOTE: add_ground(judging, condition, GROUND_NOTE, OUTCOME_KEPT); break;
    case CONDITION_NOTE_UNLESS:
        if (outcome_of(judging, claim, judging->at->sums) != OUTCOME_KEPT)
            add_ground(judging, condition, GROUND_NOTE, OUTCOME_KEPT);
        break;
    case CONDITION_KINDS: break;
    }
}

/* What may not concern the recipe at all can refuse nothing. */
static void doubt_ground(struct judging *judging)
{
    struct claim_grounds *grounds = judging->grounds;
    struct claim_ground *last = &grounds->at[grounds->count - 1];
    if (last->outcome != OUTCOME_BROKEN)
        return;
    last->outcome = last->verdict.outcome = OUTCOME_IN_DOUBT;
    grounds->outcome = OUTCOME_KEPT;
    for (uint32_t i = 0; i < grounds->count; i++) {
        if (grounds->at[i].outcome == OUTCOME_BROKEN || (grounds->at[i].outcome == OUTCOME_IN_DOUBT && grounds->outcome == OUTCOME_KEPT))
            grounds->outcome = grounds->at[i].outcome;
    }
}

/* What is said of a meal needs one. What must stand on food is asked of what it is, whatever it counts as. */
static void judge_kind(struct judging *judging, const struct claim *claim)
{
    uint32_t usual;
    const struct claim_kind *kind = kind_at(judging, judging->kind);
    if (!kind || judging->at->as || judging->depth > 0)
        return;
    struct kind_found found = recipe_meets_kind(judging->at->sums, kind, &judging->reference);
    if (found.outcome == OUTCOME_KEPT)
        return;
    rules_claim_kind(judging->owner, judging->kitchen->rules, (struct text){ "", 0 }, &usual);
    if (claim->use == CLAIM_SAID) {
        add_ground(judging, NULL, GROUND_UNLIKE, found.outcome)->kind = found;
    } else if (found.outcome == OUTCOME_BROKEN) {
        judging->kind = usual;
    } else {
        judging->also = usual;
    }
}

static enum status judge_claim(const struct claim_case *at, const struct claim *claim, struct claim_grounds *grounds, uint32_t depth)
{
    const struct kitchen *kitchen = at->sums->at.gathering->kitchen;
    struct judging judging = { .at = at, .kitchen = kitchen, .owner = kitchen->rules_owner, .recipe = at->as ? at->as : at->sums->at.recipe,
                               .also = NONE_INDEX, .grounds = grounds, .depth = depth };
    judging.kind = recipe_claim_kind(kitchen, judging.recipe);
    judging.has_reference = recipe_reference(kitchen, judging.recipe, &judging.reference);
    grounds->count = 0;
    grounds->outcome = OUTCOME_IN_DOUBT;
    if (!make_room(grounds, kitchen->allocator, claim->condition_count))
        return STATUS_NO_MEMORY;
    grounds->outcome = OUTCOME_KEPT;
    judge_kind(&judging, claim);
    for (uint32_t i = 0; i < claim->condition_count; i++) {
        const struct condition *condition = &judging.owner->conditions[claim->first_condition + i];
        enum concern concern = concerns(&judging, condition);
        uint32_t before = grounds->count;
        if (concern != CONCERN_NO)
            judge_condition(&judging, condition);
        if (concern == CONCERN_MAYBE && grounds->count > before)
            doubt_ground(&judging);
    }
    if (!judging.concerned && claim->use == CLAIM_SAID)
        add_ground(&judging, NULL, GROUND_KIND, OUTCOME_BROKEN);
    return judging.status;
}

enum status claim_judge(const struct claim_case *at, const struct claim *claim, struct claim_grounds *grounds)
{
    return judge_claim(at, claim, grounds, 0);
}
