/* How rules see a recipe: what it counts as, and its reference amount. */
#include "judge/judge.h"

struct range recipe_ml(const struct recipe *recipe)
{
    const struct yields *yields = recipe->yields;
    if (yields->makes_ml.high > 0)
        return yields->makes_ml;
    if (yields->serving_ml.high > 0 && recipe->serves.high > 0)
        return range_multiply(yields->serving_ml, recipe->serves);
    return range_exact(0);
}

static const struct unit *find_unit(const struct kitchen *kitchen, struct text words)
{
    char key[KEY_BYTES];
    struct text found = { key, name_key_of(words, false, key) };
    return library_unit(kitchen->library, found, NULL);
}

bool recipe_reference(const struct kitchen *kitchen, const struct recipe *recipe, struct reference *reference)
{
    const struct claiming *claiming = recipe->claiming;
    *reference = (struct reference){ 0 };
    if (claiming && claiming->category.length) {
        reference->category = rules_reference_amount(kitchen->rules_owner, kitchen->rules, claiming->category);
        if (reference->category) {
            reference->grams = reference->category->grams;
            reference->ml = reference->category->ml;
        }
    } else if (claiming && claiming->unit.length) {
        const struct unit *unit = find_unit(kitchen, claiming->unit);
        double ml = unit ? rules_measure(kitchen->rules_owner, kitchen->rules, unit) : 0;
        if (unit && unit->dimension == DIMENSION_MASS)
            reference->grams = claiming->amount * unit->factor.best;
        else if (unit && unit->dimension == DIMENSION_VOLUME)
            reference->ml = claiming->amount * (ml > 0 ? ml : unit->factor.best);
    }
    return reference->grams > 0 || reference->ml > 0;
}

uint32_t recipe_claim_kind(const struct kitchen *kitchen, const struct recipe *recipe)
{
    uint32_t number;
    struct text name = recipe->claiming ? recipe->claiming->kind : (struct text){ "", 0 };
    rules_claim_kind(kitchen->rules_owner, kitchen->rules, name, &number);
    return number;
}

static void note_kinds(const struct kitchen *kitchen, struct findings *findings, struct finding *finding)
{
    for (uint32_t i = 0; i < kitchen->rules->claim_kind_count; i++) {
        const struct claim_kind *kind = &kitchen->rules_owner->claim_kinds[kitchen->rules->first_claim_kind + i];
        if (kind->within == NONE_INDEX)
            finding_note(findings, finding, WORDS_KIND_KNOWN, GAPS(library_text(kitchen->rules_owner, kind->name)));
    }
}

/* Names of reference amounts near the one that nobody has. */
static void note_references(const struct kitchen *kitchen, struct text name, struct findings *findings, struct finding *finding)
{
    struct near_name near[5];
    uint32_t count = rules_near_references(kitchen->rules_owner, kitchen->rules, name, near, COUNT_OF(near));
    for (uint32_t i = 0; i < count; i++)
        finding_note(findings, finding, WORDS_NEAR_NAME, GAPS(library_text(near[i].library, near[i].name->written)));
}

void recipe_speak_claiming(const struct kitchen *kitchen, const struct recipe *recipe, struct findings *findings)
{
    const struct claiming *claiming = recipe->claiming;
    struct reference reference;
    if (!claiming || !kitchen->rules)
        return;
    struct text rules = library_text(kitchen->rules_owner, kitchen->rules->name);
    if (claiming->kind.length && recipe_claim_kind(kitchen, recipe) == NONE_INDEX)
        note_kinds(kitchen, findings, finding_add(findings, FINDING_UNKNOWN_KIND, claiming->kind_place, GAPS(claiming->kind, rules)));
    if (!(claiming->category.length || claiming->unit.length) || recipe_reference(kitchen, recipe, &reference))
        return;
    if (claiming->category.length)
        note_references(kitchen, claiming->category, findings,
                        finding_add(findings, FINDING_UNKNOWN_REFERENCE, claiming->reference_place, GAPS(claiming->category, rules)));
    else
        finding_add(findings, FINDING_CLAIMING_FORM, claiming->reference_place, GAPS(claiming->unit));
}
