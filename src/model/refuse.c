/* Bones, shells, peel, stones: what of a weight nobody eats. The share, and whether a plain weight holds it, is the food's
 * (`refuse 25% bone, weighed with or without it`); which words say it is the treatments'. A piece or a cup is weighed as it
 * is eaten: only weights hold refuse. */
#include "model/treating.h"

enum said { SAID_NOTHING, SAID_WITH, SAID_WITHOUT, SAID_TAKEN_OFF };

struct saying_of_refuse {
    enum said said;
    struct span span;               /* of the words that say it is there */
    bool around;                    /* they stand behind a part */
};

static void hear(struct saying_of_refuse *heard, enum said said, struct span span, bool around)
{
    if (heard->said == SAID_WITH || said == SAID_NOTHING || (heard->said == SAID_WITHOUT && said == SAID_TAKEN_OFF))
        return;
    *heard = (struct saying_of_refuse){ said, span, around };
}

/* Before the name and in it: `bone-in pork chops`, `boneless`, `diced mango`. */
static void hear_name(const struct resolving *resolving, struct saying_of_refuse *heard)
{
    for (uint32_t first = 0; first < resolving->name_end; first++) {
        struct text words[4];
        char key[KEY_BYTES];
        for (uint32_t run = 1; run <= COUNT_OF(words) && first + run <= resolving->name_end; run++) {
            words[run - 1] = resolving->words[first + run - 1].text;
            uint32_t flags = treat_flags(resolving, (struct text){ key, name_key(words, run, false, key) });
            bool without = flags & (TREATMENT_WITHOUT_REFUSE | TREATMENT_TAKES_REFUSE | TREATMENT_CUTS);
            hear(heard, flags & TREATMENT_EDIBLE ? SAID_WITH : without ? SAID_WITHOUT : SAID_NOTHING,
                 resolve_words_span(resolving, first, first + run), false);
        }
    }
}

/* Behind it, where `boneless` says what is weighed and `peeled` what is done to it. */
static void hear_steps(const struct treating *treating, struct saying_of_refuse *heard)
{
    for (uint32_t i = 0; i < treating->step_count; i++) {
        const struct step *step = &treating->steps[i];
        uint32_t flags = treat_flags(treating->resolving, step->key);
        hear(heard, flags & TREATMENT_EDIBLE ? SAID_WITH : flags & TREATMENT_WITHOUT_REFUSE ? SAID_WITHOUT
                    : flags & TREATMENT_TAKES_REFUSE ? SAID_TAKEN_OFF : SAID_NOTHING, step->span, step->part != NONE_INDEX);
    }
}

/* The share of the weight that is eaten. */
static struct range edible_share(const struct food *food, enum said said)
{
    struct range eaten = range_of(1 - food->refuse.high, 1 - food->refuse.best, 1 - food->refuse.low);
    if (said == SAID_WITH)
        return eaten;
    if (said == SAID_WITHOUT || food->refuse_kind == REFUSE_IF_SAID)
        return range_exact(1);
    if (food->refuse_kind == REFUSE_WEIGHED)
        return range_of(eaten.low, eaten.best, said == SAID_TAKEN_OFF ? 1 : eaten.high);
    return range_of(eaten.low, food->refuse_kind == REFUSE_EITHER ? (eaten.best + 1) / 2 : 1, 1);
}

/* Taken off or left open without a word of the line; judge/notes.c drops it where that changes little. */
static void say_taken_off(struct resolving *resolving, struct range share)
{
    struct food_at at = resolving->resolved->food;
    const struct library *library = at.library;
    char eaten[48];
    bool open = share.high == 1 && share.best < 1;
    if (share.best == 1)
        return;
    snprintf(eaten, sizeof eaten, "%.0f%%", share.best * 100);
    struct text what = at.food->refuse_what.length ? library_text(library, at.food->refuse_what) : text_of("what nobody eats");
    resolve_say(resolving, open ? FINDING_REFUSE_OPEN : FINDING_REFUSE_TAKEN, resolve_whole_span(resolving),
                GAPS(library_text(library, at.food->name), what, text_of(eaten)));
}

static void fail_refuse(struct treating *treating, const struct saying_of_refuse *heard)
{
    struct resolving *resolving = treating->resolving;
    struct food_at at = resolving->resolved->food;
    if (heard->around)
        resolving->resolved->flags |= RESOLVED_BAD;
    else
        resolve_fail(resolving, FINDING_NO_REFUSE, heard->span, GAPS(at.food ? library_text(at.library, at.food->name) : text_of("it")));
}

void refuse_leave_edible(struct treating *treating)
{
    struct resolving *resolving = treating->resolving;
    struct resolved *resolved = resolving->resolved;
    const struct food *food = resolved->food.food;
    struct saying_of_refuse heard = { SAID_NOTHING, { 0, 0 }, false };
    if (!resolving->tail->items)
        return;
    if (food && !resolving->string)
        hear_name(resolving, &heard);
    hear_steps(treating, &heard);
    bool known = food && food->refuse.high > 0, weighed = !(resolved->flags & (RESOLVED_BY_COUNT | RESOLVED_BY_VOLUME));
    if (heard.said == SAID_WITH && !known)
        fail_refuse(treating, &heard);
    if (!known || !weighed || !resolving->tail->is_measured)
        return;
    if (resolving->aside.found && resolving->aside.after && heard.said != SAID_WITH)
        heard.said = SAID_WITHOUT;          /* `1 lb shrimp, peeled (12 oz)` */
    struct range share = edible_share(food, heard.said);
    if (range_is_exact(share) && share.best == 1)
        return;
    resolved->scale = range_multiply(resolved->scale, share);
    resolved->edible = share.best;
    derive_note(resolving->derivation, DERIVED_EDIBLE, text_of(""),
                library_text(resolved->food.library, food->refuse_source.length ? food->refuse_source : food->source), share, range_exact(1));
    if (heard.said != SAID_WITH)
        say_taken_off(resolving, share);
}
