/* Names are sets of words: order, case, accents, apostrophes, hyphens and regular plurals do not matter. A name
 * is turned into a key (folded, singular, sorted words), and keys are looked up by hash. */
#include <stdlib.h>
#include <string.h>

#include "library/library.h"

/* ---- words and keys --------------------------------------------------------------------------------------- */

static bool is_gap(const char *bytes, uint32_t length, uint32_t *size)
{
    *size = 1;
    if (*bytes == ' ' || *bytes == '\t' || *bytes == '-' || *bytes == '\n' || *bytes == '\r')
        return true;
    if (length >= 2 && memcmp(bytes, "\xc2\xa0", 2) == 0) {
        *size = 2;
        return true;
    }
    if (length >= 3 && (memcmp(bytes, "\xe2\x80\x90", 3) == 0 || memcmp(bytes, "\xe2\x80\x91", 3) == 0)) {
        *size = 3;
        return true;
    }
    return false;
}

uint32_t name_split(struct text name, struct text *words, uint32_t most)
{
    uint32_t count = 0, at = 0, size;
    while (at < name.length) {
        while (at < name.length && is_gap(name.bytes + at, name.length - at, &size))
            at += size;
        uint32_t start = at;
        while (at < name.length && !is_gap(name.bytes + at, name.length - at, &size))
            at++;
        if (at == start)
            break;
        if (count == most)
            return count;
        words[count++] = (struct text){ name.bytes + start, at - start };
    }
    return count;
}

uint32_t name_words(struct text text, const struct item *items, struct text *words, uint32_t most)
{
    uint32_t count = 0;
    for (; items; items = items->next) {
        if (items->kind != ITEM_GROUP && items->kind != ITEM_BATH)
            count += name_split(span_text(text, items->span), words + count, most - count);
    }
    return count;
}

static bool ends_with(const char *word, uint32_t length, const char *ending)
{
    uint32_t size = (uint32_t)strlen(ending);
    return length > size && memcmp(word + length - size, ending, size) == 0;
}

struct ending {
    const char *plural, *singular;
    uint32_t at_least;          /* letters of the whole word */
};

/* English endings, the first that fits. A plural and its singular must come to the same; what they come to need
 * not be a word. */
static const struct ending endings[] = {
    { "eaves", "eaf", 6 }, { "oaves", "oaf", 6 }, { "alves", "alf", 6 }, { "ies", "y", 5 }, { "ie", "y", 4 },
    { "oes", "o", 5 },     { "ches", "ch", 5 },   { "shes", "sh", 5 },   { "xes", "x", 4 }, { "sses", "ss", 5 },
    { "zzes", "zz", 5 },   { "ss", "ss", 3 },     { "us", "us", 3 },     { "is", "is", 3 }, { "s", "", 3 },
};

static uint32_t make_singular(char *word, uint32_t length)
{
    bool may_end_so = length >= 3 && (word[length - 1] == 's' || (word[length - 1] == 'e' && word[length - 2] == 'i'));
    if (!may_end_so)
        return length;
    for (uint32_t i = 0; i < COUNT_OF(endings); i++) {
        if (length < endings[i].at_least || !ends_with(word, length, endings[i].plural))
            continue;
        uint32_t stem = length - (uint32_t)strlen(endings[i].plural);
        uint32_t size = (uint32_t)strlen(endings[i].singular);
        memcpy(word + stem, endings[i].singular, size);
        return stem + size;
    }
    return length;
}

static int compare_words(struct text a, struct text b)
{
    uint32_t shorter = a.length < b.length ? a.length : b.length;
    int order = memcmp(a.bytes, b.bytes, shorter);
    return order ? order : a.length < b.length ? -1 : a.length > b.length;
}

static uint32_t fold_words(const struct text *words, uint32_t count, char *storage, struct text *folded)
{
    uint32_t used = 0, kept = 0;
    for (uint32_t i = 0; i < count; i++) {
        if (words[i].length > KEY_BYTES / 2 || used + 2 * words[i].length > KEY_BYTES)
            return 0;
        uint32_t length = utf8_fold(words[i].bytes, words[i].length, storage + used, KEY_BYTES - used);
        length = make_singular(storage + used, length);
        struct text word = { storage + used, length };
        if (length == 0 || text_is(word, "of"))
            continue;
        folded[kept++] = word;
        used += length;
    }
    return kept;
}

static void sort_words(struct text *words, uint32_t count)
{
    for (uint32_t i = 1; i < count; i++) {
        struct text word = words[i];
        uint32_t at = i;
        for (; at > 0 && compare_words(words[at - 1], word) > 0; at--)
            words[at] = words[at - 1];
        words[at] = word;
    }
}

uint32_t name_key(const struct text *words, uint32_t count, bool ordered, char *key)
{
    char storage[KEY_BYTES];
    struct text folded[LIMIT_NAME_WORDS];
    uint32_t used = 0;
    if (count > LIMIT_NAME_WORDS)
        return 0;
    uint32_t kept = fold_words(words, count, storage, folded);
    if (!ordered)
        sort_words(folded, kept);
    for (uint32_t i = 0; i < kept; i++) {
        if (!ordered && i > 0 && text_equal(folded[i], folded[i - 1]))
            continue;
        if (used + folded[i].length + 2 > KEY_BYTES)
            return 0;
        if (used > 0 || ordered)
            key[used++] = ordered ? '>' : ' ';
        memcpy(key + used, folded[i].bytes, folded[i].length);
        used += folded[i].length;
    }
    return used;
}

uint32_t name_key_of(struct text name, bool ordered, char *key)
{
    struct text words[LIMIT_NAME_WORDS + 1];
    return name_key(words, name_split(name, words, COUNT_OF(words)), ordered, key);
}

/* ---- looking up ---------------------------------------------------------------------------------------------- */

struct text library_text(const struct library *library, struct pack_text text)
{
    if (text.offset > library->strings_count || text.length > library->strings_count - text.offset)
        return (struct text){ "", 0 };              /* a mapped pack is not looked at in whole */
    return (struct text){ library->strings + text.offset, text.length };
}

static bool name_matches(const struct library *library, const struct name *name, enum name_space space,
                         struct text key)
{
    return name->space == (uint32_t)space && name->index < library_space_size(library, space)
        && text_equal(library_text(library, name->key), key);
}

const struct name *library_find(const struct library *library, enum name_space space, struct text key,
                                const struct name *after)
{
    uint64_t hash = hash_mix(hash_bytes(key.bytes, key.length), space + 1);
    uint32_t mask = library->slots_count - 1;
    bool passed = after == NULL;
    uint32_t at = (uint32_t)hash & mask;
    for (uint32_t seen = 0; seen < library->slots_count; seen++, at = (at + 1) & mask) {
        const struct name_slot *slot = &library->slots[at];
        if (slot->name >= library->names_count)
            return NULL;
        const struct name *name = &library->names[slot->name];
        if (slot->hash != hash || !name_matches(library, name, space, key))
            continue;
        if (passed)
            return name;
        passed = name == after;
    }
    return NULL;
}

static const struct name *find_in_chain(const struct library *library, enum name_space space, struct text key,
                                        const struct library **owner)
{
    for (; library; library = library->base) {
        const struct name *name = library_find(library, space, key, NULL);
        *owner = library;
        if (name)
            return name;
    }
    return NULL;
}

static struct food_at find_food(const struct library *library, enum name_space space, struct text key)
{
    const struct library *owner;
    const struct name *name = find_in_chain(library, space, key, &owner);
    if (!name)
        return (struct food_at){ NULL, NULL };
    const struct food *food = &owner->foods[name->index];
    return (struct food_at){ owner, owner->is_mapped && !food_is_sound(owner, food) ? NULL : food };
}

/* The key with every word in its other spelling; 0 where no word has one. */
static uint32_t respell(const struct library *library, struct text key, char *respelled)
{
    struct text words[LIMIT_NAME_WORDS];
    bool changed = false;
    uint32_t count = name_split(key, words, LIMIT_NAME_WORDS);
    for (uint32_t i = 0; i < count; i++) {
        const struct library *owner;
        const struct name *name = find_in_chain(library, SPACE_SPELLING, words[i], &owner);
        if (!name)
            continue;
        words[i] = library_text(owner, owner->texts[name->index]);
        changed = true;
    }
    char joined[KEY_BYTES];
    uint32_t used = 0;                  /* a word may become two */
    for (uint32_t i = 0; changed && i < count; i++) {
        if (used + words[i].length + 1 > sizeof joined)
            return 0;
        memcpy(joined + used, words[i].bytes, words[i].length);
        used += words[i].length;
        joined[used++] = ' ';
    }
    return changed ? name_key_of((struct text){ joined, used }, false, respelled) : 0;
}

struct food_at library_food(const struct library *library, struct text key)
{
    char respelled[KEY_BYTES];
    struct food_at food = find_food(library, SPACE_FOOD, key);
    if (food.library || key.length == 0 || key.bytes[0] == '>')
        return food;
    uint32_t length = respell(library, key, respelled);
    return length ? find_food(library, SPACE_FOOD, (struct text){ respelled, length }) : food;
}

struct food_at library_label(const struct library *library, struct text key)
{
    return find_food(library, SPACE_LABEL, key);
}

struct food_at library_shelf(const struct library *library, struct text key, const struct shelf **shelf)
{
    const struct library *owner;
    const struct name *name = find_in_chain(library, SPACE_SHELF, key, &owner);
    *shelf = name ? &owner->shelves[name->index] : NULL;
    return (struct food_at){ name ? owner : NULL, NULL };
}

const struct unit *library_unit(const struct library *library, struct text key, const struct library **owner)
{
    const struct library *found;
    const struct name *name = find_in_chain(library, SPACE_UNIT, key, &found);
    if (name && owner)
        *owner = found;
    return name ? &found->units[name->index] : NULL;
}

const struct nutrient *library_nutrient(const struct library *library, struct text key, uint32_t *number)
{
    const struct library *owner;
    const struct name *name = find_in_chain(library, SPACE_NUTRIENT, key, &owner);
    if (name)
        *number = name->index;
    return name ? &owner->nutrients[name->index] : NULL;
}

uint32_t library_group(const struct library *library, struct text key)
{
    const struct library *owner;
    const struct name *name = find_in_chain(library, SPACE_GROUP, key, &owner);
    return name ? name->index : NONE_INDEX;
}

const struct element *library_element(const struct library *library, struct text symbol)
{
    const struct library *owner;
    const struct name *name = find_in_chain(library, SPACE_ELEMENT, symbol, &owner);
    return name ? &owner->elements[name->index] : NULL;
}

const struct rules *library_rules(const struct library *library, struct text key, const struct library **owner)
{
    const struct name *name = find_in_chain(library, SPACE_RULES, key, owner);
    return name ? &(*owner)->rules[name->index] : NULL;
}

const struct nutrient *library_nutrient_at(const struct library *library, uint32_t number,
                                           const struct library **owner)
{
    while (library->base)
        library = library->base;
    if (owner)
        *owner = library;
    return &library->nutrients[number];
}

const struct group *library_group_at(const struct library *library, uint32_t number)
{
    while (library && number < library->group_first)
        library = library->base;
    return library && number - library->group_first < library->groups_count
        ? &library->groups[number - library->group_first] : NULL;
}

bool library_is_fresh(struct food_at food)
{
    bool fresh = false;
    for (uint32_t at = food.food->group; at != NONE_INDEX && !fresh;) {
        const struct group *group = library_group_at(food.library, at);
        fresh = group->fresh;
        at = group->parent;
    }
    return fresh;
}

bool library_is_used(struct food_at food, uint32_t uses)
{
    uint32_t asked = uses;
    for (uint32_t at = food.food->group; at != NONE_INDEX && asked;) {
        const struct group *group = library_group_at(food.library, at);
        if (group->uses & asked)
            return true;
        asked &= group->uses & GROUP_SALTY ? ~(uint32_t)GROUP_SALTY : ~(uint32_t)0;
        at = group->parent;
    }
    return false;
}

struct text library_hazard(struct food_at food, struct text *source)
{
    struct text hazard = text_of("");
    *source = hazard;
    for (uint32_t at = food.food->group; at != NONE_INDEX && !hazard.length;) {
        const struct library *owner = food.library;
        const struct group *group = library_group_at(owner, at);
        while (at < owner->group_first)
            owner = owner->base;
        hazard = library_text(owner, group->hazard);
        *source = library_text(owner, group->hazard_source);
        at = group->parent;
    }
    return hazard;
}

const char *origin_name(enum origin origin)
{
    static const char *const names[] = { "inherent", "maker-added", "cook-added", "unseparated" };
    return names[origin];
}

enum origin origin_of(struct text word)
{
    enum origin origin = ORIGIN_INHERENT;
    while (origin < ORIGIN_COUNT && !text_is(word, origin_name(origin)))
        origin++;
    return origin;
}

uint32_t library_group_distance(const struct library *library, uint32_t group, uint32_t ancestor)
{
    for (uint32_t distance = 0; group != NONE_INDEX && distance < LIMIT_GROUP_DEPTH; distance++) {
        if (group == ancestor)
            return distance;
        const struct group *found = library_group_at(library, group);
        group = found ? found->parent : NONE_INDEX;
    }
    return NONE_INDEX;
}

const struct doubling *library_doubling(const struct library *library, uint32_t group, const struct doubling *after,
                                        const struct library **owner)
{
    for (const struct library *at = *owner ? *owner : library; at; at = at->base) {
        for (const struct doubling *next = after ? after + 1 : at->doublings; next < at->doublings + at->doublings_count; next++) {
            *owner = at;
            if (library_group_distance(library, group, next->group) != NONE_INDEX)
                return next;
        }
        after = NULL;
    }
    return NULL;
}
