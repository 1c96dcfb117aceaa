/* What is told of claims: refused, in doubt, words that must stand with them. */
#include <math.h>
#include <string.h>

#include "judge/judge.h"

struct telling_claims {
    const struct kitchen *kitchen;
    const struct recipe *recipe;
    struct findings *findings;
};

/* ---- grounds ---------------------------------------------------------------------------------------------------------- */

static void amount_words(const struct claim_told *told, const struct claim_ground *ground, bool causes, struct findings *findings, struct finding *finding)
{
    char subject[160], value[200], limit[48], by[48];
    const struct library *library = told->sums->at.gathering->kitchen->library;
    const struct bound *bound = &ground->bound;
    struct verdict verdict = ground->verdict;
    verdict.bound = bound;
    bool most = bound->has_most && (!bound->has_least || amount_compare(verdict.value.high, bound->most) > 0);
    double against = most ? bound->most : bound->least;
    const char *side = most ? bound->strict ? "under" : "at most" : bound->strict ? "over" : "at least";
    struct text value_text = verdict_value(library, &verdict, against, value, sizeof value);
    struct text limit_text = bound_limit(library, bound, against, limit, sizeof limit);
    struct text subject_text = verdict_subject(library, &verdict, subject, sizeof subject);
    struct text unit = bound_column_unit(library, bound);
    if (ground->outcome == OUTCOME_BROKEN) {
        double gap = most ? verdict.value.low - against : against - verdict.value.high;
        finding_note(findings, finding, most ? WORDS_CLAIM_OVER : WORDS_CLAIM_BELOW,
                     GAPS(subject_text, value_text, text_of(side), limit_text, print_amount(by, sizeof by, gap, unit)));
    } else {
        finding_note(findings, finding, WORDS_CLAIM_MAYBE, GAPS(subject_text, value_text, text_of(side), limit_text));
    }
    if (causes)
        verdict_note_causes(told->sums, &verdict, findings, finding);
}

static void both_words(const struct claim_told *told, const struct claim_ground *ground, struct findings *findings, struct finding *finding)
{
    char subject[160], own[200], other[200];
    const struct library *library = told->sums->at.gathering->kitchen->library;
    struct verdict here = ground->verdict, there = ground->other;
    here.bound = there.bound = &ground->bound;
    finding_note(findings, finding, WORDS_CLAIM_BOTH,
                 GAPS(verdict_subject(library, &here, subject, sizeof subject), verdict_value(library, &here, -1, own, sizeof own),
                      verdict_value(library, &there, -1, other, sizeof other), told->said->compared));
}

static void less_words(const struct claim_told *told, const struct claim_ground *ground, struct findings *findings, struct finding *finding)
{
    char less[64], share[16];
    const struct library *library = told->sums->at.gathering->kitchen->library;
    struct range shown = { amount_round(ground->less.low * 1000, 1, ROUND_DOWN) / 10,
                           amount_round(ground->less.best * 1000, 1, ROUND_DOWN) / 10,
                           amount_round(ground->less.high * 1000, 1, ROUND_DOWN) / 10 };
    if (!isfinite(shown.low) || !isfinite(shown.high))
        snprintf(less, sizeof less, "an unknown share");
    else if (shown.low == shown.high)
        snprintf(less, sizeof less, "%g%%", shown.best);
    else
        snprintf(less, sizeof less, "%g%% (%g%% to %g%%)", shown.best, shown.low, shown.high);
    struct text name = column_name(library, ground->condition->column);
    snprintf(share, sizeof share, "%g%%", ground->share * 100);
    if (ground->outcome == OUTCOME_KEPT)
        finding_note(findings, finding, WORDS_CLAIM_LESS_BY, GAPS(name, text_of(less), told->said->compared));
    else
        finding_note(findings, finding, WORDS_CLAIM_LESS, GAPS(name, text_of(less), told->said->compared, text_of(share)));
    if (ground->verdict.bound)
        both_words(told, ground, findings, finding);
}

/* A category of the rules that shares a word with the recipe's name; else any short one. */
static struct text near_reference(const struct kitchen *kitchen, const struct recipe *recipe)
{
    struct near_name near[1];
    struct text words[LIMIT_NAME_WORDS];
    char key[KEY_BYTES];
    uint32_t length = name_key_of(recipe->name, false, key);
    uint32_t count = length ? name_split((struct text){ key, length }, words, LIMIT_NAME_WORDS) : 0;
    for (uint32_t i = count; i > 0; i--) {
        if (rules_near_references(kitchen->rules_owner, kitchen->rules, words[i - 1], near, 1))
            return library_text(near[0].library, near[0].name->written);
    }
    return kitchen->rules->reference_amount_count
         ? library_text(kitchen->rules_owner, kitchen->rules_owner->reference_amounts[kitchen->rules->first_reference_amount].name)
         : text_of("soups");
}

bool claim_is_from_memory(struct text source)
{
    static const char mark[] = "from memory";
    for (uint32_t i = 0; i + sizeof mark - 1 <= source.length; i++) {
        if (memcmp(source.bytes + i, mark, sizeof mark - 1) == 0)
            return true;
    }
    return false;
}

/* Whether it is compared to something that is not there. */
static bool lacks_other(const struct claim_told *told)
{
    struct claim_other other = { { NULL, NULL }, { NULL, NULL } };
    if (told->said)
        other = claim_find_other(told->sums->at.gathering->kitchen, told->said);
    return told->said && told->said->compared.length && !other.recipe.recipe && !other.food.food;
}

static const char *compared_words(const struct claim_ground *ground)
{
    bool broken = ground->outcome == OUTCOME_BROKEN;
    if (ground->condition->kind == CONDITION_COMPARED_MEETS)
        return broken ? "does not meet" : "may not meet";
    return broken ? "meets" : "may meet";
}

/* `160 g of grains, 119 g of vegetables`: the classes of food with what a serving surely has of each. */
static struct text portions_words(const struct sums *sums, char *storage, size_t size)
{
    size_t used = 0;
    const struct kitchen *kitchen = sums->at.gathering->kitchen;
    for (uint32_t i = 0; i < kitchen->rules->portion_class_count; i++) {
        char grams[48];
        const struct portion_class *class = &kitchen->rules_owner->portion_classes[kitchen->rules->first_portion_class + i];
        struct text name = library_text(kitchen->rules_owner, class->name);
        struct range found = kind_class_grams(sums, class);
        if (!class->counts || found.low <= 0 || used >= size)
            continue;
        struct text amount = print_amount(grams, sizeof grams, found.low, text_of("g"));
        int length = snprintf(storage + used, size - used, "%s%.*s of %.*s", used ? "; " : "", (int)amount.length, amount.bytes, (int)name.length, name.bytes);
        used += length > 0 ? (size_t)length : 0;
    }
    return used ? (struct text){ storage, (uint32_t)(used < size ? used : size - 1) } : text_of("none that is certain");
}

/* What the recipe lacks of what it counts as. */
static void kind_words(const struct claim_told *told, const struct claim_ground *ground, struct findings *findings, struct finding *finding)
{
    char least[48], low[48], high[48], both[100], list[400], portions[16], classes[16];
    const struct kitchen *kitchen = told->sums->at.gathering->kitchen;
    const struct library *owner = kitchen->rules_owner;
    uint32_t number = recipe_claim_kind(kitchen, told->sums->at.recipe);
    const struct claim_kind *kind = &owner->claim_kinds[kitchen->rules->first_claim_kind + number];
    struct text name = library_text(owner, kind->name), grams = text_of("g");
    struct range serving = ground->kind.serving;
    switch (ground->kind.lack) {
    case KIND_LACKS_WEIGHT:
        if (!ground->kind.weighed) {
            finding_note(findings, finding, WORDS_CLAIM_KIND_NOT_WEIGHED, GAPS(name, print_amount(least, sizeof least, kind->least_serving_grams, grams)));
            break;
        }
        print_amount(low, sizeof low, serving.low, grams);
        print_amount(high, sizeof high, serving.high, grams);
        snprintf(both, sizeof both, range_is_exact(serving) ? "%s" : "%s to %s", low, high);
        finding_note(findings, finding, WORDS_CLAIM_KIND_WEIGHT, GAPS(name, print_amount(least, sizeof least, kind->least_serving_grams, grams), text_of(both)));
        break;
    case KIND_LACKS_REFERENCE:
        finding_note(findings, finding, WORDS_CLAIM_KIND_REFERENCE, GAPS(name, print_amount(least, sizeof least, kind->least_reference_grams, grams)));
        break;
    case KIND_LACKS_PORTIONS:
        snprintf(portions, sizeof portions, "%u", kind->portions);
        snprintf(classes, sizeof classes, "%u", kind->portion_classes);
        finding_note(findings, finding, WORDS_CLAIM_KIND_PORTIONS,
                     GAPS(name, text_of(portions), print_amount(least, sizeof least, kind->portion_grams, grams), text_of(classes),
                          portions_words(told->sums, list, sizeof list)));
        break;
    case KIND_UNCHECKED:
        finding_note(findings, finding, WORDS_CLAIM_UNCHECKED, GAPS(library_text(owner, kind->unchecked)));
        break;
    case KIND_LACKS_NOTHING: break;
    }
}

/* `causes`: the lines that drive an amount are told, too. */
static void note_ground(const struct claim_told *told, const struct claim_ground *ground, bool causes, struct findings *findings, struct finding *finding)
{
    const struct kitchen *kitchen = told->sums->at.gathering->kitchen;
    const char *other = ground->outcome == OUTCOME_BROKEN ? "does not hold" : "is in doubt";
    switch (ground->why) {
    case GROUND_AMOUNT: amount_words(told, ground, causes, findings, finding); break;
    case GROUND_LESS: less_words(told, ground, findings, finding); break;
    case GROUND_NO_SERVES: finding_note(findings, finding, WORDS_CLAIM_NO_SERVES, NO_GAPS); break;
    case GROUND_NO_REFERENCE: finding_note(findings, finding, WORDS_CLAIM_NO_REFERENCE, GAPS(near_reference(kitchen, told->sums->at.recipe))); break;
    case GROUND_NO_VOLUME: finding_note(findings, finding, WORDS_CLAIM_NO_VOLUME, NO_GAPS); break;
    case GROUND_NO_COMPARED:
        if (lacks_other(told))
            finding_note(findings, finding, WORDS_CLAIM_COMPARED_MISSING, GAPS(told->said->compared));
        else
            finding_note(findings, finding, WORDS_CLAIM_NO_COMPARED, NO_GAPS);
        break;
    case GROUND_INGREDIENT:
        finding_note(findings, finding, WORDS_CLAIM_INGREDIENT, GAPS(ground->words));
        if (ground->condition->words.length)
            finding_note(findings, finding, WORDS_CLAIM_FOOTNOTE, GAPS(library_text(kitchen->rules_owner, ground->condition->words)));
        break;
    case GROUND_CLAIM: finding_note(findings, finding, WORDS_CLAIM_OTHER, GAPS(ground->words, text_of(other))); break;
    case GROUND_COMPARED:
        finding_note(findings, finding, WORDS_CLAIM_COMPARED_IS,
                     GAPS(told->said->compared, text_of(compared_words(ground)), ground->words));
        break;
    case GROUND_NEVER: finding_note(findings, finding, WORDS_CLAIM_NEVER, GAPS(ground->words)); break;
    case GROUND_UNCHECKED: finding_note(findings, finding, WORDS_CLAIM_UNCHECKED, GAPS(ground->words)); break;
    case GROUND_UNLIKE: kind_words(told, ground, findings, finding); break;
    case GROUND_KIND: {
        const struct claiming *claiming = told->sums->at.recipe->claiming;
        finding_note(findings, finding, WORDS_CLAIM_OF_KIND, GAPS(claiming && claiming->kind.length ? claiming->kind : text_of("food")));
        break;
    }
    case GROUND_NOTE: break;
    }
}

/* Of the shares that a claim asks for, the largest with the outcome that decides. */
static const struct claim_ground *largest_share(const struct claim_grounds *grounds)
{
    const struct claim_ground *largest = NULL;
    for (uint32_t i = 0; i < grounds->count; i++) {
        const struct claim_ground *ground = &grounds->at[i];
        if (ground->why == GROUND_LESS && ground->outcome == grounds->outcome && (!largest || ground->share > largest->share))
            largest = ground;
    }
    return largest;
}

static void note_grounds(const struct claim_told *told, struct findings *findings, struct finding *finding)
{
    const struct library *owner = told->sums->at.gathering->kitchen->rules_owner;
    struct text memory = { "", 0 };
    uint64_t said = 0;                  /* what the recipe lacks is told once, however many conditions ask for it */
    for (uint32_t i = 0; i < told->grounds->count; i++) {
        const struct claim_ground *ground = &told->grounds->at[i];
        bool lacks = ground->why == GROUND_NO_SERVES || ground->why == GROUND_NO_REFERENCE || ground->why == GROUND_NO_VOLUME || ground->why == GROUND_NO_COMPARED;
        bool told_before = (lacks || ground->why == GROUND_LESS) && said >> ground->why & 1;    /* of two shares the larger is told */
        if (ground->outcome != told->grounds->outcome || ground->outcome == OUTCOME_KEPT || told_before)
            continue;
        if (ground->why == GROUND_LESS)
            ground = largest_share(told->grounds);
        note_ground(told, ground, !(said >> GROUND_AMOUNT & 1), findings, finding);
        said |= (uint64_t)1 << ground->why;
        struct text source = claim_source(owner, told->claim, ground);
        memory = claim_is_from_memory(source) ? source : memory;
    }
    if (memory.length)
        finding_note(findings, finding, WORDS_CLAIM_MEMORY, GAPS(memory));
}

const struct finding *claim_explain(const struct claim_told *told, struct findings *findings)
{
    const struct claim_ground *less = largest_share(told->grounds);
    if (told->grounds->outcome == OUTCOME_KEPT && !less)
        return NULL;
    struct place nowhere = { FILE_NONE, { 0, 0 } };
    struct finding *finding = finding_add(findings, FINDING_CLAIM_IN_DOUBT, nowhere, NO_GAPS);
    note_grounds(told, findings, finding);
    if (told->grounds->outcome == OUTCOME_KEPT)
        less_words(told, less, findings, finding);
    return finding;
}

/* The section of the first ground that decided, else of the claim. */
static struct text deciding_source(const struct library *owner, const struct claim_told *told)
{
    for (uint32_t i = 0; i < told->grounds->count; i++) {
        if (told->grounds->at[i].outcome == told->grounds->outcome)
            return claim_source(owner, told->claim, &told->grounds->at[i]);
    }
    return claim_source(owner, told->claim, NULL);
}

static void tell_words(const struct telling_claims *telling, const struct claim_told *told, struct place place)
{
    for (uint32_t i = 0; i < told->grounds->count && told->grounds->outcome != OUTCOME_BROKEN; i++) {
        const struct claim_ground *ground = &told->grounds->at[i];
        if (ground->why == GROUND_NOTE)
            finding_add(telling->findings, FINDING_CLAIM_WORDS, place, GAPS(told->said->name, ground->words));
    }
}

/* Whether a level lies within a range: that nobody weighed a dish, or that it has no reference amount, is told elsewhere. */
static bool may_be_over(const struct claim_grounds *grounds)
{
    for (uint32_t i = 0; i < grounds->count; i++) {
        const struct claim_ground *ground = &grounds->at[i];
        if (ground->why == GROUND_AMOUNT && ground->outcome == OUTCOME_IN_DOUBT
            && (!ground->verdict.estimated || amount_compare(ground->verdict.value.high, ground->bound.most) > 0))
            return true;
    }
    return false;
}

static void tell_claim(void *context, const struct claim_told *told)
{
    const struct telling_claims *telling = context;
    struct place title = { telling->recipe->file, telling->recipe->title };
    struct place place = told->said && !told->policy ? told->said->place : title;
    const struct library *owner = telling->kitchen->rules_owner;
    enum outcome outcome = told->grounds->outcome;
    if (!told->claim) {
        claim_tell_unknown(told, place, telling->findings);
        return;
    }
    if (lacks_other(told)) {
        claim_tell_no_other(telling->kitchen, told->said, told->policy ? title : told->said->compared_place, telling->findings);
        return;
    }
    if (!told->said) {
        if (outcome == OUTCOME_BROKEN || may_be_over(told->grounds))
            note_grounds(told, telling->findings,
                         finding_add(telling->findings, outcome == OUTCOME_BROKEN ? FINDING_CLAIM_DISCLOSURE : FINDING_CLAIM_MAY_DISCLOSE, title,
                                     GAPS(library_text(owner, told->claim->name))));
        return;
    }
    tell_words(telling, told, place);
    if (outcome == OUTCOME_KEPT)
        return;
    struct finding *finding = finding_add(telling->findings, outcome == OUTCOME_BROKEN ? FINDING_CLAIM_REFUSED : FINDING_CLAIM_IN_DOUBT, place,
        GAPS(told->said->name, library_text(owner, telling->kitchen->rules->name), deciding_source(owner, told)));
    if (told->policy)
        finding_label(telling->findings, finding, told->said->place, WORDS_POLICY_HERE, GAPS(told->policy->name));
    note_grounds(told, telling->findings, finding);
}

enum status recipe_speak_claims(const struct sums *sums, struct sums *other, struct findings *findings)
{
    struct telling_claims telling = { sums->at.gathering->kitchen, sums->at.recipe, findings };
    return recipe_claims(sums, other, tell_claim, &telling);
}
