/* What one of a measure weighs of a food: its portions, chosen by their size and by the state that the line says, else its
 * density. The rule stands in docs/method.md ("Volume and pieces"). */
#include <string.h>

#include "model/portion.h"
#include "model/resolve.h"

/* ---- which portion ------------------------------------------------------------------------------------------------ */

static struct text portion_text(struct food_at food, struct pack_text text)
{
    return library_text(food.library, text);
}

static bool has_word(const struct text *words, uint32_t count, struct text word)
{
    for (uint32_t i = 0; i < count; i++) {
        if (text_equal(words[i], word))
            return true;
    }
    return false;
}

/* How many words of the portion's state the line says; NONE_INDEX when the line lacks one. */
static uint32_t state_score(const struct resolving *resolving, struct food_at food, const struct portion *portion)
{
    struct text words[LIMIT_NAME_WORDS];
    uint32_t count = name_split(portion_text(food, portion->state), words, LIMIT_NAME_WORDS);
    for (uint32_t i = 0; i < count; i++) {
        if (!has_word(resolving->states, resolving->state_count, words[i]))
            return NONE_INDEX;
    }
    return count;
}

/* Whether the portion was weighed with the liquid of the can where the line measures without it, or the other way round. */
static bool of_other_state(const struct resolving *resolving, struct food_at food, const struct portion *portion)
{
    struct text words[LIMIT_NAME_WORDS];
    bool says = has_word(words, name_split(portion_text(food, portion->state), words, LIMIT_NAME_WORDS), text_of("drained"));
    if (resolving->measured == MEASURED_WITH_LIQUID)
        return food.food->state != FOOD_PLAIN && (says || (food.food->state == FOOD_DRAINED && treat_drains(resolving)));
    return resolving->measured == MEASURED_DRAINED && food.food->state == FOOD_WHOLE_CAN && !says;
}

/* Portions that come into question, and the best of them. */
struct choice {
    const struct portion *best;
    uint32_t score;                 /* NONE_INDEX: the line does not say what the portion asks for */
    double distance;                /* of volumes, as a factor of 1 or more */
    struct range grams;             /* per one of the wanted unit, all equally good ones joined */
    bool joined;
};

static void consider(struct choice *choice, const struct portion *portion, uint32_t score, double distance,
                     struct range grams)
{
    bool first = !choice->best, worse, better;
    if (first)
        choice->score = score;
    better = !first && choice->score == NONE_INDEX && score != NONE_INDEX;
    worse = !first && choice->score != NONE_INDEX && score == NONE_INDEX;
    if (!first && !better && !worse && score != choice->score) {
        better = score > choice->score;
        worse = !better;
    } else if (!first && !better && !worse && amount_compare(distance, choice->distance) != 0) {
        better = distance < choice->distance;
        worse = !better;
    }
    if (worse)
        return;
    choice->joined = !first && !better;
    choice->grams = choice->joined ? range_join(choice->grams, grams) : grams;
    choice->best = portion;
    choice->score = score;
    choice->distance = distance;
}

/* A plain cup with a range, beside which cups of some state stand: the line could have said which. */
static bool is_open(struct food_at food, const struct portion *plain)
{
    bool others = false;
    for (uint32_t i = 0; i < food.food->portion_count; i++) {
        const struct portion *portion = &food.library->portions[food.food->first_portion + i];
        others = others || (portion->state.length > 0 && portion->volume_ml == plain->volume_ml);
    }
    return others && plain->state.length == 0 && !range_is_exact(plain->grams);
}

static void derive_volume(const struct resolving *resolving, struct food_at food, const struct choice *choice, struct range ml, bool joined)
{
    const struct portion *best = choice->best;
    struct range grams = choice->grams;
    if (!resolving->derivation)
        return;
    if (best && choice->joined)         /* as grams of the one that is named */
        grams = range_of(grams.low / ml.low * best->volume_ml, grams.best / ml.best * best->volume_ml, grams.high / ml.high * best->volume_ml);
    if (best)
        derive_portion(resolving, food, best, choice->joined ? grams : best->grams, best->volume_ml, joined && choice->joined);
    else if (food.food->density.high > 0)
        derive_of_food(resolving, food, DERIVED_DENSITY, "", food.food->density, range_exact(1));
}

bool portion_volume(const struct resolving *resolving, struct food_at food, struct range ml, struct range *grams, bool *joined)
{
    struct choice choice = { 0 };
    for (uint32_t i = 0; i < food.food->portion_count; i++) {
        const struct portion *portion = &food.library->portions[food.food->first_portion + i];
        if (portion->volume_ml <= 0 || of_other_state(resolving, food, portion))
            continue;
        struct range weighed = range_multiply(range_scale(portion->grams, 1 / portion->volume_ml), ml);
        double times = portion->volume_ml / ml.best;
        consider(&choice, portion, state_score(resolving, food, portion), times < 1 ? 1 / times : times, weighed);
    }
    *joined = choice.best && (choice.joined || choice.score == NONE_INDEX || is_open(food, choice.best));
    if (choice.best)
        *grams = choice.grams;
    else if (food.food->density.high > 0)
        *grams = range_multiply(food.food->density, ml);
    derive_volume(resolving, food, &choice, ml, *joined);
    return choice.best || food.food->density.high > 0;
}

bool portion_has_volume(struct food_at food)
{
    bool found = false;
    for (uint32_t i = 0; i < food.food->portion_count; i++)
        found = found || food.library->portions[food.food->first_portion + i].volume_ml > 0;
    return found;
}

bool food_volume_grams(struct food_at food, struct range ml, struct range *grams)
{
    static const struct resolving nothing_said;
    bool joined;
    return portion_volume(&nothing_said, food, ml, grams, &joined);
}

/* The words before the name must hold the portion's unit, and beside it only words of its state. */
static bool prefix_fits(const struct resolving *resolving, struct food_at food, const struct portion *portion,
                        uint32_t first, uint32_t end)
{
    char storage[KEY_BYTES];
    struct text written[LIMIT_NAME_WORDS], prefix[LIMIT_NAME_WORDS], unit[LIMIT_NAME_WORDS], state[LIMIT_NAME_WORDS];
    if (end - first > LIMIT_NAME_WORDS)
        return false;
    for (uint32_t i = first; i < end; i++)
        written[i - first] = resolving->words[i].text;
    struct text key = { storage, name_key(written, end - first, false, storage) };
    uint32_t prefix_count = name_split(key, prefix, LIMIT_NAME_WORDS);
    uint32_t unit_count = name_split(portion_text(food, portion->unit), unit, LIMIT_NAME_WORDS);
    uint32_t state_count = name_split(portion_text(food, portion->state), state, LIMIT_NAME_WORDS);
    for (uint32_t i = 0; i < unit_count; i++) {
        if (!has_word(prefix, prefix_count, unit[i]))
            return false;
    }
    for (uint32_t i = 0; i < prefix_count; i++) {
        if (!has_word(unit, unit_count, prefix[i]) && !has_word(state, state_count, prefix[i]))
            return false;
    }
    return unit_count > 0;
}

/* A unit's first name as portions know it, when some other name of it was written. */
static struct text canonical_key(const struct unit *unit, const struct library *owner, char *key)
{
    return (struct text){ key, name_key_of(library_text(owner, unit->name), false, key) };
}

bool portion_piece(const struct resolving *resolving, struct food_at food, uint32_t first, uint32_t end,
                        struct range *grams, bool *joined)
{
    struct choice choice = { 0 };
    char key[KEY_BYTES];
    uint32_t at, length;
    const struct library *owner;
    const struct unit *unit = measure_find_unit(resolving, first, end, &at, &length, &owner);
    struct text wanted = unit && length == end - first ? canonical_key(unit, owner, key) : (struct text){ "", 0 };
    for (uint32_t i = 0; i < food.food->portion_count; i++) {
        const struct portion *portion = &food.library->portions[food.food->first_portion + i];
        bool same = wanted.length && text_equal(wanted, portion_text(food, portion->unit));
        if (!same && !prefix_fits(resolving, food, portion, first, end))
            continue;
        consider(&choice, portion, state_score(resolving, food, portion), 0, portion->grams);
    }
    *joined = choice.best && (choice.joined || choice.score == NONE_INDEX);
    if (choice.best) {
        *grams = choice.grams;
        derive_portion(resolving, food, choice.best, *grams, 1, choice.joined);
    }
    return choice.best != NULL;
}

/* ---- pieces without a word for them ------------------------------------------------------------------------------- */

const struct portion *portion_named(struct food_at food, const char *unit)
{
    for (uint32_t i = 0; i < food.food->portion_count; i++) {
        const struct portion *portion = &food.library->portions[food.food->first_portion + i];
        if (portion->state.length == 0 && text_is(portion_text(food, portion->unit), unit))
            return portion;
    }
    return NULL;
}

bool portion_bare(struct food_at food, struct range *grams)
{
    const struct portion *small = portion_named(food, "small"), *medium = portion_named(food, "medium"),
                         *large = portion_named(food, "large"), *piece = portion_named(food, "piece");
    const struct portion *low = small ? small : medium ? medium : large, *high = large ? large : medium ? medium : small;
    if (low) {
        double best = medium ? medium->grams.best : (low->grams.best + high->grams.best) / 2;
        *grams = range_of(low->grams.low, best, high->grams.high);
        return true;
    }
    if (piece)
        *grams = piece->grams;
    return piece != NULL;
}
