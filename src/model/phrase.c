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

bool treat_says_as_canned(const struct resolving *resolving)
{
    char key[KEY_BYTES];
    for (const struct phrase *phrase = resolving->phrases; phrase; phrase = phrase->next) {
        const struct treatment *found = treat_find_any(resolving, (struct text){ key, treat_phrase_key(resolving, phrase->items, key) });
        if (found && found->flags & TREATMENT_AS_CANNED)
            return true;
    }
    return false;
}
