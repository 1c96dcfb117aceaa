/* What of a handout comes before any figure, the most dangerous first, and what is told of limits. */
#include <string.h>

#include "output/figures.h"
#include "output/handout.h"

/* ---- limits -------------------------------------------------------------------------------------------------------- */

bool handout_is_urgent(const struct verdict *verdict)
{
    return verdict->bound->by_clinician && verdict->outcome != OUTCOME_KEPT;
}

bool handout_is_plain(const struct handout *handout, const struct verdict *verdict)
{
    const struct bound *bound = verdict->bound;
    return bound->column == handout->traced && bound->over == NONE_INDEX && bound->origin == ORIGIN_COUNT && bound->has_most && !bound->has_least
        && !bound->is_goal && !verdict->meal && (bound->basis == PER_SERVING || bound->basis == PER_DAY || bound->basis == PER_RECIPE);
}

static enum report_phrase most_phrase(const struct verdict *verdict)
{
    bool goal = verdict->bound->is_goal;
    if (verdict->outcome == OUTCOME_KEPT)
        return goal ? PHRASE_HAND_GOAL_KEPT : PHRASE_HAND_WITHIN;
    if (verdict->outcome == OUTCOME_BROKEN)
        return goal ? PHRASE_HAND_GOAL_MISSED : PHRASE_HAND_OVER;
    if (goal)
        return PHRASE_HAND_GOAL_DOUBT;
    bool probably = verdict->complete && amount_compare(verdict->value.best, verdict->bound->most) > 0;
    return probably ? PHRASE_HAND_PROBABLY_OVER : PHRASE_HAND_MAY_BE_OVER;
}

static enum report_phrase least_phrase(const struct verdict *verdict)
{
    static const enum report_phrase goals[] = { PHRASE_HAND_GOAL_KEPT, PHRASE_HAND_GOAL_MISSED, PHRASE_HAND_GOAL_DOUBT };
    static const enum report_phrase limits[] = { PHRASE_HAND_LEAST_KEPT, PHRASE_HAND_UNDER, PHRASE_HAND_MAY_BE_UNDER };
    return verdict->bound->is_goal ? goals[verdict->outcome] : limits[verdict->outcome];
}

/* Which policy, table or person it comes from. */
static struct text of_whom(const struct handout *handout, const struct verdict *verdict, struct text limit)
{
    if (verdict->bound->by_clinician)
        return sheet_say(handout->sheet, PHRASE_HAND_LIMIT_CARE, limit);
    if (verdict->policy)
        return sheet_say(handout->sheet, PHRASE_HAND_LIMIT_OF, limit, verdict->policy->name);
    if (verdict->published)
        return sheet_say(handout->sheet, claim_is_from_memory(library_text(verdict->published->owner, verdict->published->figure->source)) ? PHRASE_HAND_LIMIT_UNCHECKED : PHRASE_HAND_LIMIT_OF,
                         limit, library_text(verdict->published->owner, verdict->published->intake->title));
    return limit;
}

struct text handout_outcome(const struct handout *handout, const struct verdict *verdict)
{
    char storage[200];
    struct text limit = bound_limit(handout->page->library, verdict->bound, bound_against(verdict), storage, sizeof storage);
    limit = sheet_print(handout->sheet, "%.*s", (int)limit.length, limit.bytes);
    return sheet_say(handout->sheet, bound_uses_most(verdict) ? most_phrase(verdict) : least_phrase(verdict), of_whom(handout, verdict, limit));
}

/* Whether the amount, rounded as elsewhere on the sheet, is on the side of the limit on which it truly is. */
static bool keeps_side(const struct handout *handout, const struct verdict *verdict, double amount, enum direction direction)
{
    double against = bound_against(verdict);
    return amount_compare(page_rounded(handout->page, verdict->bound->column, amount, direction), against) == amount_compare(amount, against);
}

static struct text value_words(const struct handout *handout, const struct verdict *verdict)
{
    char value[200];
    const struct bound *bound = verdict->bound;
    struct range held = verdict->value;
    bool plain = bound->over == NONE_INDEX && bound->column < handout->page->library->nutrient_total && bound->divisor == 1
              && (bound->basis == PER_SERVING || bound->basis == PER_DAY || bound->basis == PER_RECIPE);
    if (plain && keeps_side(handout, verdict, held.low, ROUND_DOWN)
        && (!verdict->complete || (keeps_side(handout, verdict, held.best, ROUND_NEAREST) && keeps_side(handout, verdict, held.high, ROUND_UP))))
        return page_amount(handout->page, bound->column, held, verdict->complete);
    struct text words = verdict_value(handout->page->library, verdict, bound_against(verdict), value, sizeof value);
    return sheet_print(handout->sheet, "%.*s", (int)words.length, words.bytes);
}

/* `potassium per day: 2545 mg (2400 to 2700). Over the limit of 1000 mg that your care team set.` */
static struct text verdict_words(const struct handout *handout, const struct verdict *verdict)
{
    char subject[200];
    const struct library *library = handout->page->library;
    struct text of = verdict_subject(library, verdict, subject, sizeof subject);
    return sheet_say(handout->sheet, PHRASE_HAND_VERDICT, sheet_print(handout->sheet, "%.*s", (int)of.length, of.bytes),
                     value_words(handout, verdict), handout_outcome(handout, verdict));
}

void handout_tell_limits(const struct handout *handout)
{
    const struct verdicts *verdicts = handout->report->verdicts;
    bool begun = false;
    for (uint32_t i = 0; i < verdicts->count; i++) {
        const struct verdict *verdict = &verdicts->at[i];
        if (handout_is_urgent(verdict) || handout_is_plain(handout, verdict))
            continue;
        if (!begun)
            sheet_heading(handout->sheet, 2, phrase_text(PHRASE_HAND_LIMITS));
        page_item(handout->page, &begun, verdict_words(handout, verdict));
    }
    page_end_list(handout->page, begun);
}

/* ---- what comes first ---------------------------------------------------------------------------------------------- */

/* Errors of what is written. That a limit is broken is what the handout is for. */
static bool has_errors(const struct report *report)
{
    bool errors = false;
    for (uint32_t i = 0; i < report->findings_count; i++) {
        const char *code = finding_code(report->findings[i]);
        errors = errors || (report->findings[i]->severity == SEVERITY_ERROR && strcmp(code, "limit-broken") != 0);
    }
    return errors;
}

/* Cautions that come first, or all others. */
struct cautioning {
    struct sheet *sheet;
    bool first;
};

static void tell_caution(void *context, const struct caution_told *told)
{
    const struct cautioning *cautioning = context;
    if (told->first == cautioning->first)
        sheet_paragraph(cautioning->sheet, MANNER_CAUTION,
                        told->because.length ? sheet_say(cautioning->sheet, PHRASE_HAND_BECAUSE, told->words, told->because) : told->words);
}

void handout_tell_first(const struct handout *handout)
{
    const struct verdicts *verdicts = handout->report->verdicts;
    struct cautioning first = { handout->sheet, true };
    if (has_errors(handout->report)) {
        sheet_heading(handout->sheet, 2, phrase_text(PHRASE_HAND_NOT_READY));
        sheet_paragraph(handout->sheet, MANNER_DOUBT, phrase_text(PHRASE_HAND_NOT_READY_WHY));
    }
    page_print_others_policies(handout->page, handout->report);
    for (uint32_t i = 0; i < verdicts->count; i++) {
        if (handout_is_urgent(&verdicts->at[i]))
            sheet_paragraph(handout->sheet, MANNER_DOUBT, verdict_words(handout, &verdicts->at[i]));
    }
    report_cautions(handout->page->kitchen, handout->report, tell_caution, &first);
}

void handout_tell_cautions(const struct handout *handout)
{
    struct cautioning others = { handout->sheet, false };
    sheet_heading(handout->sheet, 2, phrase_text(PHRASE_HAND_CAUTIONS));
    report_cautions(handout->page->kitchen, handout->report, tell_caution, &others);
    handing_print_maker(handout->page->showing, handout->sheet);
}
