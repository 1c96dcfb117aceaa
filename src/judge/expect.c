/* Figures that somebody wrote down and relies on: told when the best value has moved away from them, with what may have
 * moved it. */
#include <math.h>
#include <stdio.h>

#include "judge/judge.h"

static struct text print_checksum(char *storage, size_t size, const struct library *library)
{
    int length = snprintf(storage, size, "%016llx", (unsigned long long)library->checksum);
    return (struct text){ storage, (uint32_t)length };
}

/* A library that was recorded and is another one now has moved figures; the same one has not. */
static void note_library(const struct sums *sums, const struct expectation *expectation, struct findings *findings, struct finding *finding)
{
    char storage[32];
    struct text now = print_checksum(storage, sizeof storage, sums->at.gathering->kitchen->stdlib);
    enum words_code code = !expectation->library.length ? WORDS_LIBRARY_NOT_SAID
                         : text_equal(expectation->library, now) ? WORDS_LIBRARY_SAME : WORDS_LIBRARY_MOVED;
    finding_note(findings, finding, code, GAPS(now));
}

static void tell_moved(const struct sums *sums, const struct expectation *expectation, struct range value, bool complete,
                       double divisor, struct findings *findings)
{
    char subject[200], was[48], within[24], is[200];
    const struct library *library = sums->at.gathering->kitchen->library;
    struct bound bound = { .column = expectation->column, .over = NONE_INDEX, .origin = ORIGIN_COUNT, .basis = expectation->basis,
                           .divisor = expectation->divisor, .unit = expectation->unit };
    struct verdict verdict = { .bound = &bound, .value = value, .complete = complete };
    snprintf(within, sizeof within, "%g%%", expectation->within * 100);
    struct finding *finding = finding_add(findings, FINDING_EXPECTATION_MOVED, expectation->place,
        GAPS(verdict_subject(library, &verdict, subject, sizeof subject), bound_limit(library, &bound, expectation->value / expectation->divisor, was, sizeof was),
             text_of(within), verdict_value(library, &verdict, expectation->value / expectation->divisor, is, sizeof is)));
    note_library(sums, expectation, findings, finding);
    note_largest_lines(sums, expectation->column, divisor, findings, finding);
}

static void check_one(const struct sums *sums, const struct expectation *expectation, struct findings *findings)
{
    struct range value = sums->total.column[expectation->column], serves = sums->at.recipe->serves;
    bool complete = amounts_complete(&sums->total, expectation->column);
    double spread = expectation->value * expectation->within;
    if (expectation->basis == PER_SERVING && serves.low <= 0) {
        finding_add(findings, FINDING_BOUND_NEEDS_SERVES, expectation->place, NO_GAPS);
        return;
    }
    double divisor = expectation->basis == PER_SERVING ? serves.best : 1;
    value = expectation->basis == PER_SERVING ? range_divide(value, serves) : value;
    bool above = amount_compare(value.best, expectation->value + spread) > 0;
    bool below = amount_compare(value.best, expectation->value - spread) < 0;
    if (!complete || above || below)
        tell_moved(sums, expectation, value, complete, divisor, findings);
}

void recipe_check_expectations(const struct sums *sums, struct findings *findings)
{
    const struct recipe *recipe = sums->at.recipe;
    for (uint32_t i = 0; i < recipe->expectation_count; i++)
        check_one(sums, &sums->at.gathering->expectations[recipe->first_expectation + i], findings);
}
