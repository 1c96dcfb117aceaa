/* Taking the items of a line apart: words, the quoted name, and the sizes of packages. */
#include <string.h>

#include "model/resolve.h"

/* Beside its measure a parenthesis may say `about`, `each` or `total`. Any other word makes it something else: a
 * reserve, an alternative, a part. */
static bool aside_word(const struct resolving *resolving, struct aside *aside, struct text word)
{
    if (treat_is_filler(resolving, word))
        return true;
    aside->each = aside->each || text_is(word, "each");
    aside->total = aside->total || text_is(word, "total");
    return text_is(word, "each") || text_is(word, "total");
}

/* `(2 heaped tbsp)`: a size of spoons before the unit. */
static void take_filled(const struct resolving *resolving, struct aside *aside, const struct text *words, uint32_t count)
{
    char key[KEY_BYTES];
    const struct unit *size = library_unit(resolving->library, (struct text){ key, name_key(words, 1, false, key) }, NULL);
    const struct unit *unit = library_unit(resolving->library, (struct text){ key, name_key(words + 1, count - 1, false, key) }, NULL);
    if (!size || !(size->flags & UNIT_OF_VOLUMES) || !unit || unit->dimension != DIMENSION_VOLUME)
        return;
    aside->unit = unit;
    aside->low *= size->factor.low;
    aside->high *= size->factor.high;
}

/* `(15 oz)`, `(about 300 g total)`; what is no measure stays a remark of the cook. */
static void read_aside(struct resolving *resolving, const struct item *group, uint32_t number)
{
    struct aside aside = { .item = number, .span = group->span };
    struct text words[8] = { { NULL, 0 } };
    char key[KEY_BYTES];
    uint32_t count = 0;
    bool has_number = false, plain = true;
    for (const struct item *item = group->inside; item; item = item->next) {
        struct text text = span_text(resolving->tail->text, item->span);
        if ((item->kind == ITEM_NUMBER || item->kind == ITEM_RANGE) && !has_number) {
            aside.low = item->quantity->low;
            aside.high = item->quantity->high;
            has_number = item->quantity->kind != QUANTITY_BAD && !item->quantity->is_percent;
        } else if (item->kind == ITEM_WORD && !aside_word(resolving, &aside, text) && has_number) {
            count += name_split(text, words + count, 8 - count);
        } else if (item->kind != ITEM_WORD || !aside_word(resolving, &aside, text)) {
            plain = false;
        }
    }
    aside.unit = library_unit(resolving->library, (struct text){ key, name_key(words, count, false, key) }, NULL);
    if (!aside.unit && count > 1)
        take_filled(resolving, &aside, words, count);
    bool measure = aside.unit && (aside.unit->dimension == DIMENSION_MASS || aside.unit->dimension == DIMENSION_VOLUME);
    aside.found = has_number && measure && plain && aside.low > 0;
    aside.each = aside.each || number == 0;         /* `4 (6 oz) salmon fillets` */
    if (aside.found && !resolving->aside.found)
        resolving->aside = aside;
    else if (resolving->remark_count < LIMIT_REMARKS)
        resolving->remarks[resolving->remark_count++] = group;
    else
        resolve_fail(resolving, FINDING_LINE_TOO_LONG, group->span, NO_GAPS);
}

static void take_words(struct resolving *resolving, const struct item *item, uint32_t number)
{
    struct text words[LIMIT_NAME_WORDS];
    uint32_t count = name_split(span_text(resolving->tail->text, item->span), words, LIMIT_NAME_WORDS);
    for (uint32_t i = 0; i < count && resolving->word_count < LIMIT_LINE_WORDS; i++) {
        uint32_t start = (uint32_t)(words[i].bytes - resolving->tail->text.bytes);
        if (text_is(words[i], "of"))
            continue;
        resolving->words[resolving->word_count++] =
            (struct tail_word){ words[i], { start, start + words[i].length }, number };
    }
}

const struct unit *resolve_item_unit(const struct resolving *resolving, const struct item *item)
{
    char key[KEY_BYTES];
    if (!item || item->kind != ITEM_WORD)
        return NULL;
    struct text word = span_text(resolving->tail->text, item->span);
    return library_unit(resolving->library, (struct text){ key, name_key_of(word, false, key) }, NULL);
}

bool resolve_is_package(const struct unit *unit)
{
    return unit && unit->dimension == DIMENSION_PACKAGE;
}

/* `1 can chickpeas, drained (240 g)`: behind a phrase stands what is left once that is done, so it is the total. */
static void read_asides_of(struct resolving *resolving, const struct phrase *phrase)
{
    struct aside before = resolving->aside;
    resolving->aside.found = before.after;              /* what is left is nearer than what the package held */
    for (const struct item *item = phrase->items->next; item; item = item->next) {
        if (item->kind == ITEM_GROUP)
            read_aside(resolving, item, NONE_INDEX);
    }
    if (!resolving->aside.found)
        resolving->aside = before;
    else
        resolving->aside.after = true;
}

/* The size of each package without parentheses: `1 15-oz can`, `2 x 400 g tins`, `1 can 15 oz`, `2 6-ounce fillets`.
 * Gives the items that hold it. */
static uint32_t read_bare_size(struct resolving *resolving, const struct item *item)
{
    uint32_t count = 2;
    bool package_first = resolve_is_package(resolve_item_unit(resolving, item)), times = false;
    if (item && item->kind == ITEM_WORD && !package_first) {
        struct text word = span_text(resolving->tail->text, item->span);
        times = text_is(word, "x") || text_is(word, "X") || text_is(word, "\u00d7");
    }
    if (package_first || times)
        item = item->next;
    if (!item || item->kind != ITEM_NUMBER || !item->next || item->quantity->kind == QUANTITY_BAD || item->quantity->is_percent)
        return 0;
    const struct unit *unit = resolve_item_unit(resolving, item->next);
    bool measure = unit && (unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_VOLUME);
    bool joined = resolving->tail->text.bytes[item->next->span.start] == '-';
    if (!measure || item->quantity->low <= 0
        || !(package_first || times || joined || resolve_is_package(resolve_item_unit(resolving, item->next->next))))
        return 0;
    resolving->aside = (struct aside){ .found = true, .each = true, .item = package_first, .low = item->quantity->low,
        .high = item->quantity->high, .unit = unit, .span = { item->span.start, item->next->span.end } };
    return count + times;
}

bool resolve_take_item(struct resolving *resolving, const struct item *item, uint32_t number)
{
    if (item->kind == ITEM_GROUP) {
        read_aside(resolving, item, number);
    } else if (resolving->word_count == LIMIT_LINE_WORDS) {
        resolve_fail(resolving, FINDING_LINE_TOO_LONG, item->span, NO_GAPS);
        return false;
    } else if (item->kind == ITEM_STRING && !resolving->string) {
        resolving->string = item;
        resolving->words_before_string = resolving->word_count;
    } else {
        take_words(resolving, item, number);
    }
    return true;
}

bool resolve_add_states(struct resolving *resolving, struct text text)
{
    struct text words[LIMIT_NAME_WORDS];
    char key[KEY_BYTES];
    uint32_t count = name_split(text, words, LIMIT_NAME_WORDS);
    for (uint32_t i = 0; i < count; i++) {
        uint32_t length = name_key(&words[i], 1, false, key);
        if (resolving->state_count == LIMIT_LINE_WORDS || resolving->state_used + length > sizeof resolving->state_storage)
            return false;
        char *kept = resolving->state_storage + resolving->state_used;
        memcpy(kept, key, length);
        resolving->states[resolving->state_count++] = (struct text){ kept, length };
        resolving->state_used += length;
    }
    return true;
}

/* More words than a name may have would be cut off, and the last of them may be what matters. Words in quotes change nothing. */
static void take_states(struct resolving *resolving, const struct phrase *phrase)
{
    struct text words[LIMIT_NAME_WORDS + 1];
    bool fits = resolve_add_states(resolving, span_text(resolving->tail->text, phrase->span));
    for (const struct item *item = phrase->items; item; item = item->next) {
        if (item->kind == ITEM_STRING)
            return;
    }
    if (!fits || name_words(resolving->tail->text, phrase->items, words, COUNT_OF(words)) > LIMIT_NAME_WORDS)
        resolve_fail(resolving, FINDING_LINE_TOO_LONG, phrase->span, NO_GAPS);
}

void resolve_take_items(struct resolving *resolving)
{
    uint32_t number = 0;
    const struct item *first = resolving->tail->items;
    uint32_t sized = resolving->tail->is_measured ? read_bare_size(resolving, first) : 0;
    uint32_t skipped = sized ? resolving->aside.item : NONE_INDEX;
    for (const struct item *item = first; item; item = item->next, number++) {
        bool skip = number >= skipped && number - skipped < sized;
        if (!skip && !resolve_take_item(resolving, item, number))
            return;
    }
    for (const struct phrase *phrase = resolving->phrases; phrase; phrase = phrase->next) {
        take_states(resolving, phrase);
        read_asides_of(resolving, phrase);
    }
}
