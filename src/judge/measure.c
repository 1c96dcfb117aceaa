/* Measures that nobody has fixed (a pinch, a handful, a heaped spoon), told where they move a figure that is held. */
#include "judge/notes.h"

#define MOVES 0.1                       /* of the limit: a narrower line is not worth a word */

/* How far the line alone spreads the value of the verdict. */
static double width_in(const struct sums *sums, const struct verdict *verdict, const struct line_amount *amount)
{
    const struct library *library = sums->at.gathering->kitchen->library;
    double total = sums->total.column[verdict->bound->column].best;
    struct range held = line_column(amount, library, verdict->bound->column);
    return total > 0 ? (held.high - held.low) / total * verdict->value.best : 0;
}

/* Of sodium, all of it or by origin, also so far that it is worth a word at all. */
static bool is_worth_a_word(const struct sums *sums, const struct bound *bound, const struct line_amount *amount)
{
    const struct library *library = sums->at.gathering->kitchen->library;
    bool traced = bound->column == library->traced || bound->column >= library->nutrient_total;
    return !traced || line_is_wide(sums, amount);
}

static bool moves(const struct sums *sums, const struct verdicts *verdicts, const struct line_amount *amount)
{
    for (uint32_t i = 0; i < verdicts->count; i++) {
        const struct bound *bound = verdicts->at[i].bound;
        double limit = bound->has_most ? bound->most : bound->least;
        if (bound->over == NONE_INDEX && is_worth_a_word(sums, bound, amount) && amount_compare(width_in(sums, &verdicts->at[i], amount), limit * MOVES) > 0)
            return true;
    }
    return false;
}

static bool is_open(const struct line_amount *amount)
{
    const struct resolved *resolved = amount->resolved;
    return !amount->unknown && resolved && resolved->rare->measure_ml.high > 0 && !range_is_exact(resolved->rare->measure_ml)
        && !(resolved->flags & RESOLVED_TOTAL);
}

void recipe_note_measures(const struct sums *sums, const struct verdicts *verdicts, struct findings *findings)
{
    for (uint32_t i = 0; i < sums->line_count && verdicts->count > 0; i++) {
        char low[48], high[48];
        const struct line_amount *amount = &sums->lines[i];
        if (!is_open(amount) || !moves(sums, verdicts, amount))
            continue;
        struct range ml = amount->resolved->rare->measure_ml;
        bool again = false;
        for (uint32_t j = 0; j < i && !again; j++) {        /* `pinch`, `pinches` */
            const struct line_amount *before = &sums->lines[j];
            struct range other = is_open(before) ? before->resolved->rare->measure_ml : range_exact(0);
            again = other.low == ml.low && other.high == ml.high && moves(sums, verdicts, before);
        }
        if (again)
            continue;
        finding_add(findings, FINDING_VAGUE_MEASURE, recipe_line_place(sums, amount->line),
                    GAPS(amount->resolved->rare->measure_words, print_amount(low, sizeof low, ml.low, text_of("ml")), print_amount(high, sizeof high, ml.high, text_of("ml"))));
    }
}
