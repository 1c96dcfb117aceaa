/* Limits and goals in words, each with its outcome; the words stand in the catalogue of phrases. */
#include "output/held.h"

struct text held_outcome(const struct verdict *verdict)
{
    static const enum report_phrase phrases[] = { PHRASE_KEPT, PHRASE_BROKEN, PHRASE_IN_DOUBT };
    return phrase_text(verdict->outcome == OUTCOME_BROKEN && verdict->bound->is_goal ? PHRASE_MISSED : phrases[verdict->outcome]);
}

enum tone held_tone(const struct verdict *verdict)
{
    static const enum tone tones[] = { TONE_KEPT, TONE_BROKEN, TONE_DOUBT };
    return tones[verdict->outcome];
}

struct text held_bound(struct sheet *sheet, const struct library *library, const struct bound *bound)
{
    char first[200], second[200];
    struct text least = bound_limit(library, bound, bound->least / bound->divisor, first, sizeof first);
    struct text most = bound_limit(library, bound, bound->most / bound->divisor, second, sizeof second);
    if (bound->has_most && bound->has_least)
        return sheet_say(sheet, PHRASE_SIDE_BETWEEN, least, most);
    if (bound->has_most)
        return sheet_say(sheet, PHRASE_SIDE, phrase_text(bound->strict ? PHRASE_SIDE_UNDER : PHRASE_SIDE_AT_MOST), most);
    return sheet_say(sheet, PHRASE_SIDE, phrase_text(bound->strict ? PHRASE_SIDE_OVER : PHRASE_SIDE_AT_LEAST), least);
}

/* With where the bound is from: a policy, what is published, a clinician. */
static struct text with_source(struct sheet *sheet, const struct verdict *verdict, struct text words)
{
    bool by_clinician = verdict->bound->by_clinician;
    if (verdict->policy)
        return sheet_say(sheet, by_clinician ? PHRASE_OF_POLICY_BY_CLINICIAN : PHRASE_OF_POLICY, words, verdict->policy->name);
    if (verdict->published)
        return sheet_say(sheet, PHRASE_OF_POLICY, words, library_text(verdict->published->owner, verdict->published->intake->title));
    return by_clinician ? sheet_say(sheet, PHRASE_OF_POLICY, words, phrase_text(PHRASE_BY_CLINICIAN)) : words;
}

struct text held_limit(struct sheet *sheet, const struct library *library, const struct verdict *verdict)
{
    char subject[200];
    struct text words = sheet_say(sheet, verdict->bound->is_goal ? PHRASE_GOAL : PHRASE_LIMIT, verdict_subject(library, verdict, subject, sizeof subject),
                                  held_bound(sheet, library, verdict->bound));
    return with_source(sheet, verdict, words);
}

struct text held_value(struct sheet *sheet, const struct library *library, const struct verdict *verdict)
{
    char value[200];
    const struct bound *bound = verdict->bound;
    double against = (bound->has_most ? bound->most : bound->least) / bound->divisor;
    struct text found = verdict_value(library, verdict, against, value, sizeof value);
    return sheet_print(sheet, "%.*s", (int)found.length, found.bytes);
}

struct text held_words(struct sheet *sheet, const struct library *library, const struct verdict *verdict)
{
    return sheet_say(sheet, PHRASE_HELD, held_outcome(verdict), held_limit(sheet, library, verdict), held_value(sheet, library, verdict));
}

/* ---- all of them ------------------------------------------------------------------------------------------------------------ */

enum standing_rank standing_rank_of(const struct verdict *verdict)
{
    if (verdict->outcome == OUTCOME_BROKEN)
        return verdict->bound->is_goal ? STANDING_MISSED : STANDING_BROKEN;
    return verdict->outcome == OUTCOME_KEPT ? STANDING_KEPT : STANDING_DOUBT;
}

struct standing standing_of(const struct verdicts *verdicts, uint32_t beyond)
{
    struct standing standing = { .beyond = beyond };
    for (uint32_t i = 0; verdicts && i < verdicts->count; i++) {
        enum standing_rank rank = standing_rank_of(&verdicts->at[i]);
        standing.broken += rank == STANDING_BROKEN;
        standing.doubt += rank == STANDING_DOUBT;
        standing.missed += rank == STANDING_MISSED;
    }
    bool held = verdicts && verdicts->count > 0;
    standing.rank = standing.broken ? STANDING_BROKEN : standing.doubt ? STANDING_DOUBT : standing.missed || beyond ? STANDING_MISSED
                  : held ? STANDING_KEPT : STANDING_FREE;
    return standing;
}

struct text standing_words(struct sheet *sheet, const struct standing *standing)
{
    struct text words = text_of("");
    const struct { uint32_t count; enum report_phrase one, many; } parts[] = {
        { standing->broken, PHRASE_STANDING_BROKEN_ONE, PHRASE_STANDING_BROKEN }, { standing->doubt, PHRASE_STANDING_DOUBT_ONE, PHRASE_STANDING_DOUBT },
        { standing->missed, PHRASE_STANDING_MISSED_ONE, PHRASE_STANDING_MISSED }, { standing->beyond, PHRASE_STANDING_BEYOND_ONE, PHRASE_STANDING_BEYOND },
    };
    if (standing->rank == STANDING_KEPT || standing->rank == STANDING_FREE)
        return phrase_text(standing->rank == STANDING_KEPT ? PHRASE_STANDING_KEPT : PHRASE_STANDING_FREE);
    for (uint32_t i = 0; i < COUNT_OF(parts); i++) {
        if (!parts[i].count)
            continue;
        struct text part = parts[i].count == 1 ? phrase_text(parts[i].one) : sheet_say(sheet, parts[i].many, sheet_print(sheet, "%u", parts[i].count));
        words = sheet_print(sheet, "%.*s%s%.*s", (int)words.length, words.bytes, words.length ? ", " : "", (int)part.length, part.bytes);
    }
    return words;
}

enum tone standing_tone(const struct standing *standing)
{
    static const enum tone tones[STANDING_COUNT] = { TONE_BROKEN, TONE_DOUBT, TONE_BROKEN, TONE_KEPT, TONE_PLAIN };
    return tones[standing->rank];
}
