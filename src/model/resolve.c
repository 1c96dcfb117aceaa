/* The second pass over a tail: which words are the unit, which the food, which were done to it. The whole name is
 * tried first; words are taken off its front as a unit, then as preparation, only where nothing matches. */
#include <string.h>

#include "model/resolve.h"

/* ---- findings at the tail's place ------------------------------------------------------------------------------ */

struct finding *resolve_say(struct resolving *resolving, enum words_code code, struct span span,
                            const struct text *gaps, uint32_t gap_count)
{
    struct voice *voice = &resolving->voice;
    resolving->resolved->flags |= resolving->around ? RESOLVED_SPEAKS_AROUND : RESOLVED_SPEAKS;
    if (!voice->findings)
        return NULL;
    struct place place = { voice->file, { span.start + voice->shift, span.end + voice->shift } };
    return finding_add(voice->findings, code, place, gaps, gap_count);
}

struct finding *resolve_fail(struct resolving *resolving, enum words_code code, struct span span,
                             const struct text *gaps, uint32_t gap_count)
{
    resolving->resolved->flags |= RESOLVED_BAD;
    return resolve_say(resolving, code, span, gaps, gap_count);
}

struct span resolve_words_span(const struct resolving *resolving, uint32_t first, uint32_t end)
{
    if (first >= end || end > resolving->word_count)
        return resolve_whole_span(resolving);
    return (struct span){ resolving->words[first].span.start, resolving->words[end - 1].span.end };
}

struct text resolve_words_text(const struct resolving *resolving, uint32_t first, uint32_t end)
{
    return span_text(resolving->tail->text, resolve_words_span(resolving, first, end));
}

/* From the first item to the last, phrases left out. */
struct span resolve_whole_span(const struct resolving *resolving)
{
    const struct item *last = resolving->tail->items;
    if (!last)
        return (struct span){ 0, resolving->tail->text.length };
    while (last->next)
        last = last->next;
    return (struct span){ resolving->tail->items->span.start, last->span.end };
}

static void add_word_as_state(struct resolving *resolving, struct text word, struct span span)
{
    if (!resolve_add_states(resolving, word))
        resolve_fail(resolving, FINDING_LINE_TOO_LONG, span, NO_GAPS);
}

/* ---- names ------------------------------------------------------------------------------------------------------ */

struct food_at resolve_find(const struct resolving *resolving, uint32_t first, uint32_t end, struct text extra)
{
    struct text words[LIMIT_LINE_WORDS + 1];
    char key[KEY_BYTES];
    uint32_t count = 0;
    for (uint32_t i = first; i < end; i++)
        words[count++] = resolving->words[i].text;
    if (extra.length)
        words[count++] = extra;
    if (count == 0 || count > LIMIT_NAME_WORDS)
        return (struct food_at){ NULL, NULL };
    struct food_at food = library_food(resolving->library, (struct text){ key, name_key(words, count, true, key) });
    return food.food ? food : library_food(resolving->library, (struct text){ key, name_key(words, count, false, key) });
}

/* The package among words [first, end), which may stand beside a measure: `400 g tin chickpeas`. */
static const struct unit *find_package(struct resolving *resolving, uint32_t first, uint32_t end, const struct library **owner)
{
    for (uint32_t i = first; i < end; i++) {
        uint32_t at, length;
        const struct unit *unit = measure_find_unit(resolving, i, i + 1, &at, &length, owner);
        if (resolve_is_package(unit)) {
            resolving->package_word = resolving->words[i].text;
            return unit;
        }
    }
    return NULL;
}

struct text resolve_package_state(struct resolving *resolving, uint32_t first, uint32_t end)
{
    const struct library *owner = NULL;
    const struct unit *unit = find_package(resolving, first, end, &owner);
    resolving->package = unit != NULL;
    resolving->package_unit = unit;
    resolving->package_owner = owner;
    resolving->package_holds_plain = unit && unit->flags & UNIT_HOLDS_PLAIN;
    return unit ? library_text(owner, unit->state) : (struct text){ "", 0 };
}

static void part_words(struct resolving *resolving, uint32_t prefix, uint32_t first, uint32_t end)
{
    resolving->prefix = prefix;
    resolving->name_first = first;
    resolving->name_end = end;
}

static bool says(const struct resolving *resolving, const char *word)
{
    for (uint32_t i = 0; i < resolving->state_count; i++) {
        if (text_is(resolving->states[i], word))
            return true;
    }
    return false;
}

/* What is soaked or boiled before it is drained came from no can. */
static bool is_cooked_at_home(const struct resolving *resolving)
{
    static const char *const words[] = { "boiled", "parboiled", "blanched", "cooked", "steamed", "simmered", "poached", "stewed", "braised", "soaked" };
    bool cooked = false;
    for (uint32_t i = 0; i < COUNT_OF(words); i++)
        cooked = cooked || says(resolving, words[i]);
    return cooked;
}

/* `1 cup corn, drained`: nobody drains a raw vegetable, unless it was washed. Where there is a canned food of that name, it is meant. */
static struct food_at prefer_canned(struct resolving *resolving, struct food_at found, uint32_t prefix, uint32_t first)
{
    bool meant = is_cooked_at_home(resolving) || (library_is_fresh(found) && says(resolving, "washed"));   /* `rinsed` is said of cans, too */
    if (found.food->state != FOOD_PLAIN || !treat_says_drained(resolving) || meant)
        return found;
    struct food_at canned = resolve_find(resolving, first, resolving->word_count, text_of("canned"));
    if (!canned.food || canned.food->state == FOOD_PLAIN || !measure_fits(resolving, canned, 0, prefix))
        return found;
    resolve_say(resolving, FINDING_TAKEN_AS_CANNED, resolve_words_span(resolving, first, resolving->word_count),
                GAPS(resolve_words_text(resolving, first, resolving->word_count)));
    return canned;
}

/* Words [0, prefix) measure, words [first, count) are the name. With a can, the canned food comes first. */
static bool try_parting(struct resolving *resolving, uint32_t prefix, uint32_t first, struct food_at *food)
{
    struct text state = resolve_package_state(resolving, 0, prefix);
    struct food_at found = { NULL, NULL };
    if (state.length)
        found = resolve_find(resolving, first, resolving->word_count, state);
    if (!found.food)
        found = resolve_find(resolving, first, resolving->word_count, (struct text){ "", 0 });
    if (found.food && state.length && found.food->state == FOOD_PLAIN
        && (!resolving->package_holds_plain || library_is_fresh(found)))
        found.food = resolve_find(resolving, first, resolving->word_count, state).food;
    if (!found.food || !measure_fits(resolving, found, 0, prefix))
        return false;
    part_words(resolving, prefix, first, resolving->word_count);
    *food = prefer_canned(resolving, found, prefix, first);
    return true;
}

/* `2 garlic cloves`: the piece stands behind the name. */
static bool try_trailing_unit(struct resolving *resolving, struct food_at *food)
{
    uint32_t last = resolving->word_count - 1;
    if (resolving->word_count < 2)
        return false;
    for (uint32_t sizes = 0; sizes < 2 && sizes < last; sizes++) {
        struct food_at found = resolve_find(resolving, sizes, last, (struct text){ "", 0 });
        if (!found.food)
            continue;
        struct tail_word piece = resolving->words[last];        /* measured as if it stood in front */
        memmove(resolving->words + sizes + 1, resolving->words + sizes, (last - sizes) * sizeof piece);
        resolving->words[sizes] = piece;
        if (measure_fits(resolving, found, 0, sizes + 1)) {
            part_words(resolving, sizes + 1, sizes + 1, resolving->word_count);
            *food = found;
            return true;
        }
        memmove(resolving->words + sizes, resolving->words + sizes + 1, (last - sizes) * sizeof piece);
        resolving->words[last] = piece;
    }
    return false;
}

/* `1 cup chickpeas, drained` means the canned ones, and a note says so. */
static bool try_drained(struct resolving *resolving, struct food_at *food)
{
    if (!treat_drains(resolving) || is_cooked_at_home(resolving))
        return false;
    for (uint32_t prefix = 0; prefix < 4 && prefix < resolving->word_count; prefix++) {
        struct food_at found = resolve_find(resolving, prefix, resolving->word_count, text_of("canned"));
        if (!found.food || !measure_fits(resolving, found, 0, prefix))
            continue;
        part_words(resolving, prefix, prefix, resolving->word_count);
        *food = found;
        resolve_say(resolving, FINDING_TAKEN_AS_CANNED, resolve_words_span(resolving, prefix, resolving->word_count),
                    GAPS(resolve_words_text(resolving, prefix, resolving->word_count)));
        return true;
    }
    return false;
}

static bool is_shelf(const struct resolving *resolving, uint32_t first)
{
    char key[KEY_BYTES];
    const struct shelf *shelf;
    struct text name = resolve_words_text(resolving, first, resolving->word_count);
    library_shelf(resolving->library, (struct text){ key, name_key_of(name, false, key) }, &shelf);
    return shelf != NULL;
}

/* Peels one more treatment off the words from `first` on, the shortest that is one, and goes on until a food is left. */
static bool try_peeling_behind(struct resolving *resolving, uint32_t prefix, uint32_t first, struct food_at *food)
{
    uint32_t depth = resolving->peeled_count++;
    bool found = false;
    if (depth < LIMIT_PEELED && !is_shelf(resolving, first)) {
        for (uint32_t run = 1; run <= 3 && first + run < resolving->word_count && !found; run++) {
            if (!treat_knows_words(resolving, first, run))
                continue;
            resolving->peeled[depth] = (uint8_t)run;
            resolving->peeled_count = depth + 1;
            found = try_parting(resolving, prefix, first + run, food) || try_peeling_behind(resolving, prefix, first + run, food);
        }
    }
    if (!found)
        resolving->peeled_count = depth;
    return found;
}

/* `1 cup chopped onion`: preparation before the noun is peeled off, a declared treatment at a time. A longer name comes
 * first, also where it stands for several kinds: `roasted cashews` are no cashews that were roasted. */
static bool try_peeling(struct resolving *resolving, struct food_at *food)
{
    for (uint32_t prefix = 0; prefix < 4 && prefix < resolving->word_count; prefix++) {
        if (!try_peeling_behind(resolving, prefix, prefix, food))
            continue;
        for (uint32_t i = prefix; i < resolving->name_first; i++)
            add_word_as_state(resolving, resolving->words[i].text, resolving->words[i].span);
        return true;
    }
    return false;
}

/* `1/2 cup blueberries, frozen`: words behind a comma that are no treatment may belong to the name. */
static bool try_inverted(struct resolving *resolving, struct food_at *food)
{
    uint32_t count = resolving->word_count;
    const struct phrase *phrase = resolving->phrases;
    char key[KEY_BYTES];
    uint32_t length = phrase ? treat_phrase_key(resolving, phrase->items, key) : 0;
    if (!phrase || count + LIMIT_NAME_WORDS > LIMIT_LINE_WORDS || (length && treat_find_any(resolving, (struct text){ key, length })))
        return false;
    for (const struct item *item = phrase->items; item; item = item->next) {
        if (item->kind == ITEM_GROUP)
            continue;                               /* read already */
        bool percent = item->kind == ITEM_NUMBER && item->quantity->is_percent;     /* `ground beef, 90% lean` */
        if ((item->kind != ITEM_WORD && !percent) || !resolve_take_item(resolving, item, NONE_INDEX)) {
            resolving->word_count = count;
            return false;
        }
    }
    for (uint32_t prefix = 0; prefix < 5 && prefix < count; prefix++) {
        if (try_parting(resolving, prefix, prefix, food)) {
            resolving->phrases = phrase->next;
            return true;
        }
    }
    resolving->word_count = count;
    return false;
}

/* The whole name comes first. Where nobody says what one of it weighs, a word of it may be its piece: `1 stalk
 * rhubarb` is a stalk, though `rhubarb stalk` is a name, too. */
static bool find_food(struct resolving *resolving, struct food_at *food)
{
    struct food_at whole = { NULL, NULL };
    struct range one;
    if (try_inverted(resolving, food))
        return true;
    for (uint32_t prefix = 0; prefix < 5 && prefix < resolving->word_count; prefix++) {
        if (!try_parting(resolving, prefix, prefix, food))
            continue;
        if (prefix > 0 || !resolving->tail->is_measured || resolving->aside.found || portion_bare(*food, &one))
            return true;
        whole = *food;
    }
    resolving->package = false;
    if (try_trailing_unit(resolving, food) || (!whole.food && (try_drained(resolving, food) || try_peeling(resolving, food))))
        return true;
    *food = whole;
    part_words(resolving, 0, 0, resolving->word_count);
    return whole.food != NULL;
}

/* ---- what the plain word was taken for ------------------------------------------------------------------------------ */

static void note_salted_kind(struct resolving *resolving, struct food_at food)
{
    if (!(food.food->flags & FOOD_USUALLY_SALTED))
        return;
    struct finding *finding = resolve_say(resolving, FINDING_SALTED_KIND,
        resolve_words_span(resolving, resolving->name_first, resolving->name_end), GAPS(library_text(food.library, food.food->name)));
    kitchen_note_milder(resolving->voice.findings, finding, resolving->gathering->kitchen, food);
}

/* `some` of it: the declared volume, as grams. */
static void set_some(struct resolving *resolving, struct food_at food)
{
    struct resolved probe = { 0 }, *kept = resolving->resolved;
    struct resolving other = *resolving;
    static const char ml[] = "ml";
    other.resolved = &probe;
    other.voice.findings = NULL;
    other.aside.found = false;
    other.derivation = resolving->tail->is_measured ? NULL : resolving->derivation;
    other.word_count = other.word_count ? other.word_count : 1;
    other.words[0] = (struct tail_word){ { ml, 2 }, { 0, 0 }, 0 };
    if (food.food->unmeasured_ml.high <= 0)
        return;
    measure_food(&other, food, 0, 1);
    derive_of_food(&other, food, DERIVED_SOME, "", food.food->unmeasured_ml, range_exact(1));
    if (!(probe.flags & RESOLVED_BAD))
        kept->some = range_multiply(food.food->unmeasured_ml, probe.scale);
}

/* ---- the whole ------------------------------------------------------------------------------------------------------- */

/* Nothing may stand behind a quoted name but a measure in parentheses: it would be lost. */
static bool fail_words_behind(struct resolving *resolving)
{
    const struct item *item = resolving->string->next;
    while (item && item->kind == ITEM_GROUP)
        item = item->next;
    if (!item)
        return false;
    resolve_fail(resolving, FINDING_WORDS_BEHIND_NAME, item->span, GAPS(span_text(resolving->tail->text, item->span)));
    return true;
}

static void resolve_string(struct resolving *resolving)
{
    if (fail_words_behind(resolving))
        return;
    struct text name = span_text(resolving->tail->text, resolving->string->span);
    char key[KEY_BYTES];
    struct recipe_at recipe = kitchen_recipe(resolving->gathering->kitchen, name);
    struct food_at label = library_label(resolving->library, (struct text){ key, name_key_of(name, true, key) });
    if (recipe.recipe && recipe.recipe->is_day) {
        resolve_fail(resolving, FINDING_DAY_AS_FOOD, resolving->string->span, GAPS(name));
    } else if (recipe.recipe) {
        resolving->resolved->subject = SUBJECT_RECIPE;
        resolving->resolved->recipe = recipe;
        if (resolving->tail->is_measured || resolving->words_before_string)
            measure_recipe(resolving, recipe, resolving->words_before_string);
    } else if (label.food) {
        resolving->resolved->subject = SUBJECT_FOOD;
        resolving->resolved->food = label;
        resolve_package_state(resolving, 0, resolving->words_before_string);
        if (resolving->tail->is_measured || resolving->words_before_string)
            measure_label(resolving, label, resolving->words_before_string);
    } else if (gathering_has_bath(resolving->gathering, name)) {
        resolving->resolved->subject = SUBJECT_BATH;
        resolving->rare.bath = name;
        resolving->resolved->flags |= RESOLVED_MOVES;
        uint32_t before = resolving->words_before_string;
        if (before && text_is(resolving->words[before - 1].text, "in"))
            resolve_fail(resolving, FINDING_BATH_COMMA, resolve_whole_span(resolving), GAPS(name));
        else if (resolving->tail->is_measured || before)
            measure_bath(resolving, before);
    } else {
        struct finding *finding = resolve_fail(resolving, FINDING_UNKNOWN_RECIPE, resolving->string->span, GAPS(name));
        kitchen_near_recipes(resolving->gathering->kitchen, resolving->voice.findings, finding, name,
                             resolving->voice.file, resolving->string->span, resolving->voice.shift);
    }
}

/* `2 boneless, skinless chicken breasts`: where what stands before the comma is only preparation, the name goes on
 * behind it. */
static bool find_behind_comma(struct resolving *resolving, struct food_at *food)
{
    uint32_t count = resolving->word_count;
    bool found = false;
    const struct phrase *phrase = resolving->phrases;
    if (count == 0 || !treat_knows_word(resolving, resolving->words[count - 1].text))
        return false;
    for (uint32_t joined = 0; phrase && joined < 2 && !found; joined++, phrase = phrase->next) {
        for (const struct item *item = phrase->items; item; item = item->next) {
            if (item->kind != ITEM_GROUP && !resolve_take_item(resolving, item, NONE_INDEX))
                return false;
        }
        found = find_food(resolving, food);
    }
    if (found)
        resolving->phrases = phrase;
    else
        resolving->word_count = count;
    return found;
}

static enum measured measured_how(const struct resolving *resolving)
{
    if (treat_says_as_canned(resolving) || (resolving->package && !resolving->aside.after))
        return MEASURED_WITH_LIQUID;
    return treat_drains(resolving) ? MEASURED_DRAINED : MEASURED_AS_IT_IS;
}

static void resolve_words(struct resolving *resolving)
{
    struct food_at food = { NULL, NULL };
    if (!find_food(resolving, &food) && !find_behind_comma(resolving, &food)) {
        resolve_fail_food(resolving);
        return;
    }
    resolving->resolved->subject = SUBJECT_FOOD;
    resolving->resolved->food = food;
    for (uint32_t i = 0; i < resolving->name_end; i++) {        /* `shredded cheddar` may be a name, and chooses its cup */
        if (i < resolving->prefix || i >= resolving->name_first)
            add_word_as_state(resolving, resolving->words[i].text, resolving->words[i].span);
    }
    if (treat_drains(resolving))        /* `rinsed` weighs as `drained` does */
        add_word_as_state(resolving, text_of("drained"), resolve_whole_span(resolving));
    resolving->measured = measured_how(resolving);
    if (resolving->tail->is_measured || resolving->prefix > 0)
        measure_food(resolving, food, 0, resolving->prefix);
    note_salted_kind(resolving, food);
    set_some(resolving, food);
}

static void resolve_tail(struct resolving *resolving)
{
    struct resolved *resolved = resolving->resolved;
    resolved->kept = resolved->done.mass = range_exact(1);
    resolve_take_items(resolving);
    if (resolving->string)
        resolve_string(resolving);
    else if (resolving->word_count)
        resolve_words(resolving);
    else if (resolving->tail->items)
        resolve_fail(resolving, FINDING_UNKNOWN_FOOD, resolve_whole_span(resolving), GAPS(resolving->tail->text));
    if (!(resolved->flags & RESOLVED_BAD) || !resolving->tail->items)
        treat_all(resolving, resolving->prefix, resolving->name_first);
}

static const struct rare nothing_rare;

/* Most lines share the one that holds nothing. */
static void keep_rare(struct resolving *resolving)
{
    struct rare *rare = &resolving->rare, *kept = NULL;
    if (range_is_exact(rare->measure_ml)) {
        rare->measure_ml = range_exact(0);
        rare->measure_words = (struct text){ NULL, 0 };
    }
    resolving->resolved->rare = &nothing_rare;
    if (rare->thrown || rare->visit_count || rare->fate || rare->bath.bytes || rare->measure_ml.high > 0)
        kept = arena_take(&resolving->gathering->arena, sizeof *kept);
    if (!kept)
        return;
    *kept = *rare;
    resolving->resolved->rare = kept;
}

void resolve_derive(struct gathering *gathering, const struct tail *tail, uint32_t part, struct derivation *derivation, struct resolved *resolved)
{
    struct resolving resolving = { .gathering = gathering, .library = gathering->kitchen->library, .tail = tail, .phrases = tail->phrases,
                                   .resolved = resolved, .part = part, .derivation = derivation };
    resolve_tail(&resolving);
}

void resolve_whole(struct gathering *gathering, const struct tail *tail, uint32_t part, struct voice voice, struct resolved *resolved)
{
    struct resolving resolving = { .gathering = gathering, .library = gathering->kitchen->library, .tail = tail, .phrases = tail->phrases,
                                   .voice = voice, .resolved = resolved, .part = part };
    if (part != NONE_INDEX)
        resolving.voice.findings = NULL;
    resolving.around_findings = part != NONE_INDEX ? voice.findings : NULL;
    resolve_tail(&resolving);
    keep_rare(&resolving);
    if (!resolved->food.food)
        return;
    const struct food *food = resolved->food.food;
    const struct library *owner = NULL;
    if (library_doubling(gathering->kitchen->library, food->group, NULL, &owner))
        resolved->flags |= RESOLVED_DOUBLES;
    resolved->values = resolved->food.library->values + kitchen_food_row(gathering->kitchen, food);
    resolved->unknown = ~food->known | (gathering->kitchen->tolerance ? food->open : 0);
}
