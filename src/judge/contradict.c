/* Two bounds of one thing that nothing can keep both: at least more than at most. */
#include "judge/judge.h"

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

/* The one that stands later in the text, or is the day's own beside a published one, is where it is told. */
static void tell(const struct sums *sums, const struct verdict *a, const struct verdict *b, const struct bound *least,
                 const struct bound *most, struct findings *findings)
{
    char subject[200], low[100], high[100];
    const struct library *library = sums->at.gathering->kitchen->library;
    const struct verdict *here = b->policy || b->published ? a : b, *there = here == a ? b : a;
    struct place title = { sums->at.recipe->file, sums->at.recipe->title };
    struct finding *finding = finding_add(findings, FINDING_LIMITS_CONTRADICT, here->policy ? title : here->bound->place,
        GAPS(verdict_subject(library, here, subject, sizeof subject),
             bound_limit(library, least, least->least / least->divisor, low, sizeof low),
             bound_limit(library, most, most->most / most->divisor, high, sizeof high)));
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

/* Of all bounds of one thing, the highest least and the lowest most. */
void tell_contradictions(const struct sums *sums, const struct verdicts *verdicts, struct findings *findings)
{
    for (uint32_t i = 0; i < verdicts->count; i++) {
        const struct verdict *least = NULL, *most = NULL;
        for (uint32_t j = i; j < verdicts->count && !is_again(verdicts, i); j++) {
            const struct verdict *other = &verdicts->at[j];
            if (!of_one_thing(&verdicts->at[i], other))
                continue;
            if (other->bound->has_least && (!least || amount_compare(other->bound->least, least->bound->least) > 0))
                least = other;
            if (other->bound->has_most && (!most || amount_compare(other->bound->most, most->bound->most) < 0))
                most = other;
        }
        if (least && most && contradict(least->bound, most->bound))
            tell(sums, least < most ? least : most, least < most ? most : least, least->bound, most->bound, findings);
    }
}
