/* Names that lie near one that nobody has: words that both share, and slips of the pen. */
#include <string.h>

#include "library/library.h"

#define NEAR_BYTES 48

/* Edit distance with neighbours swapped as one step; words longer than NEAR_BYTES count as far. */
static uint32_t edit_distance(struct text a, struct text b)
{
    uint32_t rows[3][NEAR_BYTES + 1];
    if (a.length > NEAR_BYTES || b.length > NEAR_BYTES)
        return NEAR_BYTES;
    for (uint32_t j = 0; j <= b.length; j++)
        rows[0][j] = j;
    for (uint32_t i = 1; i <= a.length; i++) {
        uint32_t *now = rows[i % 3], *before = rows[(i + 2) % 3], *earlier = rows[(i + 1) % 3];
        now[0] = i;
        for (uint32_t j = 1; j <= b.length; j++) {
            bool same = a.bytes[i - 1] == b.bytes[j - 1];
            uint32_t best = before[j - 1] + !same;
            if (before[j] + 1 < best)
                best = before[j] + 1;
            if (now[j - 1] + 1 < best)
                best = now[j - 1] + 1;
            bool swapped = i > 1 && j > 1 && a.bytes[i - 1] == b.bytes[j - 2] && a.bytes[i - 2] == b.bytes[j - 1];
            if (swapped && earlier[j - 2] + 1 < best)
                best = earlier[j - 2] + 1;
            now[j] = best;
        }
    }
    return rows[a.length % 3][b.length];
}

double name_word_likeness(struct text a, struct text b)
{
    bool start = a.length && b.length && (a.bytes[0] == b.bytes[0] || (a.length > 1 && b.length > 1 && a.bytes[1] == b.bytes[1]));
    if (!start && (a.length < 5 || a.bytes[a.length - 1] != b.bytes[b.length - 1]))
        return 0;               /* slips leave the start, or the end of a long word, as it is */
    if (text_equal(a, b))
        return 1;
    uint32_t longer = a.length > b.length ? a.length : b.length;
    uint32_t shorter = a.length > b.length ? b.length : a.length;
    if (shorter < 3 || longer - shorter > longer / 3)
        return 0;
    uint32_t distance = edit_distance(a, b);
    return distance <= longer / 3 ? 0.9 - (double)distance / longer : 0;
}

static double best_likeness(struct text word, const struct text *others, uint32_t count)
{
    double best = 0;
    for (uint32_t i = 0; i < count; i++)
        best = amount_larger(best, name_word_likeness(word, others[i]));
    return best;
}

/* The words of a key: a single blank or `>` stands between them. */
static uint32_t split_key(struct text key, struct text *words)
{
    uint32_t count = 0, start = 0;
    for (uint32_t at = 0; at <= key.length && count < LIMIT_NAME_WORDS; at++) {
        if (at < key.length && key.bytes[at] != ' ' && key.bytes[at] != '>' && key.bytes[at] != ',')
            continue;
        if (at > start)
            words[count++] = (struct text){ key.bytes + start, at - start };
        start = at + 1;
    }
    return count;
}

/* Shared words count twice against the words of both names: 1 is the same name. */
static double name_likeness(const struct text *words, uint32_t count, struct text key)
{
    struct text others[LIMIT_NAME_WORDS];
    uint32_t other_count = split_key(key, others);
    double shared = 0;
    for (uint32_t i = 0; i < count; i++)
        shared += best_likeness(words[i], others, other_count);
    return count + other_count ? 2 * shared / (count + other_count) : 0;
}

static bool is_listed(const struct near_name *near, uint32_t count, const struct near_name *candidate)
{
    for (uint32_t i = 0; i < count; i++) {
        if (near[i].library == candidate->library && near[i].name->index == candidate->name->index
            && near[i].name->space == candidate->name->space)
            return true;
    }
    return false;
}

/* Puts the candidate where it belongs; of two names of one thing the better stays. */
static uint32_t insert_near(struct near_name *near, uint32_t count, uint32_t most, struct near_name candidate)
{
    uint32_t at = count;
    while (at > 0 && near[at - 1].score < candidate.score)
        at--;
    if (is_listed(near, at, &candidate) || at == most)
        return count;
    uint32_t end = count;
    for (uint32_t i = at; i < count; i++) {
        if (near[i].library == candidate.library && near[i].name->index == candidate.name->index
            && near[i].name->space == candidate.name->space)
            end = i;
    }
    if (end == count && count < most)
        count++;
    if (end == count)
        end = count - 1;
    for (uint32_t i = end; i > at; i--)
        near[i] = near[i - 1];
    near[at] = candidate;
    return count;
}

/* The words of a name, in its key's order. */
struct near_wanted {
    char storage[KEY_BYTES];
    struct text key, words[LIMIT_NAME_WORDS];
    uint32_t count;
};

static void wanted_open(struct near_wanted *wanted, struct text name)
{
    wanted->key = (struct text){ wanted->storage, name_key_of(name, false, wanted->storage) };
    wanted->count = name_split(wanted->key, wanted->words, LIMIT_NAME_WORDS);
}

uint32_t library_near(const struct library *library, unsigned spaces, struct text words, struct near_name *near,
                      uint32_t most)
{
    struct near_wanted wanted;
    uint32_t count = 0;
    wanted_open(&wanted, words);
    for (; library; library = library->base) {
        for (uint32_t i = 0; i < library->names_count; i++) {
            const struct name *name = &library->names[i];
            if (name->space > SPACE_REFERENCE || !(spaces & (1u << name->space))
                || name->index >= library_space_size(library, name->space) || name->key.length > KEY_BYTES)
                continue;
            double score = name_likeness(wanted.words, wanted.count, library_text(library, name->key));
            if (score >= 0.5)
                count = insert_near(near, count, most, (struct near_name){ library, name, score });
        }
    }
    return count;
}

/* How many letters of two keys agree, of 1; 0 where a quarter of them do not. It finds slips in words too short to be told
 * apart one by one: `lo sodium`. */
static double key_likeness(struct text a, struct text b)
{
    uint32_t longer = a.length > b.length ? a.length : b.length, distance = edit_distance(a, b);
    return distance <= longer / 4 && longer ? 1 - (double)distance / longer : 0;
}

uint32_t library_near_within(const struct library *library, enum name_space space, struct text words, uint32_t first, uint32_t end,
                             struct near_name *near, uint32_t most)
{
    struct near_wanted wanted;
    uint32_t count = 0;
    wanted_open(&wanted, words);
    for (uint32_t i = 0; i < library->names_count; i++) {
        const struct name *name = &library->names[i];
        if (name->space != (uint32_t)space || name->index < first || name->index >= end || name->key.length > KEY_BYTES)
            continue;
        struct text key = library_text(library, name->key);
        double score = amount_larger(name_likeness(wanted.words, wanted.count, key), key_likeness(wanted.key, key));
        if (score >= 0.5)
            count = insert_near(near, count, most, (struct near_name){ library, name, score });
    }
    return count;
}
