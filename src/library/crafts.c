/* Words that stand side by side in a text of any length, and the crafts that they tell. */
#include <string.h>

#include "library/library.h"

/* What is longer than any name goes by parts that overlap, so that no word is missed. */
#define WORDS_AT_ONCE LIMIT_NAME_WORDS

/* Whether the words of one ordered key stand in another, side by side: each word has a mark before it. */
static bool holds_words(struct text key, struct text words)
{
    for (uint32_t i = 0; words.length && i + words.length <= key.length; i++) {
        uint32_t end = i + words.length;
        if (memcmp(key.bytes + i, words.bytes, words.length) == 0 && (end == key.length || key.bytes[end] == words.bytes[0]))
            return true;
    }
    return false;
}

bool words_hold_one(const struct library *library, struct text key_words, uint32_t first, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        if (holds_words(key_words, library_text(library, library->texts[first + i])))
            return true;
    }
    return false;
}

void words_walk(struct text written, words_receiver *receive, void *context)
{
    struct text words[WORDS_AT_ONCE], rest = written;
    for (;;) {
        char key[KEY_BYTES];
        uint32_t taken = name_split(rest, words, WORDS_AT_ONCE), count = taken, length = name_key(words, taken, true, key);
        while (length == 0 && taken > LIMIT_SUBSTANCE_WORDS)    /* words so long that fewer fill a key */
            length = name_key(words, --taken, true, key);
        if (taken == 0)
            return;
        receive(context, (struct text){ key, length });
        if (taken == count && count < WORDS_AT_ONCE)
            return;
        const char *again = words[taken >= LIMIT_SUBSTANCE_WORDS ? taken - LIMIT_SUBSTANCE_WORDS + 1 : 1].bytes;
        rest = (struct text){ again, (uint32_t)(rest.bytes + rest.length - again) };
    }
}

/* ---- crafts --------------------------------------------------------------------------------------------------------- */

struct craft_search {
    const struct library *library;
    bool is_title;
    uint32_t told, taken_back;
};

static void search_crafts(void *context, struct text run)
{
    struct craft_search *search = context;
    const struct library *library = search->library;
    for (uint32_t i = 0; i < library->crafts_count; i++) {
        const struct craft *craft = &library->crafts[i];
        bool told = words_hold_one(library, run, craft->first_words, craft->words_count)
                 || (search->is_title && words_hold_one(library, run, craft->first_titles, craft->titles_count));
        search->told |= (uint32_t)told << i;
        search->taken_back |= (uint32_t)words_hold_one(library, run, craft->first_without, craft->without_count) << i;
    }
}

/* The library at the bottom of the chain: it alone declares crafts. */
static const struct library *base_of(const struct library *library)
{
    while (library->base)
        library = library->base;
    return library;
}

uint32_t library_crafts(const struct library *library, struct text written, bool is_title)
{
    struct craft_search search = { .library = base_of(library), .is_title = is_title };
    if (search.library->crafts_count)
        words_walk(written, search_crafts, &search);
    return search.told & ~search.taken_back;
}

uint32_t library_craft(const struct library *library, struct text name)
{
    library = base_of(library);
    for (uint32_t i = 0; i < library->crafts_count; i++) {
        if (text_equal(library_text(library, library->crafts[i].name), name))
            return (uint32_t)1 << i;
    }
    return 0;
}
