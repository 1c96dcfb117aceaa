/* Whom a day, a recipe or a policy is for, as it stands behind the name: `for adult woman 35 under care`. */
#include "model/collect.h"

#define MONTHS 12

static bool is_filler(struct text word)
{
    static const char *const fillers[] = { "a", "an", "of", "aged", "age", "year", "years", "old" };
    for (uint32_t i = 0; i < COUNT_OF(fillers); i++) {
        if (text_is(word, fillers[i]))
            return true;
    }
    return false;
}

static bool is_months(struct text word)
{
    return text_is(word, "months") || text_is(word, "month");
}

static void refuse_word(struct gathering *gathering, const struct item *item, struct eater *eater)
{
    finding_add(&gathering->findings, FINDING_EATER_WORD, collect_place(gathering, item->span),
                GAPS(collect_written(gathering, item->span)));
    eater->broken = true;
}

static void take_age(struct gathering *gathering, const struct item *item, struct eater *eater)
{
    bool plain = item->quantity->kind == QUANTITY_NUMBER && !item->quantity->is_percent && eater->age < 0;
    if (plain)
        eater->age = item->quantity->low * MONTHS;
    else if (item->quantity->kind != QUANTITY_BAD)
        refuse_word(gathering, item, eater);
    eater->broken = eater->broken || !plain;
}

/* One word or number behind `for`; gives the item that it ended with. */
static const struct item *take_eater_item(struct gathering *gathering, const struct item *item, struct eater *eater)
{
    struct text word = collect_written(gathering, item->span);
    if (item->kind == ITEM_NUMBER) {
        take_age(gathering, item, eater);
    } else if (is_months(word) && eater->age >= 0) {
        eater->age /= MONTHS;
    } else if (text_is(word, "under") && item->next && text_is(collect_written(gathering, item->next->span), "care")) {
        eater->under_care = true;
        return item->next;
    } else if (item->kind != ITEM_WORD || (!is_filler(word) && eater->word_count == LIMIT_EATER_WORDS)) {
        refuse_word(gathering, item, eater);
    } else if (!is_filler(word)) {
        eater->words[eater->word_count++] = collect_keep(gathering, word);
    }
    return item;
}

/* `in week 5 of "Twelve weeks"` */
static bool is_taper(const struct gathering *gathering, const struct item *item)
{
    return item->next && text_is(collect_written(gathering, item->span), "in")
        && text_is(collect_written(gathering, item->next->span), "week");
}

static void tell_taper(struct gathering *gathering, const struct item *first)
{
    const struct item *last = first;
    while (last->next)
        last = last->next;
    finding_add(&gathering->findings, FINDING_NOT_COMPUTED_ASIDE,
                collect_place(gathering, (struct span){ first->span.start, last->span.end }), GAPS(text_of("a taper")));
}

const struct eater *collect_eater(struct gathering *gathering, const struct node *node)
{
    const struct item *item = node->items.first ? node->items.first->next : NULL;
    const struct phrase *more = node->names.first;
    struct eater eater = { .age = -1 };
    if (!node->items.first || node->items.first->kind != ITEM_STRING)
        return NULL;
    if (!item && more) {                                /* a comma behind the name */
        item = more->items;
        more = more->next;
    }
    if (!item)
        return NULL;
    struct span span = { item->span.start, node->items.first->next ? node->items.last->span.end : node->names.first->span.end };
    if (is_taper(gathering, item)) {
        tell_taper(gathering, item);
        return NULL;
    }
    if (!text_is(collect_written(gathering, item->span), "for") || !item->next) {
        finding_add(&gathering->findings, FINDING_DAY_HEAD, collect_place(gathering, item->span),
                    GAPS(collect_written(gathering, item->span)));
        return NULL;
    }
    for (item = item->next; item; item = item->next) {
        if (is_taper(gathering, item)) {
            tell_taper(gathering, item);
            span.end = item->span.start;
            break;
        }
        item = take_eater_item(gathering, item, &eater);
    }
    for (; more; more = more->next) {
        for (item = more->items; item; item = item->next)
            item = take_eater_item(gathering, item, &eater);
        span.end = more->span.end;
    }
    eater.written = collect_keep(gathering, collect_written(gathering, span));
    eater.place = collect_place(gathering, span);
    struct eater *kept = arena_take(&gathering->arena, sizeof *kept);
    if (kept)
        *kept = eater;
    return kept;
}

/* The quoted name alone: what follows it tells for whom it is. */
struct text collect_title_of_person(struct gathering *gathering, const struct node *node, struct span *title)
{
    const struct item *first = node->items.first;
    if (!first || first->kind != ITEM_STRING)
        return collect_title(gathering, node, title);
    struct item alone = *first;
    struct node named = *node;
    alone.next = NULL;
    named.items = (struct items){ &alone, &alone };
    return collect_title(gathering, &named, title);
}

void collect_refuse_phrase(struct gathering *gathering, const struct phrase *phrase, const char *where)
{
    finding_add(&gathering->findings, FINDING_MISPLACED, collect_place(gathering, phrase->span),
                GAPS(collect_written(gathering, phrase->span), text_of(where)));
}
