/* Two bounds of one thing that nothing can keep both: at least more than at most; or meals that are to hold more than
 * their day may. */
#include "judge/judge.h"

struct contradicting {
    const struct library *library;
    struct place title;                 /* of what is held to the bounds */
    const struct verdicts *verdicts;
    struct findings *findings;
};

static bool of_one_thing(const struct verdict *a, const struct verdict *b)
{
    const struct bound *one = a->bound, *other = b->bound;
    return one->column == other->column && one->over == other->over && one->by_moles == other->by_moles
        && one->basis == other->basis && one->per == other->per && a->meal == b->meal;
}

static bool contradict(const struct bound *least, const struct bound *most)
{
    int order = least->has_least && most->has_most ? amount_compare(least->least, most->most) : -1;
    return order > 0 || (order == 0 && least != most && (least->strict || most->strict));
}

/* The one that stands later in the text, or is the day's own beside a published one, is where it is told; `of` says what
 * is bounded. */
static void tell(const struct contradicting *at, const struct verdict *a, const struct verdict *b, const struct verdict *of,
                 const struct bound *least, const struct bound *most)
{
    char subject[200], low[100], high[100];
    const struct library *library = at->library;
    struct findings *findings = at->findings;
    const struct verdict *here = b->policy || b->published ? a : b, *there = here == a ? b : a;
    struct finding *finding = finding_add(findings, FINDING_LIMITS_CONTRADICT, here->policy ? at->title : here->bound->place,
        GAPS(verdict_subject(library, of, subject, sizeof subject),
             bound_limit(library, least, least->least / least->divisor, low, sizeof low),
             bound_limit(library, most, most->most / most->divisor, high, sizeof high)));
    if (here->policy)
        finding_label(findings, finding, here->bound->place, WORDS_POLICY_HERE, GAPS(here->policy->name));
    finding_label(findings, finding, there->bound->place, WORDS_OTHER_BOUND, NO_GAPS);
}

/* Whether a bound before this one bounds the same thing: it was told there. */
static bool is_again(const struct verdicts *verdicts, uint32_t number)
{
    bool again = false;
    for (uint32_t i = 0; i < number; i++)
        again = again || of_one_thing(&verdicts->at[i], &verdicts->at[number]);
    return again;
}

/* The highest least that is asked of the meal of this verdict, by any bound of what `day` bounds in the whole day; NULL
 * where a verdict before it is of the same meal, and where nothing is asked. */
static const struct verdict *least_of_meal(const struct verdicts *verdicts, uint32_t number, const struct bound *day)
{
    const struct verdict *least = NULL;
    const struct part *meal = verdicts->at[number].meal;
    for (uint32_t i = 0; i < verdicts->count && meal; i++) {
        const struct bound *bound = verdicts->at[i].bound;
        if (verdicts->at[i].meal != meal)
            continue;
        if (i < number)
            return NULL;
        bool same = bound->basis == PER_MEAL && bound->column == day->column && bound->over == NONE_INDEX;
        if (same && bound->has_least && (!least || amount_compare(bound->least, least->bound->least) > 0))
            least = &verdicts->at[i];
    }
    return least;
}

/* What the meals are to hold at least, together, against the most that the day may. */
static void tell_meals(const struct contradicting *at, const struct verdict *day)
{
    struct bound together = *day->bound;
    const struct verdict *last = NULL;
    together.least = 0;
    for (uint32_t i = 0; i < at->verdicts->count; i++) {
        const struct verdict *meal = least_of_meal(at->verdicts, i, day->bound);
        together.least += meal ? meal->bound->least : 0;
        together.strict = together.strict || (meal && meal->bound->strict);
        last = meal ? meal : last;
    }
    together.has_least = last != NULL;
    if (contradict(&together, day->bound))
        tell(at, last < day ? last : day, last < day ? day : last, day, &together, day->bound);
}

/* Of all bounds of one thing, the highest least and the lowest most. */
static void tell_of_one_thing(const struct contradicting *at, uint32_t first)
{
    const struct verdict *least = NULL, *most = NULL;
    for (uint32_t i = first; i < at->verdicts->count; i++) {
        const struct verdict *other = &at->verdicts->at[i];
        if (!of_one_thing(&at->verdicts->at[first], other))
            continue;
        if (other->bound->has_least && (!least || amount_compare(other->bound->least, least->bound->least) > 0))
            least = other;
        if (other->bound->has_most && (!most || amount_compare(other->bound->most, most->bound->most) < 0))
            most = other;
    }
    if (least && most && contradict(least->bound, most->bound)) {
        const struct verdict *earlier = least < most ? least : most, *later = least < most ? most : least;
        tell(at, earlier, later, later, least->bound, most->bound);
    } else if (most && most->bound->basis == PER_DAY && most->bound->over == NONE_INDEX) {
        tell_meals(at, most);
    }
}

void tell_contradictions(const struct library *library, struct place title, const struct verdicts *verdicts, struct findings *findings)
{
    struct contradicting at = { library, title, verdicts, findings };
    for (uint32_t i = 0; i < verdicts->count; i++) {
        if (!is_again(verdicts, i))
            tell_of_one_thing(&at, i);
    }
}
