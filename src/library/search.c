/* Looking for foods by some words of their names, by group, and by what they hold. Every name is looked at, but
 * cheaply: words are compared by their bytes, and only words that share most of their letters are compared as slips
 * of the pen, which costs a hundred times as much. */
#include <stdlib.h>
#include <string.h>

#include "library/library.h"

#define LIKENESS_STEM 0.95              /* `tomat` of `tomato`, `salted` of `salt` */
#define LIKENESS_ENOUGH 0.4             /* of a name with some of the words: one of three, in a name of two */

/* The words that are looked for, each with its other spelling (or itself) and the set of its letters. */
struct wanted {
    char storage[KEY_BYTES], ordered_storage[KEY_BYTES];
    struct text key, ordered;           /* of the words as a set, and as they were written */
    struct text words[LIMIT_NAME_WORDS], spellings[LIMIT_NAME_WORDS];
    uint64_t letters[LIMIT_NAME_WORDS];
    uint32_t count;
};

struct searching {
    struct search *search;
    struct wanted wanted;
    const struct library *library;      /* the one of the chain that is looked through */
    uint32_t *found;                    /* 1 + number of the match of each of its foods, 0 for none */
};

/* ---- words ------------------------------------------------------------------------------------------------------- */

static uint64_t letters_of(struct text word)
{
    uint64_t letters = 0;
    for (uint32_t i = 0; i < word.length; i++)
        letters |= (uint64_t)1 << (word.bytes[i] & 63);
    return letters;
}

static bool bits_exceed(uint64_t bits, uint32_t most)
{
    for (; bits; bits &= bits - 1) {
        if (most-- == 0)
            return true;
    }
    return false;
}

/* One begins with the other, which is long enough to mean it. */
static bool is_stem(struct text wanted, struct text word)
{
    uint32_t shorter = wanted.length < word.length ? wanted.length : word.length;
    bool begun = wanted.length < word.length && wanted.length >= 3;
    bool ended = wanted.length > word.length && word.length >= 4 && wanted.length - word.length <= 2;
    return (begun || ended) && memcmp(wanted.bytes, word.bytes, shorter) == 0;
}

/* As name_word_likeness. A slip changes two letters of the set at most, so most words are told apart by their sets. */
static double slip_likeness(struct text wanted, uint64_t letters, struct text word)
{
    uint32_t longer = wanted.length > word.length ? wanted.length : word.length;
    uint32_t shorter = wanted.length > word.length ? word.length : wanted.length;
    if (shorter < 3 || longer - shorter > longer / 3 || bits_exceed(letters ^ letters_of(word), longer / 3 * 2))
        return 0;
    return name_word_likeness(wanted, word);
}

static double likeness(const struct wanted *wanted, uint32_t at, struct text word)
{
    if (text_equal(wanted->words[at], word) || text_equal(wanted->spellings[at], word))
        return 1;
    return is_stem(wanted->words[at], word) ? LIKENESS_STEM
                                            : slip_likeness(wanted->words[at], wanted->letters[at], word);
}

static uint32_t split_words(struct text key, struct text *words)
{
    uint32_t count = 0, start = 0;
    for (uint32_t at = 0; at <= key.length && count < LIMIT_NAME_WORDS; at++) {
        if (at < key.length && key.bytes[at] != ' ' && key.bytes[at] != '>')
            continue;
        if (at > start)
            words[count++] = (struct text){ key.bytes + start, at - start };
        start = at + 1;
    }
    return count;
}

static struct text other_spelling(const struct library *library, struct text word)
{
    for (; library; library = library->base) {
        const struct name *name = library_find(library, SPACE_SPELLING, word, NULL);
        if (name)
            return library_text(library, library->texts[name->index]);
    }
    return word;
}

static void wanted_open(struct wanted *wanted, const struct library *library, struct text words)
{
    wanted->key = (struct text){ wanted->storage, name_key_of(words, false, wanted->storage) };
    wanted->ordered = (struct text){ wanted->ordered_storage, name_key_of(words, true, wanted->ordered_storage) };
    wanted->count = split_words(wanted->key, wanted->words);
    for (uint32_t i = 0; i < wanted->count; i++) {
        wanted->spellings[i] = other_spelling(library, wanted->words[i]);
        wanted->letters[i] = letters_of(wanted->words[i]);
    }
}

/* ---- names ------------------------------------------------------------------------------------------------------- */

/* The likeness of a name of `count` words that shares so much; 1 is the same name. */
static double name_score(const struct wanted *wanted, double shared, uint32_t count)
{
    return 2 * (shared < count ? shared : count) / (wanted->count + count);
}

/* How well the words fit a name: its kind, and within the kind a score. False when they do not, which is seen as soon
 * as the words that are left can no longer make up for those that it lacks. */
static bool match_words(const struct wanted *wanted, struct text key, struct match *match)
{
    struct text words[LIMIT_NAME_WORDS];
    uint32_t count = split_words(key, words);
    double shared = 0, least = 1;
    for (uint32_t i = 0; i < wanted->count; i++) {
        double best = 0;
        for (uint32_t j = 0; j < count && best < 1; j++) {
            double one = likeness(wanted, i, words[j]);
            best = one > best ? one : best;
        }
        shared += best;
        least = best < least ? best : least;
        if (least <= 0 && name_score(wanted, shared + (wanted->count - i - 1), count) < LIKENESS_ENOUGH)
            return false;
    }
    bool is_name = text_equal(wanted->key, key) || text_equal(wanted->ordered, key);
    match->kind = is_name ? MATCH_NAME : least >= 1 ? MATCH_WORDS : least > 0 ? MATCH_NEAR : MATCH_SOME;
    if (text_equal(wanted->ordered, key))
        match->score = 2;               /* the words in just this order are nearer than the same in any */
    else
        match->score = match->kind <= MATCH_WORDS ? 1 : match->kind == MATCH_NEAR ? shared / wanted->count
                                                                                    : name_score(wanted, shared, count);
    return true;
}

static int compare_names(const struct match *a, const struct match *b)
{
    struct text one = library_text(a->food.library, a->name->written), other = library_text(b->food.library, b->name->written);
    uint32_t shorter = one.length < other.length ? one.length : other.length;
    int order = memcmp(one.bytes, other.bytes, shorter);
    return order ? order : (one.length > other.length) - (one.length < other.length);
}

/* The better match first: by kind, likeness, length, name. */
static int compare_ranks(const void *left, const void *right)
{
    const struct match *a = left, *b = right;
    if (a->kind != b->kind)
        return a->kind < b->kind ? -1 : 1;
    if (a->score != b->score)
        return a->score > b->score ? -1 : 1;
    if (a->name->written.length != b->name->written.length)
        return a->name->written.length < b->name->written.length ? -1 : 1;
    return compare_names(a, b);
}

/* By what they hold, `order` being the amount or its negative; unknown last. Equal ones by rank. */
static int compare_amounts(const void *left, const void *right)
{
    const struct match *a = left, *b = right;
    if (a->is_known != b->is_known)
        return a->is_known ? -1 : 1;
    if (a->is_known && a->order != b->order)
        return a->order < b->order ? -1 : 1;
    return compare_ranks(left, right);
}

/* ---- foods ------------------------------------------------------------------------------------------------------- */

/* A food behind a kitchen's own is hidden when the kitchen declares another of that name. */
static bool is_visible(const struct searching *searching, const struct name *name, const struct food *food)
{
    const struct library *top = searching->search->library;
    return searching->library == top || library_food(top, library_text(searching->library, name->key)).food == food;
}

static bool is_in_group(const struct search *search, const struct food *food)
{
    return search->group == NONE_INDEX
        || (food->group != NONE_INDEX && library_group_distance(search->library, food->group, search->group) != NONE_INDEX);
}

static void set_order(const struct search *search, struct match *match)
{
    if (search->nutrient == NONE_INDEX)
        return;
    const struct food *food = match->food.food;
    double best = match->food.library->values[food->values + search->nutrient].best;
    match->is_known = food->known >> search->nutrient & 1 && best == best;     /* a forged pack may hold no number */
    match->order = search->highest ? -best : best;
}

/* Of several names of a food the best counts. */
static bool keep_match(struct searching *searching, const struct match *match)
{
    struct search *search = searching->search;
    uint32_t *found = &searching->found[match->name->index];
    if (*found) {
        struct match *kept = &search->found[*found - 1];
        if (compare_ranks(match, kept) < 0)
            *kept = *match;
        return true;
    }
    if (!array_grow(&search->allocator, &search->found, search->count, &search->capacity, sizeof *search->found))
        return false;
    search->found[search->count++] = *match;
    *found = search->count;
    return true;
}

static bool match_name(struct searching *searching, const struct name *name)
{
    const struct food *food = &searching->library->foods[name->index];
    struct text key = library_text(searching->library, name->key);
    struct match match = { .food = { searching->library, food }, .name = name, .kind = MATCH_GROUP };
    if (searching->wanted.count > 0 && !match_words(&searching->wanted, key, &match))
        return true;
    if (!is_in_group(searching->search, food) || !is_visible(searching, name, food))
        return true;
    if (searching->wanted.count == 0 && !text_equal(library_text(searching->library, name->written), library_text(searching->library, food->name)))
        return true;                    /* nothing chooses between its names: it stands under its first */
    set_order(searching->search, &match);
    return keep_match(searching, &match);
}

static enum status search_one(struct searching *searching, struct arena *arena)
{
    const struct library *library = searching->library;
    searching->found = arena_take(arena, (library->foods_count + 1) * sizeof *searching->found);
    if (!searching->found)
        return STATUS_NO_MEMORY;
    for (uint32_t i = 0; i < library->names_count; i++) {
        if (library->names[i].space == SPACE_FOOD && !match_name(searching, &library->names[i]))
            return STATUS_NO_MEMORY;
    }
    return STATUS_OK;
}

/* Names that lie near are an offer where nothing better was found; where amounts decide, slips would only mix other
 * foods in between. */
static void drop_lesser(struct search *search)
{
    enum match_kind best = MATCH_SOME, most;
    uint32_t kept = 0;
    for (uint32_t i = 0; i < search->count; i++)
        best = search->found[i].kind < best ? search->found[i].kind : best;
    most = search->nutrient != NONE_INDEX && best <= MATCH_WORDS ? MATCH_WORDS : best <= MATCH_NEAR ? MATCH_NEAR : MATCH_SOME;
    for (uint32_t i = 0; i < search->count; i++) {
        if (search->found[i].kind <= most)
            search->found[kept++] = search->found[i];
    }
    search->count = kept;
}

static void count_unknown(struct search *search)
{
    for (uint32_t i = 0; i < search->count; i++)
        search->unknown_count += search->nutrient != NONE_INDEX && !search->found[i].is_known;
}

enum status library_search(struct search *search)
{
    struct searching searching = { .search = search };
    struct arena arena;
    enum status status = STATUS_OK;
    arena_open(&arena, search->allocator);
    wanted_open(&searching.wanted, search->library, search->words);
    for (searching.library = search->library; searching.library && status == STATUS_OK; searching.library = searching.library->base)
        status = search_one(&searching, &arena);
    arena_close(&arena);
    if (status != STATUS_OK)
        return status;
    drop_lesser(search);
    count_unknown(search);
    if (search->count > 1)
        qsort(search->found, search->count, sizeof *search->found, search->nutrient == NONE_INDEX ? compare_ranks : compare_amounts);
    return STATUS_OK;
}

void search_close(struct search *search)
{
    search->allocator.resize(search->allocator.context, search->found, 0);
    search->found = NULL;
}
