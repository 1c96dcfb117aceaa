/* What was done to a food, as steps in order: words taken off its name, phrases behind it, remarks, and what stands behind
 * the parts around the line. */
#include <string.h>

#include "model/treating.h"

static void add_step(struct treating *treating, struct step step, const char *key, uint32_t length)
{
    struct span span = step.span;
    if (length == 0)
        return;
    if (treating->step_count == LIMIT_PHRASES || treating->used + length > sizeof treating->storage) {
        if (!treating->too_long)
            resolve_fail(treating->resolving, FINDING_LINE_TOO_LONG, span, NO_GAPS);
        treating->too_long = true;
        return;
    }
    memcpy(treating->storage + treating->used, key, length);
    step.key = (struct text){ treating->storage + treating->used, length };
    treating->steps[treating->step_count++] = step;
    treating->used += length;
}

static bool has_percent(const struct item *items)
{
    while (items && !(items->quantity && items->quantity->is_percent))
        items = items->next;
    return items != NULL;
}

/* `in "pot"` at the end of a phrase. */
static struct text bath_of(const struct resolving *resolving, const struct phrase *phrase)
{
    for (const struct item *item = phrase->items; item; item = item->next) {
        if (item->kind == ITEM_BATH)
            return span_text(resolving->tail->text, item->inside->span);
    }
    return (struct text){ NULL, 0 };
}

/* What was done in the bath: the words before `in "pot"`. */
static struct text before_bath(const struct resolving *resolving, const struct phrase *phrase)
{
    struct span span = { phrase->span.start, phrase->span.start };
    for (const struct item *item = phrase->items; item && item->kind != ITEM_BATH; item = item->next)
        span.end = item->span.end;
    return span_text(resolving->tail->text, span);
}

/* A part's own words (`kept 20%`, `reduced by half`) are no treatment of the foods in it. */
static bool takes_words_of_language(struct resolving *resolving, const struct phrase *phrase)
{
    struct resolved aside = { 0 }, *own = resolving->resolved;
    struct rare rare = resolving->rare;
    if (!resolving->around)
        return treat_take_words_of_language(resolving, phrase);
    resolving->resolved = &aside;
    bool taken = treat_take_words_of_language(resolving, phrase);
    resolving->resolved = own;
    resolving->rare = rare;
    return taken;
}

static void gather_phrase(struct treating *treating, const struct phrase *phrase, uint32_t part)
{
    struct resolving *resolving = treating->resolving;
    char key[KEY_BYTES];
    if (phrase->items->kind == ITEM_STRING && !phrase->items->next)
        return;                                     /* the cook's own words */
    if (takes_words_of_language(resolving, phrase) || (!resolving->around && measure_take_size(resolving, phrase)))
        return;
    if (has_percent(phrase->items)) {       /* `, 2%` is no cooking time that could be left out */
        resolve_fail_treatment(resolving, span_text(resolving->tail->text, phrase->span), phrase->span);
        return;
    }
    struct step step = { .bath = bath_of(resolving, phrase), .span = phrase->span, .part = part,
                         .written = span_text(resolving->tail->text, phrase->span) };
    uint32_t length = treat_phrase_key(resolving, phrase->items, key);
    if (step.bath.bytes)
        step.written = before_bath(resolving, phrase);
    if (step.bath.bytes && length == 0)
        resolve_fail(resolving, FINDING_BATH_HOW, phrase->span, GAPS(step.bath));
    add_step(treating, step, key, length);
}

/* `(optional)`: a parenthesis without a measure says what was done, or it is an error; nothing in it is lost. */
static void gather_remark(struct treating *treating, const struct item *group)
{
    struct phrase phrase = { .items = group->inside, .span = group->span };
    if (phrase.items)
        gather_phrase(treating, &phrase, NONE_INDEX);
}

static void gather_peeled(struct treating *treating, uint32_t first, uint32_t end)
{
    struct resolving *resolving = treating->resolving;
    char key[KEY_BYTES];
    for (uint32_t i = first, number = 0; i < end; number++) {
        uint32_t run = number < resolving->peeled_count ? resolving->peeled[number] : 1;
        struct text words[3], written = resolve_words_text(resolving, i, i + run);
        for (uint32_t j = 0; j < run; j++)
            words[j] = resolving->words[i + j].text;
        if (run > 1 || !treat_is_argument(resolving, written))
            add_step(treating, (struct step){ .written = written, .span = resolve_words_span(resolving, i, i + run), .part = NONE_INDEX },
                     key, name_key(words, run, false, key));
        i += run;
    }
}

/* The phrases of the parts around the line, from the innermost on. */
static void gather_around(struct treating *treating)
{
    struct resolving *resolving = treating->resolving;
    const struct gathering *gathering = resolving->gathering;
    const struct tail *own = resolving->tail;
    struct voice voice = resolving->voice;
    resolving->voice.findings = NULL;
    resolving->around = true;
    for (uint32_t part = resolving->part; part != NONE_INDEX; part = gathering->parts[part].parent) {
        if (gathering->parts[part].tail == NONE_INDEX || gathering->parts[part].is_bath)
            continue;
        resolving->tail = &gathering->tails[gathering->parts[part].tail];
        for (const struct phrase *phrase = resolving->tail->phrases; phrase && !treating->too_long; phrase = phrase->next)
            gather_phrase(treating, phrase, part);
    }
    resolving->tail = own;
    resolving->around = false;
    resolving->voice = voice;
}

void steps_gather(struct treating *treating, uint32_t peeled_first, uint32_t peeled_end)
{
    struct resolving *resolving = treating->resolving;
    gather_peeled(treating, peeled_first, peeled_end);
    for (const struct phrase *phrase = resolving->phrases; phrase && !treating->too_long; phrase = phrase->next)
        gather_phrase(treating, phrase, NONE_INDEX);
    for (uint32_t i = 0; i < resolving->remark_count; i++)
        gather_remark(treating, resolving->remarks[i]);
    gather_around(treating);
}
