/* Names that are not found: what is said, and which names are offered. */
#include <string.h>

#include "model/resolve.h"

/* How many words in front are surely a unit. */
static uint32_t unit_prefix(const struct resolving *resolving)
{
    uint32_t at, length, end = 0;
    const struct library *owner;
    while (end < 4 && end + 1 < resolving->word_count
           && measure_find_unit(resolving, end, end + 1, &at, &length, &owner))
        end++;
    for (uint32_t run = 3; end == 0 && run > 1; run--) {
        if (run < resolving->word_count && measure_find_unit(resolving, 0, run, &at, &length, &owner) && length == run)
            return run;
    }
    return end;
}

void kitchen_note_kinds(const struct kitchen *kitchen, const struct library *owner, const struct shelf *shelf, struct findings *findings, struct finding *finding)
{
    char key[KEY_BYTES], words[120];
    const struct library *library = kitchen->library;
    for (uint32_t i = 0; i < shelf->kind_count; i++) {
        struct text kind = library_text(owner, owner->texts[shelf->first_kind + i]);
        struct food_at food = library_food(library, (struct text){ key, name_key_of(kind, false, key) });
        if (!food.food || library->traced == NONE_INDEX)
            continue;
        finding_note(findings, finding, WORDS_KIND,
                     GAPS(kind, kitchen_print_kind(library, food, kitchen_other_nutrient(kitchen), words, sizeof words)));
    }
}

static bool fail_shelf(struct resolving *resolving, uint32_t first)
{
    char key[KEY_BYTES];
    const struct shelf *shelf;
    struct text name = resolve_words_text(resolving, first, resolving->word_count);
    struct span span = resolve_words_span(resolving, first, resolving->word_count);
    const struct library *owner = library_shelf(resolving->library, (struct text){ key, name_key_of(name, false, key) }, &shelf).library;
    if (!shelf)
        return false;
    struct finding *finding = resolve_fail(resolving, FINDING_CHOOSE_KIND, span, GAPS(name));
    if (finding)
        kitchen_note_kinds(resolving->gathering->kitchen, owner, shelf, resolving->voice.findings, finding);
    return true;
}

static bool has_or(const struct resolving *resolving, uint32_t first)
{
    for (uint32_t i = first; i < resolving->word_count; i++) {
        if (text_is(resolving->words[i].text, "or"))
            return true;
    }
    return false;
}

/* The food is there, but the one word before it measures nothing of it. */
static bool fail_unit(struct resolving *resolving)
{
    uint32_t at, length;
    const struct library *owner;
    struct food_at food = resolve_find(resolving, 1, resolving->word_count, (struct text){ "", 0 });
    if (!food.food)
        return false;
    const struct unit *unit = measure_find_unit(resolving, 0, 1, &at, &length, &owner);
    resolving->resolved->food = food;
    if (unit)
        measure_food(resolving, food, 0, 1);
    if (!(resolving->resolved->flags & RESOLVED_BAD))
        resolve_fail(resolving, FINDING_UNKNOWN_UNIT, resolve_words_span(resolving, 0, 1),
                     GAPS(resolve_words_text(resolving, 0, 1), library_text(food.library, food.food->name)));
    return true;
}

/* `1 lb roasted carrots`: the food is there, and so is the treatment, but it changes the weight. */
static bool fail_weight_in_front(struct resolving *resolving, uint32_t first)
{
    for (uint32_t count = 1; count <= 2 && first + count < resolving->word_count; count++) {
        uint32_t name = first + count;
        char key[KEY_BYTES];
        struct text words[2] = { resolving->words[first].text, resolving->words[name - 1].text };
        struct text wanted = { key, name_key(words, count, false, key) };
        bool treated = wanted.length && treat_find_any(resolving, wanted);
        struct food_at food = resolve_find(resolving, name, resolving->word_count, (struct text){ "", 0 });
        if (!treated || !food.food || treat_knows_words(resolving, first, count))
            continue;
        resolve_fail(resolving, FINDING_WEIGHT_IN_FRONT, resolve_words_span(resolving, first, resolving->word_count),
                     GAPS(resolve_words_text(resolving, first, name), resolve_words_text(resolving, name, resolving->word_count)));
        return true;
    }
    return false;
}

void resolve_fail_food(struct resolving *resolving)
{
    uint32_t first = unit_prefix(resolving);
    struct text state = resolve_package_state(resolving, 0, first);
    struct text name = resolve_words_text(resolving, first, resolving->word_count);
    struct span span = resolve_words_span(resolving, first, resolving->word_count);
    for (uint32_t i = 0; i <= first && i < resolving->word_count; i++) {
        struct food_at found = resolve_find(resolving, i, resolving->word_count, (struct text){ "", 0 });
        if (!found.library || found.food)
            continue;
        resolve_fail(resolving, FINDING_PACK_FOOD_DAMAGED, span, GAPS(name));
        return;
    }
    if (has_or(resolving, first)) {
        resolve_fail(resolving, FINDING_OR_INSIDE, span, GAPS(name));
        return;
    }
    for (uint32_t i = 0, passed = 0; i < resolving->word_count && passed <= first + 1; i++) {
        if (fail_shelf(resolving, i))
            return;                             /* `1 stick butter`, `2 tbsp melted butter` */
        passed += i < first || !treat_knows_words(resolving, i, 1);
    }
    if (!state.length && (fail_weight_in_front(resolving, first) || fail_unit(resolving)))
        return;
    struct finding *finding = resolve_fail(resolving, state.length ? FINDING_UNKNOWN_CANNED : FINDING_UNKNOWN_FOOD,
                                           span, GAPS(name));
    char canned[KEY_BYTES];
    int length = snprintf(canned, sizeof canned, "%.*s %.*s", (int)state.length, state.bytes, (int)name.length, name.bytes);
    bool use_state = state.length && length > 0 && (size_t)length < sizeof canned;
    finding_wish(resolving->voice.findings, finding, (struct finding_wish){ use_state ? text_of(canned) : name, 1u << SPACE_FOOD, use_state });
}

/* ---- treatments ------------------------------------------------------------------------------------------------------ */

static bool is_food(const struct resolving *resolving, const struct text *words, uint32_t count)
{
    char key[KEY_BYTES];
    const struct shelf *shelf;
    struct text found = { key, name_key(words, count, false, key) };
    library_shelf(resolving->library, found, &shelf);
    return found.length && (shelf || library_food(resolving->library, found).food);
}

/* Words that name a food or hold an amount add something: nobody shall be told to hide them in quotes. */
static bool adds_something(const struct resolving *resolving, struct text phrase)
{
    struct text words[LIMIT_NAME_WORDS];
    uint32_t count = name_split(phrase, words, LIMIT_NAME_WORDS);
    for (uint32_t i = 0; i < count; i++) {
        bool digit = words[i].bytes[0] >= '0' && words[i].bytes[0] <= '9';
        if (digit || is_food(resolving, words + i, 1) || (i + 1 < count && is_food(resolving, words + i, 2)))
            return true;
    }
    return false;
}

void resolve_fail_treatment(struct resolving *resolving, struct text written, struct span span)
{
    bool adds = adds_something(resolving, written);
    struct finding *finding = resolve_fail(resolving, adds ? FINDING_UNKNOWN_ADDITION : FINDING_UNKNOWN_TREATMENT, span, GAPS(written));
    if (!adds)
        finding_wish(resolving->voice.findings, finding, (struct finding_wish){ written, 1u << SPACE_TREATMENT, false });
}
