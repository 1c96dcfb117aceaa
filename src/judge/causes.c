/* What drives a value: the lines that give most of it; or the one that leaves it in doubt, and what would settle that. */
#include <math.h>

#include "judge/judge.h"

struct looking {
    const struct sums *sums;
    const struct library *library;
    const struct bound *bound;
    struct findings *findings;
    struct finding *finding;
    uint32_t first, end;                    /* the lines that it comes from */
    double divisor;                         /* of what a line holds, as people are told it */
};

static const struct line_amount *line_at(const struct looking *looking, uint32_t number)
{
    return &looking->sums->lines[number];
}

static struct range held(const struct looking *looking, uint32_t number)
{
    return line_column(line_at(looking, number), looking->library, looking->bound->column);
}

/* The line as people know it: its amount and what follows. */
static struct text line_words(const struct looking *looking, uint32_t number, char *storage, size_t size)
{
    const struct line *line = line_at(looking, number)->line;
    if (line->tail == NONE_INDEX)
        return text_of("a line that a finding speaks of");
    struct text tail = looking->sums->at.gathering->tails[line->tail].text;
    char low[40], high[40];
    print_number(low, sizeof low, line->low, 4);
    print_number(high, sizeof high, line->high, 4);
    int length, tail_length = tail.length > 80 ? 80 : (int)tail.length;
    while (tail_length < (int)tail.length && tail_length > 0 && (tail.bytes[tail_length] & 0xc0) == 0x80)
        tail_length--;                                              /* no letter is cut in two */
    if (line->quantity == QUANTITY_NUMBER)
        length = snprintf(storage, size, "%s %.*s", low, tail_length, tail.bytes);
    else if (line->quantity == QUANTITY_RANGE)
        length = snprintf(storage, size, "%s to %s %.*s", low, high, tail_length, tail.bytes);
    else
        length = snprintf(storage, size, "some %.*s", tail_length, tail.bytes);
    return (struct text){ storage, (uint32_t)length };
}

/* What one line holds, in the unit of the column. */
static struct text print_held(const struct looking *looking, double amount, char *storage, size_t size)
{
    struct bound plain = *looking->bound;
    plain.over = NONE_INDEX;
    return print_amount(storage, size, amount / looking->divisor, bound_column_unit(looking->library, &plain));
}

/* ---- what gives most ---------------------------------------------------------------------------------------------- */

/* The line with the largest best value below `ceiling` (by value, then by number); NONE_INDEX at the end. */
static uint32_t next_contributor(const struct looking *looking, double ceiling, uint32_t after)
{
    uint32_t found = NONE_INDEX;
    double best = 0;
    for (uint32_t i = looking->first; i < looking->end; i++) {
        double value = held(looking, i).best;
        bool behind = value < ceiling || (value == ceiling && after != NONE_INDEX && i > after);
        if (behind && value > best) {
            best = value;
            found = i;
        }
    }
    return found;
}

static void note_contributors(const struct looking *looking)
{
    uint32_t number = NONE_INDEX;
    double total = 0, ceiling = INFINITY;
    for (uint32_t i = looking->first; i < looking->end; i++)
        total += held(looking, i).best;
    for (int i = 0; i < 3 && total > 0; i++) {
        char amount[48], share[16], words[160];
        number = next_contributor(looking, ceiling, number);
        if (number == NONE_INDEX)
            return;
        ceiling = held(looking, number).best;
        if (ceiling < total * 0.02)
            return;
        snprintf(share, sizeof share, "%.0f%%", ceiling / total * 100);
        finding_note(looking->findings, looking->finding, WORDS_CONTRIBUTOR,
                     GAPS(line_words(looking, number, words, sizeof words), print_held(looking, ceiling, amount, sizeof amount), text_of(share)));
    }
}

void note_largest_lines(const struct sums *sums, uint32_t column, double divisor, struct findings *findings, struct finding *finding)
{
    struct bound bound = { .column = column, .over = NONE_INDEX, .basis = PER_RECIPE };
    struct looking looking = { .sums = sums, .library = sums->at.gathering->kitchen->library, .bound = &bound, .findings = findings,
                               .finding = finding, .end = sums->line_count, .divisor = divisor };
    note_contributors(&looking);
}

/* ---- what is in doubt --------------------------------------------------------------------------------------------- */

/* What a line holds of what is bounded, with what may be of it. */
static struct range may_hold(const struct looking *looking, uint32_t number)
{
    uint32_t beside = unseparated_beside(looking->library, looking->bound->column);
    struct range amount = held(looking, number);
    if (beside != NONE_INDEX)
        amount.high += line_column(line_at(looking, number), looking->library, beside).high;
    return amount;
}

/* How far the low end stays behind the high one: 1 where they are one, 0 where there may be none. */
static double closeness(struct range range)
{
    return range.high > 0 ? range.low / range.high : 1;
}

static const char *settle_amount(const struct line_amount *amount)
{
    struct range written = range_between(amount->line->low, amount->line->high);
    bool is_range = amount->line->quantity == QUANTITY_RANGE && closeness(written) <= closeness(amount->resolved->scale);
    if (amount->resolved->flags & RESOLVED_OPTIONAL)
        return "say whether it goes in";
    return is_range ? "give one amount instead of a range" : "weigh it";
}

static const char *settle_food(const struct line_amount *amount)
{
    if (amount->resolved->subject == SUBJECT_RECIPE)
        return "see there which line is the widest";
    return amount->resolved->food.food && amount->resolved->food.food->flags & FOOD_IS_LABEL ? "ask the maker for the figure before rounding"
         : "the food itself differs so much; the label of yours may say more exactly";
}

/* What would make a line certain depends on what makes it wide: its amount, the food, or what was done to it. */
static const char *settling_words(const struct looking *looking, uint32_t number)
{
    const struct line_amount *amount = line_at(looking, number);
    struct range own = held(looking, number);
    if (may_hold(looking, number).high - own.high > own.high - own.low)
        return "no source says whose it is; its maker may";
    double all = closeness(own), of_amount = closeness(amount->as_written), of_food = closeness(amount->values[looking->bound->column]);
    double of_treatment = of_amount > 0 && of_food > 0 ? all / (of_amount * of_food) : 1;
    if (of_treatment < of_amount && of_treatment < of_food)
        return amount->resolved->rare->visit_count ? "no source says more exactly how much of the bath is taken up"
                                                   : "no source says more exactly what is done to it; weigh what is left of it";
    return of_amount <= of_food ? settle_amount(amount) : settle_food(amount);
}

/* The columns that the value comes from. */
static uint64_t asked_columns(const struct looking *looking)
{
    uint32_t others[] = { unseparated_beside(looking->library, looking->bound->column), bound_under(looking->library, looking->bound) };
    uint64_t columns = (uint64_t)1 << looking->bound->column;
    for (uint32_t i = 0; i < COUNT_OF(others); i++)
        columns |= others[i] == NONE_INDEX ? 0 : (uint64_t)1 << others[i];
    return columns;
}

static bool note_unknown_lines(const struct looking *looking)
{
    uint32_t told = 0, under = bound_under(looking->library, looking->bound);
    uint64_t columns = asked_columns(looking);
    for (uint32_t i = looking->first; i < looking->end && told < 3; i++) {
        const struct line_amount *amount = line_at(looking, i);
        if (!(amount->incomplete & columns))
            continue;
        char words[160];
        const char *reason = amount->unmeasured ? "measure it" : amount->unknown ? "settle the finding about it"
                                                                                 : "no source gives a figure; a label may";
        bool above = amount->incomplete >> looking->bound->column & 1, below = under != NONE_INDEX && amount->incomplete >> under & 1;
        finding_note(looking->findings, looking->finding, WORDS_DOUBT_UNKNOWN,
                     GAPS(column_name(looking->library, below && !above ? under : looking->bound->column), line_words(looking, i, words, sizeof words), text_of(reason)));
        told++;
    }
    return told > 0;
}

/* The widest line, and what would settle it. */
static void note_widest(const struct looking *looking)
{
    uint32_t widest = NONE_INDEX;
    double width = 0;
    for (uint32_t i = looking->first; i < looking->end; i++) {
        struct range amount = may_hold(looking, i);
        if (amount.high - amount.low > width) {
            width = amount.high - amount.low;
            widest = i;
        }
    }
    if (widest == NONE_INDEX)
        return;
    char low[48], high[48], words[160];
    struct range amount = may_hold(looking, widest);
    finding_note(looking->findings, looking->finding, WORDS_DOUBT_RANGE,
                 GAPS(line_words(looking, widest, words, sizeof words), print_held(looking, amount.low, low, sizeof low),
                      print_held(looking, amount.high, high, sizeof high), text_of(settling_words(looking, widest))));
}

void verdict_note_causes(const struct sums *sums, const struct verdict *verdict, struct findings *findings, struct finding *finding)
{
    const struct bound *bound = verdict->bound;
    bool per_serving = bound->over == NONE_INDEX && bound->basis == PER_SERVING;
    struct looking looking = { .sums = sums, .library = sums->at.gathering->kitchen->library, .bound = bound, .findings = findings, .finding = finding,
                               .first = verdict->first_line, .end = verdict->line_end, .divisor = per_serving ? sums->at.recipe->serves.best : 1 };
    if (verdict->outcome == OUTCOME_BROKEN && bound_uses_most(verdict))
        note_contributors(&looking);
    if (verdict->outcome != OUTCOME_IN_DOUBT)
        return;
    if (verdict->estimated)
        finding_note(findings, finding, WORDS_DOUBT_ESTIMATE, NO_GAPS);
    if (!note_unknown_lines(&looking))
        note_widest(&looking);
}
