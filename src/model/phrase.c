/* Phrases after commas as keys of treatments: the words that say what is done. */
#include <string.h>

#include "model/resolve.h"

const struct treatment *treat_find_any(const struct resolving *resolving, struct text key)
{
    for (const struct library *library = resolving->library; library; library = library->base) {
        const struct name *name = library_find(library, SPACE_TREATMENT, key, NULL);
        if (name)
            return &library->treatments[name->index];
    }
    return NULL;
}

/* A unit of time, length or temperature: it says how, and not what. */
static bool is_scale(const struct resolving *resolving, struct text word)
{
    char key[KEY_BYTES];
    const struct unit *unit = library_unit(resolving->library, (struct text){ key, name_key(&word, 1, false, key) }, NULL);
    return unit && (unit->dimension == DIMENSION_TIME || unit->dimension == DIMENSION_LENGTH
                    || unit->dimension == DIMENSION_TEMPERATURE);
}

bool treat_is_argument(const struct resolving *resolving, struct text word)
{
    return is_scale(resolving, word) || treat_is_filler(resolving, word);
}

/* The words that say what is done: numbers, times, lengths and fillers are left out, unless all of the phrase is
 * a declared treatment. */
uint32_t treat_phrase_key(const struct resolving *resolving, const struct item *items, char *key)
{
    struct text words[LIMIT_NAME_WORDS], kept[LIMIT_NAME_WORDS];
    uint32_t count = name_words(resolving->tail->text, items, words, LIMIT_NAME_WORDS), kept_count = 0;
    uint32_t length = name_key(words, count, false, key);
    if (length && treat_find_any(resolving, (struct text){ key, length }))
        return length;
    bool counted = false;               /* behind a number: `in` is an inch there, and a word elsewhere */
    for (uint32_t i = 0; i < count; i++) {
        unsigned char first = (unsigned char)words[i].bytes[0];
        bool number = (first >= '0' && first <= '9') || first == 0xc2 || first == 0xe2;     /* digits, ½, ⅓ */
        if (!number && !treat_is_filler(resolving, words[i]) && !(is_scale(resolving, words[i]) && (counted || words[i].length > 2)))
            kept[kept_count++] = words[i];
        counted = number;
    }
    return name_key(kept, kept_count, false, key);
}

/* `boiled red lentils` weigh as boiled, and what boiling does is told of the dry weight: such a word is no preparation
 * that could be taken off a name. Draining is: a food weighs as the line leaves it. */
static bool changes_weight(const struct resolving *resolving, struct text key)
{
    for (const struct library *library = resolving->library; library; library = library->base) {
        const struct name *name = NULL;
        while ((name = library_find(library, SPACE_TREATMENT, key, name))) {
            const struct treatment *treatment = &library->treatments[name->index];
            if (treatment->flags & TREATMENT_HAS_MASS && treatment->from == FROM_ANY)
                return true;
        }
    }
    return false;
}

bool treat_knows_words(const struct resolving *resolving, uint32_t first, uint32_t count)
{
    struct text words[3];
    char key[KEY_BYTES];
    for (uint32_t i = 0; i < count && i < COUNT_OF(words); i++)
        words[i] = resolving->words[first + i].text;
    struct text found = { key, name_key(words, count, false, key) };
    return found.length && treat_find_any(resolving, found) && !changes_weight(resolving, found);
}

bool treat_knows_word(const struct resolving *resolving, struct text word)
{
    char key[KEY_BYTES];
    uint32_t length = name_key(&word, 1, false, key);
    return length && treat_find_any(resolving, (struct text){ key, length }) != NULL;
}

bool treat_is_filler(const struct resolving *resolving, struct text word)
{
    char key[KEY_BYTES];
    const struct treatment *treatment = treat_find_any(resolving, (struct text){ key, name_key(&word, 1, false, key) });
    return treatment && treatment->flags & TREATMENT_FILLER;
}

bool treat_says_drained(const struct resolving *resolving)
{
    char key[KEY_BYTES];
    for (const struct phrase *phrase = resolving->phrases; phrase; phrase = phrase->next) {
        if (text_is((struct text){ key, treat_phrase_key(resolving, phrase->items, key) }, "drained"))
            return true;
    }
    return false;
}

bool treat_drains(const struct resolving *resolving)
{
    char key[KEY_BYTES];
    for (const struct phrase *phrase = resolving->phrases; phrase; phrase = phrase->next) {
        struct text found = { key, treat_phrase_key(resolving, phrase->items, key) };
        for (const struct library *library = resolving->library; library && found.length; library = library->base) {
            const struct name *name = NULL;
            while ((name = library_find(library, SPACE_TREATMENT, found, name))) {
                if (library->treatments[name->index].from == FROM_CANNED)
                    return true;
            }
        }
    }
    return false;
}

/* ---- phrases of the language itself ------------------------------------------------------------------------------ */

static struct text item_text(const struct resolving *resolving, const struct item *item)
{
    return span_text(resolving->tail->text, item->span);
}

static bool is_word(const struct resolving *resolving, const struct item *item, const char *word)
{
    return item && item->kind == ITEM_WORD && text_is(item_text(resolving, item), word);
}

/* `kept 20%`, `kept 15% to 30%`. */
static bool take_kept(struct resolving *resolving, const struct phrase *phrase)
{
    const struct item *share = phrase->items->next;
    if (!is_word(resolving, phrase->items, "kept") || !share || !share->quantity || !share->quantity->is_percent || share->next)
        return false;
    if (share->quantity->kind == QUANTITY_BAD) {
        resolving->resolved->flags |= RESOLVED_BAD;     /* a finding speaks of it */
        return true;
    }
    if (amount_compare(share->quantity->high, 1) > 0) {
        resolve_fail(resolving, FINDING_KEPT_TOO_MUCH, phrase->span, NO_GAPS);
        return true;
    }
    resolving->resolved->kept = range_multiply(resolving->resolved->kept,
                                               range_between(share->quantity->low, share->quantity->high));
    return true;
}

/* `left over 120 g`: what the cook weighs is exact, and beats any table. False where it is not of a food of a line. */
static bool take_left_over(struct resolving *resolving, const struct phrase *phrase)
{
    struct resolved *resolved = resolving->resolved;
    const struct item *number = phrase->items->next->next, *unit_item = number ? number->next : NULL;
    const struct unit *unit = resolve_item_unit(resolving, unit_item);
    struct range grams;
    bool weighed = unit && !unit_item->next && (number->kind == ITEM_NUMBER || number->kind == ITEM_RANGE)
                && number->quantity->kind != QUANTITY_BAD && !number->quantity->is_percent;
    if (!resolved->food.food || resolved->food.food->basis != FOOD_PER_100_G || !weighed)
        return false;
    if (!measure_amount(resolving, resolved->food, unit, range_between(number->quantity->low, number->quantity->high), &grams)) {
        resolve_fail(resolving, FINDING_NO_DENSITY, phrase->span, GAPS(span_text(resolving->tail->text, unit_item->span),
                     library_text(resolved->food.library, resolved->food.food->name)));
        return true;
    }
    struct range *left = arena_take(&resolving->gathering->arena, sizeof *left);
    if (left)
        *left = measure_by_spoon(resolving, unit, grams);
    resolved->left = left;
    return true;
}

static bool take_not_computed(struct resolving *resolving, const struct phrase *phrase)
{
    bool bath = false;
    for (const struct item *item = phrase->items; item; item = item->next)
        bath = bath || item->kind == ITEM_BATH;
    bool left_over = is_word(resolving, phrase->items, "left") && is_word(resolving, phrase->items->next, "over");
    if ((!bath && !left_over) || (left_over && take_left_over(resolving, phrase)))
        return left_over;
    resolve_say(resolving, FINDING_NOT_COMPUTED_YET, phrase->span, GAPS(text_of(bath ? "a bath" : "what is left over")));
    resolving->resolved->flags |= RESOLVED_NOT_COMPUTED;
    return true;
}

bool treat_take_words_of_language(struct resolving *resolving, const struct phrase *phrase)
{
    return take_kept(resolving, phrase) || take_not_computed(resolving, phrase);
}
