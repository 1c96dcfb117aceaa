/* A verdict as a finding: what is bounded, what it is, and which side of the bound it misses. */
#include "judge/judge.h"

bool bound_uses_most(const struct verdict *verdict)
{
    const struct bound *bound = verdict->bound;
    return bound->has_most && (!bound->has_least || amount_compare(verdict->value.high, bound->most) > 0);
}

const char *bound_words(const struct verdict *verdict)
{
    const struct bound *bound = verdict->bound;
    bool broken = verdict->outcome == OUTCOME_BROKEN, use_most = bound_uses_most(verdict);
    if (broken && use_most)
        return bound->is_goal ? "more than the goal of" : bound->strict ? "not under the limit of" : "over the limit of";
    if (broken)
        return bound->is_goal ? "less than the goal of" : bound->strict ? "not over" : "less than the required";
    return use_most ? bound->strict ? "under" : "at most" : bound->strict ? "over" : "at least";
}

double bound_against(const struct verdict *verdict)
{
    const struct bound *bound = verdict->bound;
    return (bound_uses_most(verdict) ? bound->most : bound->least) / bound->divisor;
}

static enum words_code code_of(const struct verdict *verdict)
{
    if (verdict->outcome == OUTCOME_BROKEN)
        return verdict->bound->is_goal ? FINDING_GOAL_MISSED : FINDING_LIMIT_BROKEN;
    return verdict->bound->is_goal ? FINDING_GOAL_IN_DOUBT : FINDING_LIMIT_IN_DOUBT;
}

struct finding *verdict_tell(const struct library *library, const struct verdict *verdict, struct place title, struct findings *findings)
{
    char subject[200], value[200], limit[100];
    const struct bound *bound = verdict->bound;
    double against = bound_against(verdict);
    struct finding *finding = finding_add(findings, code_of(verdict), verdict->policy ? title : bound->place,
        GAPS(verdict_subject(library, verdict, subject, sizeof subject), verdict_value(library, verdict, against, value, sizeof value),
             text_of(bound_words(verdict)), bound_limit(library, bound, against, limit, sizeof limit)));
    if (verdict->policy)
        finding_label(findings, finding, bound->place, WORDS_POLICY_HERE, GAPS(verdict->policy->name));
    if (verdict->published)
        finding_note(findings, finding, WORDS_INTAKE_SAYS, GAPS(library_text(verdict->published->owner, verdict->published->intake->title),
                     library_text(verdict->published->owner, verdict->published->figure->source)));
    if (verdict->published && bound->slack > 0)
        finding_note(findings, finding, WORDS_SEVERAL_PUBLISHED, NO_GAPS);
    return finding;
}
