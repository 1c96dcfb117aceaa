/* What was done to the food: phrases after the commas are matched with declared treatments. The longest declared
 * sequence wins over the chain of its steps, the most specific group wins over its parents. Where a canned food is
 * weighed the way the line leaves it, `strength` applies; else `keeps` and `mass`. See docs/method.md. */
#include <string.h>

#include "model/resolve.h"

struct step {
    struct text written, key;       /* the phrase, and its words as a key */
    struct span span;
};

struct treating {
    struct resolving *resolving;
    struct step steps[LIMIT_PHRASES];
    uint32_t step_count;
    char storage[LIMIT_PHRASES * 64];
    uint32_t used;
    enum food_state state;          /* of the food as the steps go on */
    bool weighed_after, repeated;
    bool too_long;                  /* said already */
};

/* ---- phrases to steps ------------------------------------------------------------------------------------------ */

static void add_step(struct treating *treating, struct text written, struct span span, const char *key, uint32_t length)
{
    if (length == 0)
        return;
    if (treating->step_count == LIMIT_PHRASES || treating->used + length > sizeof treating->storage) {
        if (!treating->too_long)
            resolve_fail(treating->resolving, FINDING_LINE_TOO_LONG, span, NO_GAPS);
        treating->too_long = true;
        return;
    }
    memcpy(treating->storage + treating->used, key, length);
    treating->steps[treating->step_count++] =
        (struct step){ written, { treating->storage + treating->used, length }, span };
    treating->used += length;
}

static bool has_percent(const struct item *items)
{
    while (items && !(items->quantity && items->quantity->is_percent))
        items = items->next;
    return items != NULL;
}

static void gather_phrase(struct treating *treating, const struct phrase *phrase)
{
    struct resolving *resolving = treating->resolving;
    char key[KEY_BYTES];
    if (phrase->items->kind == ITEM_STRING && !phrase->items->next)
        return;                                     /* the cook's own words */
    if (treat_take_words_of_language(resolving, phrase) || measure_take_size(resolving, phrase))
        return;
    if (has_percent(phrase->items)) {       /* `, 2%` is no cooking time that could be left out */
        resolve_fail_treatment(resolving, span_text(resolving->tail->text, phrase->span), phrase->span);
        return;
    }
    uint32_t length = treat_phrase_key(resolving, phrase->items, key);
    add_step(treating, span_text(resolving->tail->text, phrase->span), phrase->span, key, length);
}

/* `(optional)`: a parenthesis without a measure says what was done, or it is an error; nothing in it is lost. */
static void gather_remark(struct treating *treating, const struct item *group)
{
    struct phrase phrase = { .items = group->inside, .span = group->span };
    if (phrase.items)
        gather_phrase(treating, &phrase);
}

static void gather_peeled(struct treating *treating, uint32_t first, uint32_t end)
{
    struct resolving *resolving = treating->resolving;
    char key[KEY_BYTES];
    for (uint32_t i = first, number = 0; i < end; number++) {
        uint32_t run = number < resolving->peeled_count ? resolving->peeled[number] : 1;
        struct text words[3], written = resolve_words_text(resolving, i, i + run);
        for (uint32_t j = 0; j < run; j++)
            words[j] = resolving->words[i + j].text;
        if (run > 1 || !treat_is_argument(resolving, written))
            add_step(treating, written, resolve_words_span(resolving, i, i + run), key, name_key(words, run, false, key));
        i += run;
    }
}

/* ---- which treatment ------------------------------------------------------------------------------------------------ */

struct found {
    const struct library *library;
    const struct treatment *treatment;
    uint32_t distance;
    bool wrong_state;               /* one for this group exists, but for another state of the food */
    bool other_group;               /* it exists for other foods */
};

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

static void find_treatment(const struct treating *treating, struct text key, struct found *found)
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
            } else if (distance < found->distance) {
                found->library = library;
                found->treatment = treatment;
                found->distance = distance;
            }
        }
    }
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

static struct range *keeps_of(struct resolving *resolving)
{
    uint32_t count = resolving->library->column_count;
    if (!resolving->keeps) {
        resolving->keeps = arena_take(&resolving->gathering->keeps_arena, count * sizeof *resolving->keeps);
        for (uint32_t i = 0; resolving->keeps && i < count; i++)
            resolving->keeps[i] = range_exact(1);
        resolving->resolved->keeps = resolving->keeps;
    }
    return resolving->keeps;
}

static const struct effect *find_effect(const struct found *found, uint32_t nutrient, enum effect_kind kind)
{
    const struct effect *others = NULL;
    for (uint32_t i = 0; i < found->treatment->effect_count; i++) {
        const struct effect *effect = &found->library->effects[found->treatment->first_effect + i];
        if (effect->kind == (uint32_t)kind && effect->nutrient == nutrient)
            return effect;
        if (effect->kind == (uint32_t)kind && effect->nutrient == EFFECT_OTHERS)
            others = effect;
    }
    return others;
}

/* The share of a nutrient that stays: of the whole before, or per weight when weighed afterwards. A named `keeps`
 * over mass is nearer than a `strength others`. False when nobody knows. */
static bool share_of(const struct treating *treating, const struct found *found, uint32_t nutrient, struct range *share)
{
    const struct treatment *treatment = found->treatment;
    const struct effect *keeps = find_effect(found, nutrient, EFFECT_KEEPS);
    const struct effect *strength = find_effect(found, nutrient, EFFECT_STRENGTH);
    if (!treating->weighed_after) {
        *share = keeps ? keeps->share : range_exact(1);
        return keeps != NULL;
    }
    bool derived = keeps && treatment->flags & TREATMENT_HAS_MASS && treatment->mass.low > 0;
    if (strength && (strength->nutrient == nutrient || !derived || keeps->nutrient != nutrient)) {
        *share = strength->share;
        return true;
    }
    if (derived)
        *share = range_divide(keeps->share, treatment->mass);
    return derived;
}

static void apply_shares(struct treating *treating, const struct found *found)
{
    struct resolving *resolving = treating->resolving;
    const struct library *library = resolving->library;
    struct range *keeps = keeps_of(resolving);
    for (uint32_t i = 0; keeps && i < library->mass_column; i++) {
        struct range share;
        uint32_t nutrient = i < library->nutrient_total ? i : library->traced;
        bool known = share_of(treating, found, nutrient, &share);
        if (treating->repeated)         /* nobody measured a second rinse: it may take as much again, or nothing */
            share.best = share.high = amount_larger(1, share.high);
        keeps[i] = known ? range_multiply(keeps[i], share) : range_exact(0);
        if (!known)                     /* nothing of it is surely there: the known part is 0 */
            resolving->resolved->lost |= (uint64_t)1 << i;
    }
    if (treating->weighed_after)
        return;
    if (found->treatment->flags & TREATMENT_HAS_MASS)
        resolving->resolved->mass = range_multiply(resolving->resolved->mass, found->treatment->mass);
    else if (found->treatment->effect_count) {
        resolving->resolved->mass = range_exact(0);
        resolving->resolved->lost |= (uint64_t)1 << library->mass_column;
    }
}

static void remember(struct resolving *resolving, struct text name, uint32_t grade)
{
    struct resolved *resolved = resolving->resolved;
    if (!resolved->treatments)
        resolved->treatments = arena_take(&resolving->gathering->arena, TREATMENTS_SHOWN * sizeof name);
    if (resolved->treatments && resolved->treatment_count < TREATMENTS_SHOWN)
        resolved->treatments[resolved->treatment_count++] = name;
    if (grade > resolved->grade)
        resolved->grade = grade;
}

/* Bones, peel and stones of a food as bought. A piece or a cup is weighed as it is eaten: only weights hold them. */
static void leave_edible(struct resolving *resolving, const struct step *step)
{
    struct resolved *resolved = resolving->resolved;
    const struct food *food = resolved->food.food;
    if (!food || food->refuse < 0)
        resolve_fail(resolving, FINDING_NO_REFUSE, step->span, GAPS(food ? library_text(resolved->food.library, food->name) : text_of("it")));
    else if (!(resolved->flags & (RESOLVED_BY_COUNT | RESOLVED_BY_VOLUME)))
        resolved->scale = range_scale(resolved->scale, 1 - food->refuse);
}

static void apply(struct treating *treating, const struct found *found, const struct step *step)
{
    struct resolving *resolving = treating->resolving;
    const struct treatment *treatment = found->treatment;
    treat_warn_of_doubling(resolving, found->library, treatment, step->written, step->span);
    if (treatment->flags & TREATMENT_NOT_COMPUTED) {
        resolve_say(resolving, FINDING_NOT_COMPUTED_YET, step->span, GAPS(step->written));
        resolving->resolved->flags |= RESOLVED_NOT_COMPUTED;
    }
    if (treatment->flags & TREATMENT_LEFT_OUT)
        resolving->resolved->flags |= RESOLVED_OPTIONAL;
    if (treatment->flags & TREATMENT_EDIBLE)
        leave_edible(resolving, step);
    if (treatment->flags & TREATMENT_NO_UPPER) {
        resolving->resolved->flags |= RESOLVED_NO_UPPER;
        resolve_say(resolving, FINDING_NO_UPPER_BOUND, step->span, GAPS(step->written));
    }
    if (!resolving->tail->items && (treatment->effect_count || treatment->flags & TREATMENT_HAS_MASS)) {
        resolve_say(resolving, FINDING_NOT_COMPUTED_YET, step->span, GAPS(step->written));      /* of a whole part */
        resolving->resolved->flags |= RESOLVED_NOT_COMPUTED;
    } else if (treatment->effect_count || treatment->flags & TREATMENT_HAS_MASS) {
        apply_shares(treating, found);
        remember(resolving, library_text(found->library, treatment->name), treatment->grade);
    }
    if (treatment->from == FROM_CANNED)
        treating->state = FOOD_DRAINED;
}

static void fail_step(struct treating *treating, const struct step *step, const struct found *found)
{
    struct resolving *resolving = treating->resolving;
    if (found->other_group) {
        struct food_at food = resolving->resolved->food;
        struct text name = food.food ? library_text(food.library, food.food->name) : text_of("this");
        resolve_fail(resolving, FINDING_TREATMENT_NOT_TAKEN, step->span, GAPS(step->written, name));
        return;
    }
    resolve_fail_treatment(resolving, step->written, step->span);
}

/* Applies the longest declared sequence that begins here; returns how many steps it took. */
static bool was_done_before(const struct treating *treating, uint32_t step)
{
    for (uint32_t i = 0; i < step; i++) {
        if (text_equal(treating->steps[i].key, treating->steps[step].key))
            return true;
    }
    return false;
}

static uint32_t apply_from(struct treating *treating, uint32_t first)
{
    char key[KEY_BYTES];
    struct found found = { 0 };
    for (uint32_t count = treating->step_count - first; count > 0; count--) {
        uint32_t length = join_keys(treating, first, count, key);
        find_treatment(treating, (struct text){ key, length }, &found);
        if (!found.treatment)
            continue;
        treating->repeated = was_done_before(treating, first);
        apply(treating, &found, &treating->steps[first]);
        return count;
    }
    /* A drained food that is drained once more stays as it is. */
    if (!(found.wrong_state && treating->state == FOOD_DRAINED))
        fail_step(treating, &treating->steps[first], &found);
    return 1;
}

static void apply_all(struct treating *treating)
{
    for (uint32_t first = 0; first < treating->step_count;)
        first += apply_from(treating, first);
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
static void scale_to_drained(struct resolving *resolving, const struct found *drain)
{
    struct range *keeps = keeps_of(resolving);
    for (uint32_t i = 0; keeps && i < resolving->library->mass_column; i++)
        keeps[i] = range_multiply(keeps[i], drain->treatment->mass);
    resolving->resolved->mass = range_multiply(resolving->resolved->mass, drain->treatment->mass);
}

/* Food and liquid together are stronger than the drained food, by what draining weakens it. */
static void scale_to_whole(struct treating *treating, const struct found *drain)
{
    struct resolving *resolving = treating->resolving;
    struct range *keeps = keeps_of(resolving);
    bool after = treating->weighed_after;
    treating->weighed_after = true;
    for (uint32_t i = 0; keeps && i < resolving->library->mass_column; i++) {
        struct range share;
        uint32_t nutrient = i < resolving->library->nutrient_total ? i : resolving->library->traced;
        bool known = share_of(treating, drain, nutrient, &share) && share.low > 0;
        keeps[i] = known ? range_multiply(keeps[i], range_divide(range_exact(1), share)) : range_exact(0);
        if (!known)
            resolving->resolved->lost |= (uint64_t)1 << i;
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
    find_treatment(treating, text_of("drained"), &drain);
    treating->state = FOOD_DRAINED;
    if (!drain.treatment || !(drain.treatment->flags & TREATMENT_HAS_MASS))
        drain.treatment = &usual;
    scale_to_drained(resolving, &drain);
    resolving->resolved->grade = 'C';
    resolve_say(resolving, FINDING_DRAINED_SIZE, resolve_whole_span(resolving), GAPS(library_text(food.library, food.food->name)));
}

/* The second reading of a food whose basis is not stated: its figures are for the drained food. A cup or a weight of
 * it is what the release weighed; only a package, with its liquid, differs. */
static void apply_as_drained(struct treating *treating, bool drains)
{
    struct resolving *resolving = treating->resolving;
    struct found drain;
    treating->state = FOOD_WHOLE_CAN;
    find_treatment(treating, text_of("drained"), &drain);
    treating->state = FOOD_DRAINED;
    apply_all(treating);
    if (!drain.treatment || !(drain.treatment->flags & TREATMENT_HAS_MASS))
        return;
    if (!treating->weighed_after && drains)
        scale_to_drained(resolving, &drain);
    else if (!treating->weighed_after)
        scale_to_whole(treating, &drain);
}

/* Where the release does not say whether its figures are for the whole can or for what is drained, both are
 * computed and joined. */
static void apply_both(struct treating *treating)
{
    struct resolving *resolving = treating->resolving;
    struct resolved *resolved = resolving->resolved, first;
    struct voice voice = resolving->voice;
    treating->state = FOOD_WHOLE_CAN;
    apply_all(treating);
    first = *resolved;
    resolved->keeps = resolving->keeps = NULL;
    resolved->mass = range_exact(1);
    resolving->voice.findings = NULL;
    apply_as_drained(treating, treating->state == FOOD_DRAINED);
    resolving->voice = voice;
    resolved->treatment_count = first.treatment_count;
    resolved->mass = range_join(first.mass, resolved->mass);
    resolved->lost |= first.lost;
    struct range *keeps = first.keeps || resolved->keeps ? keeps_of(resolving) : NULL;
    for (uint32_t i = 0; keeps && i < resolving->library->mass_column; i++)
        keeps[i] = range_join(keeps[i], first.keeps ? first.keeps[i] : range_exact(1));
}

void treat_all(struct resolving *resolving, uint32_t peeled_first, uint32_t peeled_end)
{
    struct treating treating = { .resolving = resolving };
    const struct food *food = resolving->resolved->food.food;
    treating.state = food ? (enum food_state)food->state : FOOD_PLAIN;
    gather_peeled(&treating, peeled_first, peeled_end);
    for (const struct phrase *phrase = resolving->phrases; phrase && !treating.too_long; phrase = phrase->next)
        gather_phrase(&treating, phrase);
    for (uint32_t i = 0; i < resolving->remark_count; i++)
        gather_remark(&treating, resolving->remarks[i]);
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
}
