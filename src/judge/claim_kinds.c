/* Whether a recipe is what it says it counts as: a meal has a weight, and portions of several classes of food. Where it
 * surely is not, what is asked of the usual kind is asked of it; where nobody can tell, both are. */
#include <math.h>

#include "judge/judge.h"

/* ---- sizes -------------------------------------------------------------------------------------------------------- */

/* Grams of a serving as somebody weighed them; false where nobody did. */
static bool serving_grams(const struct sums *sums, struct range *serving)
{
    bool estimated, known;
    const struct recipe *recipe = sums->at.recipe;
    struct range grams = recipe_grams(recipe, &sums->total, sums->at.gathering->kitchen->library, &estimated, &known);
    if (!known || estimated || grams.low <= 0 || recipe->serves.low <= 0)
        return false;
    *serving = range_divide(grams, recipe->serves);
    return true;
}

/* Whether a range reaches a least amount: surely, surely not, or perhaps. */
static enum outcome reaches(struct range found, double least)
{
    return amount_compare(found.low, least) >= 0 ? OUTCOME_KEPT : amount_compare(found.high, least) < 0 ? OUTCOME_BROKEN : OUTCOME_IN_DOUBT;
}

/* ---- portions of classes of food ---------------------------------------------------------------------------------- */

static bool class_holds(const struct library *library, const struct library *owner, const struct portion_class *class, uint32_t group)
{
    for (uint32_t i = 0; i < class->group_count; i++) {
        if (library_group_distance(library, group, owner->references[class->first_group + i]) != NONE_INDEX)
            return true;
    }
    return false;
}

/* The class of a food: one that does not count comes before the others; NULL where the rules name none for it. */
static const struct portion_class *class_of(const struct kitchen *kitchen, uint32_t group)
{
    const struct portion_class *found = NULL;
    for (uint32_t i = 0; i < kitchen->rules->portion_class_count; i++) {
        const struct portion_class *class = &kitchen->rules_owner->portion_classes[kitchen->rules->first_portion_class + i];
        bool better = !found || !class->counts;
        if (better && class_holds(kitchen->library, kitchen->rules_owner, class, group))
            found = class;
    }
    return found;
}

/* Grams that a line brings to the class: all of it or nothing, or perhaps all where its class is not known. */
static struct range line_brings(const struct kitchen *kitchen, const struct line_amount *amount, const struct portion_class *class)
{
    const struct resolved *resolved = amount->resolved;
    bool is_food = !amount->unknown && resolved && resolved->subject == SUBJECT_FOOD && resolved->food.food;
    const struct portion_class *own = is_food ? class_of(kitchen, resolved->food.food->group) : NULL;
    struct range grams = { 0, 0, INFINITY };
    if (own && (own != class || !own->counts))
        return range_exact(0);
    if (!amount->unknown && amount->mass_known)
        grams = line_column(amount, kitchen->library, kitchen->library->mass_column);
    return own ? grams : (struct range){ 0, 0, grams.high };
}

struct range kind_class_grams(const struct sums *sums, const struct portion_class *class)
{
    struct range grams = range_exact(0);
    for (uint32_t i = 0; i < sums->line_count; i++)
        grams = range_add(grams, line_brings(sums->at.gathering->kitchen, &sums->lines[i], class));
    return sums->at.recipe->serves.low > 0 ? range_divide(grams, sums->at.recipe->serves) : (struct range){ 0, 0, INFINITY };
}

static double whole_portions(double grams, double portion)
{
    return isfinite(grams) ? floor(grams / portion + 1e-9) : INFINITY;
}

static enum outcome has_portions(const struct sums *sums, const struct claim_kind *kind)
{
    const struct kitchen *kitchen = sums->at.gathering->kitchen;
    struct range portions = range_exact(0), classes = range_exact(0);
    for (uint32_t i = 0; i < kitchen->rules->portion_class_count; i++) {
        const struct portion_class *class = &kitchen->rules_owner->portion_classes[kitchen->rules->first_portion_class + i];
        if (!class->counts)
            continue;
        struct range grams = kind_class_grams(sums, class);
        struct range found = { whole_portions(grams.low, kind->portion_grams), 0, whole_portions(grams.high, kind->portion_grams) };
        found.best = found.low;
        portions = range_add(portions, found);
        classes = range_add(classes, (struct range){ found.low >= 1, found.low >= 1, found.high >= 1 });
    }
    enum outcome enough = reaches(portions, kind->portions), various = reaches(classes, kind->portion_classes);
    return enough == OUTCOME_BROKEN || various == OUTCOME_BROKEN ? OUTCOME_BROKEN
         : enough == OUTCOME_KEPT && various == OUTCOME_KEPT ? OUTCOME_KEPT : OUTCOME_IN_DOUBT;
}

/* ---- all of it ---------------------------------------------------------------------------------------------------- */

/* Of two lacks the worse counts, of equal ones the first. */
static void lack(struct kind_found *found, enum kind_lack what, enum outcome outcome)
{
    bool worse = outcome == OUTCOME_BROKEN ? found->outcome != OUTCOME_BROKEN : outcome == OUTCOME_IN_DOUBT && found->outcome == OUTCOME_KEPT;
    if (!worse)
        return;
    found->outcome = outcome;
    found->lack = what;
}

struct kind_found recipe_meets_kind(const struct sums *sums, const struct claim_kind *kind, const struct reference *reference)
{
    struct kind_found found = { .outcome = OUTCOME_KEPT, .lack = KIND_LACKS_NOTHING };
    if (kind->least_serving_grams > 0) {
        found.weighed = serving_grams(sums, &found.serving);
        lack(&found, KIND_LACKS_WEIGHT, found.weighed ? reaches(found.serving, kind->least_serving_grams) : OUTCOME_IN_DOUBT);
    }
    if (kind->least_reference_grams > 0)
        lack(&found, KIND_LACKS_REFERENCE, reference->grams > 0 ? reaches(range_exact(reference->grams), kind->least_reference_grams) : OUTCOME_IN_DOUBT);
    if (kind->portions > 0)
        lack(&found, KIND_LACKS_PORTIONS, has_portions(sums, kind));
    if (kind->unchecked.length)
        lack(&found, KIND_UNCHECKED, OUTCOME_IN_DOUBT);
    return found;
}
