/* What was done to the food: phrases after the commas are matched with declared treatments. The longest declared
 * sequence wins over the chain of its steps, the most specific group wins over its parents. Where a canned food is
 * weighed the way the line leaves it, `strength` applies; else `keeps` and `mass`. See docs/method.md. */
#include <string.h>

#include "model/treating.h"

/* ---- which treatment ------------------------------------------------------------------------------------------------ */

static uint32_t group_distance(const struct resolving *resolving, const struct library *library,
                               const struct treatment *treatment)
{
    const struct food *food = resolving->resolved->food.food;
    uint32_t best = treatment->group_count ? NONE_INDEX : LIMIT_NESTING;
    for (uint32_t i = 0; i < treatment->group_count && food; i++) {
        uint32_t group = library->references[treatment->first_group + i];
        uint32_t distance = library_group_distance(resolving->library, food->group, group);
        best = distance < best ? distance : best;
    }
    return best;
}

static bool state_suits(enum food_state state, const struct treatment *treatment)
{
    if (treatment->from == FROM_CANNED)
        return state == FOOD_WHOLE_CAN;
    return treatment->from != FROM_DRAINED || state == FOOD_DRAINED;
}

/* Whether it has something to say of the food in a bath, without one, or as one of a part. `step` may be NULL. */
static bool way_suits(const struct treating *treating, const struct treatment *treatment, const struct step *step)
{
    bool only_bath = treatment->flags & TREATMENT_REACHES && !(treatment->flags & TREATMENT_STAYS);
    bool behind_part = !treating->resolving->tail->items || (step && step->part != NONE_INDEX);
    if (treatment->flags & TREATMENT_OF_PARTS && !behind_part)
        return false;
    return step && step->bath.bytes ? (treatment->flags & TREATMENT_REACHES) != 0 : !only_bath;
}

/* Of two for the same foods: figures before none, and what is told of parts before what is told of lines. */
static uint32_t rank(const struct treatment *treatment)
{
    return (treatment->flags & TREATMENT_NOT_COMPUTED ? 0 : 2) + (treatment->flags & TREATMENT_OF_PARTS ? 1 : 0);
}

static void find_treatment(const struct treating *treating, struct text key, const struct step *step, struct found *found)
{
    const struct resolving *resolving = treating->resolving;
    *found = (struct found){ .distance = NONE_INDEX };
    for (const struct library *library = resolving->library; library; library = library->base) {
        const struct name *name = NULL;
        while ((name = library_find(library, SPACE_TREATMENT, key, name))) {
            const struct treatment *treatment = &library->treatments[name->index];
            uint32_t distance = group_distance(resolving, library, treatment);
            if (treatment->flags & TREATMENT_FILLER)
                continue;
            if (distance == NONE_INDEX) {
                found->other_group = true;
            } else if (!state_suits(treating->state, treatment)) {
                found->wrong_state = true;
            } else if (!way_suits(treating, treatment, step)) {
                found->other_way = true;
            } else if (distance < found->distance || (distance == found->distance && rank(treatment) > rank(found->treatment))) {
                found->library = library;
                found->treatment = treatment;
                found->distance = distance;
            }
        }
    }
}

uint32_t treat_flags(const struct resolving *resolving, struct text key)
{
    uint32_t flags = 0;
    for (const struct library *library = resolving->library; library && key.length; library = library->base) {
        const struct name *name = NULL;
        while ((name = library_find(library, SPACE_TREATMENT, key, name))) {
            const struct treatment *treatment = &library->treatments[name->index];
            if (group_distance(resolving, library, treatment) != NONE_INDEX)
                flags |= treatment->flags;
        }
    }
    return flags;
}

static uint32_t join_keys(const struct treating *treating, uint32_t first, uint32_t count, char *key)
{
    uint32_t used = 0;
    for (uint32_t i = first; i < first + count; i++) {
        struct text step = treating->steps[i].key;
        if (used + step.length + 1 > KEY_BYTES)
            return 0;
        if (used)
            key[used++] = ',';
        memcpy(key + used, step.bytes, step.length);
        used += step.length;
    }
    return used;
}

/* ---- what it does ---------------------------------------------------------------------------------------------------- */

static void remember(struct resolving *resolving, struct text name, uint32_t evidence)
{
    struct resolved *resolved = resolving->resolved;
    if (!resolved->treatments)
        resolved->treatments = arena_take(&resolving->gathering->arena, TREATMENTS_SHOWN * sizeof name);
    if (resolved->treatments && resolved->treatment_count < TREATMENTS_SHOWN)
        resolved->treatments[resolved->treatment_count++] = name;
    if (evidence > resolved->evidence)
        resolved->evidence = evidence;
}

/* Where one declaration tells of the food's own and of a bath, its evidence is of the food's own: how far a food comes to
 * equilibrium is estimated. */
static uint32_t evidence_of(const struct treatment *treatment, const struct step *step)
{
    bool both = treatment->flags & TREATMENT_STAYS && step->bath.bytes;
    return both && treatment->evidence < EVIDENCE_ESTIMATED ? EVIDENCE_ESTIMATED : treatment->evidence;
}

/* Behind a part, what has figures is told of each food in it: see tail_resolve_within. */
static void apply_figures(struct treating *treating, const struct found *found, const struct step *step)
{
    struct resolving *resolving = treating->resolving;
    if (!resolving->tail->items) {
        resolving->resolved->flags |= RESOLVED_TREATS;
        return;
    }
    if (step->bath.bytes)
        visit_add(treating, found, step);
    else
        effects_apply(treating, found);
    remember(resolving, library_text(found->library, found->treatment->name), evidence_of(found->treatment, step));
}

/* The part itself has told it already, whatever foods are in it. */
static void say_once(struct resolving *resolving, enum words_code code, const struct step *step)
{
    if (!resolving->around)
        resolve_say(resolving, code, step->span, GAPS(step->written));
}

static void apply(struct treating *treating, const struct found *found, const struct step *step)
{
    struct resolving *resolving = treating->resolving;
    const struct treatment *treatment = found->treatment;
    treat_warn_of_doubling(resolving, found->library, treatment, treating->by_maker, step->written, step->span);
    treating->by_maker = treating->by_maker || treatment->flags & TREATMENT_BY_MAKER;
    derive_treatment(resolving, found->library, treatment, step->written, evidence_of(treatment, step));
    if (treatment->flags & TREATMENT_NOT_COMPUTED && !resolving->tail->items && found->other_group) {
        resolving->resolved->flags |= RESOLVED_TREATS;          /* some foods of the part may have figures */
    } else if (treatment->flags & TREATMENT_NOT_COMPUTED) {
        struct finding *finding = resolve_say(resolving, FINDING_NOT_COMPUTED_YET, step->span, GAPS(step->written));
        struct text way_out = library_text(found->library, treatment->source);
        if (finding && way_out.length)
            finding_note(resolving->voice.findings, finding, WORDS_WAY_OUT, GAPS(way_out));
        resolving->resolved->flags |= RESOLVED_NOT_COMPUTED;
    }
    if (treatment->flags & TREATMENT_NAMES_FOOD)
        say_once(resolving, FINDING_NAMES_FOOD, step);
    if (treatment->flags & TREATMENT_SALT_UNSAID)
        resolve_say(resolving, FINDING_SALT_UNSAID, step->span, GAPS(step->written));     /* of a part at each food; told once there */
    if (treatment->flags & TREATMENT_LEFT_OUT)
        resolving->resolved->flags |= RESOLVED_OPTIONAL;
    if (treatment->flags & TREATMENT_NO_UPPER) {
        resolving->resolved->flags |= RESOLVED_NO_UPPER;
        if (resolving->resolved->some.high <= 0)            /* else its group says how much more that may be */
            say_once(resolving, FINDING_NO_UPPER_BOUND, step);
    }
    if (step->bath.bytes || treatment->flags & TREATMENT_STAYS)
        apply_figures(treating, found, step);
    if (treatment->from == FROM_CANNED)
        treating->state = FOOD_DRAINED;
}

static void fail_step(struct treating *treating, const struct step *step, const struct found *found)
{
    struct resolving *resolving = treating->resolving;
    struct food_at food = resolving->resolved->food;
    struct text name = food.food ? library_text(food.library, food.food->name) : text_of("this");
    bool exists = found->other_group || found->other_way || found->wrong_state;
    if (!resolving->tail->items && exists)
        resolving->resolved->flags |= RESOLVED_TREATS;
    else if (step->bath.bytes && exists)
        resolve_fail(resolving, FINDING_NO_BATH_FIGURES, step->span, GAPS(step->written, name));
    else if (found->other_way)
        resolve_fail(resolving, FINDING_NEEDS_BATH, step->span, GAPS(step->written));
    else if (found->other_group)
        resolve_fail(resolving, FINDING_TREATMENT_NOT_TAKEN, step->span, GAPS(step->written, name));
    else if (resolving->around)
        resolving->resolved->flags |= RESOLVED_BAD;     /* the part has told it */
    else
        resolve_fail_treatment(resolving, step->written, step->span);
}

static bool was_done_before(const struct treating *treating, uint32_t step)
{
    for (uint32_t i = 0; i < step; i++) {
        if (text_equal(treating->steps[i].key, treating->steps[step].key))
            return true;
    }
    return false;
}

/* How many steps a sequence that begins here may take: it ends at its bath, and with the part that says it. */
static uint32_t longest_from(const struct treating *treating, uint32_t first)
{
    uint32_t end = first + 1;
    while (end < treating->step_count && !treating->steps[end - 1].bath.bytes
           && treating->steps[end].part == treating->steps[first].part)
        end++;
    return end - first;
}

/* Applies the longest declared sequence that begins here; returns how many steps it took. */
static uint32_t apply_from(struct treating *treating, uint32_t first)
{
    char key[KEY_BYTES];
    struct found found = { 0 };
    for (uint32_t count = longest_from(treating, first); count > 0; count--) {
        const struct step *last = &treating->steps[first + count - 1];
        uint32_t length = join_keys(treating, first, count, key);
        find_treatment(treating, (struct text){ key, length }, last, &found);
        if (!found.treatment)
            continue;
        treating->repeated = !last->bath.bytes && was_done_before(treating, first);
        apply(treating, &found, last);
        return count;
    }
    /* A drained food that is drained once more stays as it is. */
    if (!(found.wrong_state && treating->state == FOOD_DRAINED))
        fail_step(treating, &treating->steps[first], &found);
    return 1;
}

/* Of a part's phrases the findings stand at the part. */
static void look_at(struct treating *treating, const struct step *step, struct voice voice)
{
    struct resolving *resolving = treating->resolving;
    resolving->around = step->part != NONE_INDEX;
    resolving->voice = voice;
    if (resolving->around)
        resolving->voice = (struct voice){ resolving->around_findings, voice.file, resolving->gathering->parts[step->part].tail_start };
}

static void apply_all(struct treating *treating)
{
    struct voice voice = treating->resolving->voice;
    for (uint32_t first = 0; first < treating->step_count;) {
        look_at(treating, &treating->steps[first], voice);
        first += apply_from(treating, first);
    }
    treating->resolving->voice = voice;
    treating->resolving->around = false;
}

/* ---- the basis ------------------------------------------------------------------------------------------------------ */

static bool says_as_canned(const struct treating *treating)
{
    for (uint32_t i = 0; i < treating->step_count; i++) {
        const struct treatment *treatment = treat_find_any(treating->resolving, treating->steps[i].key);
        if (treatment && treatment->flags & TREATMENT_AS_CANNED)
            return true;
    }
    return false;
}

/* Of what was in the can, the drained food is so much; its figures are per weight of the drained food. */
static void scale_to_drained(struct treating *treating, const struct found *drain)
{
    struct range *keeps = effects_keeps(treating);
    derive_effect(treating->resolving, DERIVED_LIQUID, NONE_INDEX, drain->treatment->mass);
    for (uint32_t i = 0; keeps && i < treating->resolving->library->mass_column; i++)
        keeps[i] = range_multiply(keeps[i], drain->treatment->mass);
    treating->stage->mass = range_multiply(treating->stage->mass, drain->treatment->mass);
}

/* Food and liquid together are stronger than the drained food, by what draining weakens it. */
static void scale_to_whole(struct treating *treating, const struct found *drain)
{
    struct resolving *resolving = treating->resolving;
    struct range *keeps = effects_keeps(treating);
    bool after = treating->weighed_after;
    treating->weighed_after = true;
    for (uint32_t i = 0; keeps && i < resolving->library->mass_column; i++) {
        struct range share;
        uint32_t nutrient = i < resolving->library->nutrient_total ? i : resolving->library->traced;
        bool known = effects_share(treating, drain, nutrient, &share) && share.low > 0;
        struct range stronger = known ? range_divide(range_exact(1), share) : range_exact(0);
        derive_effect(resolving, DERIVED_STRONGER, i, stronger);
        keeps[i] = known ? range_multiply(keeps[i], stronger) : range_exact(0);
        if (!known)
            treating->stage->lost |= (uint64_t)1 << i;
    }
    treating->weighed_after = after;
}

/* `1 can (5 oz) tuna, drained`: the size counts the liquid, the food's figures do not. What is left is the share that
 * draining leaves of such a can; where nobody measured that, half to all of it. */
static void leave_out_liquid(struct treating *treating)
{
    struct resolving *resolving = treating->resolving;
    struct food_at food = resolving->resolved->food;
    struct treatment usual = { .mass = { 0.5, 0.75, 1 } };
    struct found drain;
    treating->state = FOOD_WHOLE_CAN;
    find_treatment(treating, text_of("drained"), NULL, &drain);
    treating->state = FOOD_DRAINED;
    if (!drain.treatment || !(drain.treatment->flags & TREATMENT_HAS_MASS))
        drain.treatment = &usual;
    scale_to_drained(treating, &drain);
    resolving->resolved->evidence = EVIDENCE_ESTIMATED;
    resolve_say(resolving, FINDING_DRAINED_SIZE, resolve_whole_span(resolving), GAPS(library_text(food.library, food.food->name)));
}

/* The second reading of a food whose basis is not stated: its figures are for the drained food. A cup or a weight of
 * it is what the release weighed; only a package, with its liquid, differs. */
static void apply_as_drained(struct treating *treating, bool drains)
{
    struct found drain;
    treating->state = FOOD_WHOLE_CAN;
    find_treatment(treating, text_of("drained"), NULL, &drain);
    treating->state = FOOD_DRAINED;
    apply_all(treating);
    if (!drain.treatment || !(drain.treatment->flags & TREATMENT_HAS_MASS))
        return;
    if (!treating->weighed_after && drains)
        scale_to_drained(treating, &drain);
    else if (!treating->weighed_after)
        scale_to_whole(treating, &drain);
}

static void join_columns(const struct treating *treating, struct range *second, const struct range *first, double none)
{
    for (uint32_t i = 0; second && i < treating->resolving->library->mass_column; i++)
        second[i] = range_join(second[i], first ? first[i] : range_exact(none));
}

/* What the two readings keep and add before the first bath. */
static void join_stages(struct treating *treating, const struct stage *first)
{
    struct stage *stage = &treating->resolving->resolved->done;
    stage->mass = range_join(first->mass, stage->mass);
    stage->lost |= first->lost;
    stage->weight_is_water = stage->weight_is_water && first->weight_is_water;
    effects_resume(treating, stage);
    if (first->keeps || stage->keeps)
        join_columns(treating, effects_keeps(treating), first->keeps, 1);
    if (first->adds || stage->adds)
        join_columns(treating, effects_adds(treating), first->adds, 0);
}

/* Where the release does not say whether its figures are for the whole can or for what is drained, both are
 * computed and joined. */
static void apply_both(struct treating *treating)
{
    struct resolving *resolving = treating->resolving;
    struct resolved *resolved = resolving->resolved, first;
    struct range kept = resolved->kept;
    struct voice voice = resolving->voice;
    treating->state = FOOD_WHOLE_CAN;
    apply_all(treating);
    first = *resolved;
    resolved->kept = kept;                  /* shares are taken once */
    treating->swollen = range_exact(0);
    derive_effect(resolving, DERIVED_SECOND, NONE_INDEX, range_exact(1));
    resolving->rare.visit_count = 0;        /* a bath is told of the second reading, with what came before it joined */
    effects_begin(treating, &resolved->done);
    resolving->voice.findings = NULL;
    apply_as_drained(treating, treating->state == FOOD_DRAINED);
    resolving->voice = voice;
    resolved->treatment_count = first.treatment_count;
    join_stages(treating, &first.done);
    derive_effect(resolving, DERIVED_JOINED, NONE_INDEX, range_exact(1));
}

void treat_all(struct resolving *resolving, uint32_t peeled_first, uint32_t peeled_end)
{
    struct treating treating = { .resolving = resolving };
    const struct food *food = resolving->resolved->food.food;
    treating.state = food ? (enum food_state)food->state : FOOD_PLAIN;
    effects_begin(&treating, &resolving->resolved->done);
    steps_gather(&treating, peeled_first, peeled_end);
    treating.weighed_after = treating.state != FOOD_PLAIN && (!resolving->package || resolving->aside.after)
                           && !says_as_canned(&treating);
    if (treating.weighed_after)
        resolving->resolved->flags |= RESOLVED_WEIGHED_AFTER;
    if (treating.state == FOOD_DRAINED && resolving->package && resolving->aside.found && !resolving->aside.after)
        leave_out_liquid(&treating);
    if (treating.state == FOOD_STATE_NOT_STATED)
        apply_both(&treating);
    else
        apply_all(&treating);
    refuse_leave_edible(&treating);
}
