/* Phrases of the language itself: what becomes of a line, a part or a bath as a whole. `kept 20%`, `thrown away 120 g`,
 * `reduced to 2 cups`; of a bath also `kept` and `used in turn`. */
#include <stdio.h>
#include <string.h>

#include "model/resolve.h"

static struct text item_text(const struct resolving *resolving, const struct item *item)
{
    return span_text(resolving->tail->text, item->span);
}

static bool is_word(const struct resolving *resolving, const struct item *item, const char *word)
{
    return item && item->kind == ITEM_WORD && text_is(item_text(resolving, item), word);
}

static struct fate *fate_of(struct resolving *resolving)
{
    struct resolved *resolved = resolving->resolved;
    struct fate *fate = arena_take(&resolving->gathering->arena, sizeof *fate);
    if (!fate)
        return NULL;
    *fate = resolving->rare.fate ? *resolving->rare.fate : (struct fate){ 0 };
    resolving->rare.fate = fate;
    resolved->flags |= RESOLVED_MOVES;
    return fate;
}

/* A share in a phrase: `kept 20%`, `thrown away 15% to 30%`. `eaten` says of the share of the amount what is eaten of it. */
static bool take_share(struct resolving *resolving, const struct phrase *phrase, const struct quantity *share, bool eaten)
{
    if (share->kind == QUANTITY_BAD) {
        resolving->resolved->flags |= RESOLVED_BAD;     /* a finding speaks of it */
        return true;
    }
    if (amount_compare(share->high, 1) > 0) {
        resolve_fail(resolving, FINDING_KEPT_TOO_MUCH, phrase->span, NO_GAPS);
        return true;
    }
    struct range kept = eaten ? range_between(share->low, share->high) : range_between(1 - share->high, 1 - share->low);
    resolving->resolved->kept = range_multiply(resolving->resolved->kept, kept);
    derive_note(resolving->derivation, DERIVED_KEPT, span_text(resolving->tail->text, phrase->span), text_of(""), kept, range_exact(1));
    return true;
}

/* `kept 20%`, `kept 15% to 30%`; behind a bath also `kept`. */
static bool take_kept(struct resolving *resolving, const struct phrase *phrase)
{
    const struct item *share = phrase->items->next;
    if (!is_word(resolving, phrase->items, "kept"))
        return false;
    struct fate *fate = resolving->tail->items ? NULL : fate_of(resolving);
    if (fate)
        fate->keeps_bath = true;
    if (!share)
        return fate != NULL;
    return share->quantity && share->quantity->is_percent && !share->next && take_share(resolving, phrase, share->quantity, true);
}

/* ---- measures ------------------------------------------------------------------------------------------------------ */

static bool is_amount(const struct item *item)
{
    return item && (item->kind == ITEM_NUMBER || item->kind == ITEM_RANGE) && item->quantity->kind != QUANTITY_BAD
        && !item->quantity->is_percent;
}

/* The unit of mass or volume in the items from here to the end; NULL: it is none. */
static const struct unit *unit_to_end(const struct resolving *resolving, const struct item *item)
{
    char key[KEY_BYTES];
    struct text words[LIMIT_NAME_WORDS];
    uint32_t count = name_words(resolving->tail->text, item, words, LIMIT_NAME_WORDS);
    const struct unit *unit = library_unit(resolving->library, (struct text){ key, name_key(words, count, false, key) }, NULL);
    return unit && (unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_VOLUME) ? unit : NULL;
}

/* An amount with its unit into grams or millilitres; false: it is none. */
static bool read_measure(const struct resolving *resolving, const struct item *number, struct range *grams, struct range *ml)
{
    const struct unit *unit = is_amount(number) ? unit_to_end(resolving, number->next) : NULL;
    if (!unit || number->quantity->low <= 0)
        return false;
    struct range amount = range_multiply(range_between(number->quantity->low, number->quantity->high), unit->factor);
    *(unit->dimension == DIMENSION_MASS ? grams : ml) = amount;
    return true;
}

/* ---- what is thrown away ------------------------------------------------------------------------------------------- */

/* Of a food its own portions tell what a cup weighs, of a label its serving; the rest is settled where the whole is
 * known. */
static bool take_thrown_of_food(struct resolving *resolving, const struct phrase *phrase, const struct item *number)
{
    struct resolved *resolved = resolving->resolved;
    const struct unit *unit = unit_to_end(resolving, number->next);
    struct range amount = range_between(number->quantity->low, number->quantity->high), grams;
    if (!resolved->food.food || !unit)
        return false;
    bool is_label = resolved->food.food->basis == FOOD_PER_SERVING;
    if (is_label && measure_label_unit(resolving, resolved->food, unit, amount, &grams)) {
        grams = range_scale(grams, 100);                /* a hundredth of it comes off the servings */
    } else if (is_label || !measure_amount(resolving, resolved->food, unit, amount, &grams)) {
        resolve_fail(resolving, FINDING_NO_DENSITY, phrase->span, GAPS(item_text(resolving, number->next),
                     library_text(resolved->food.library, resolved->food.food->name)));
        return true;
    }
    struct range *thrown = arena_take(&resolving->gathering->arena, sizeof *thrown);
    if (thrown)
        *thrown = measure_by_spoon(resolving, unit, grams);
    resolving->rare.thrown = thrown;
    return true;
}

/* Its steps are noted as those of what is thrown away. */
static bool derive_thrown_of_food(struct resolving *resolving, const struct phrase *phrase, const struct item *number)
{
    if (resolving->derivation)
        resolving->derivation->of_thrown = true;
    bool taken = take_thrown_of_food(resolving, phrase, number);
    if (resolving->derivation)
        resolving->derivation->of_thrown = false;
    return taken;
}

/* `thrown away 120 g`: what the cook weighs is exact, and beats any table. */
static bool take_thrown_away(struct resolving *resolving, const struct phrase *phrase)
{
    const struct item *number = phrase->items->next ? phrase->items->next->next : NULL;
    struct range grams = { 0 }, ml = { 0 };
    if (!is_word(resolving, phrase->items, "thrown") || !is_word(resolving, phrase->items->next, "away") || !number || !number->quantity)
        return false;
    if (number->quantity->is_percent)
        return !number->next && take_share(resolving, phrase, number->quantity, false);
    if (!is_amount(number))
        return false;
    if (derive_thrown_of_food(resolving, phrase, number))
        return true;
    if (!read_measure(resolving, number, &grams, &ml))
        return false;
    struct fate *fate = fate_of(resolving);
    if (fate) {
        fate->thrown = true;
        fate->thrown_grams = grams;
        fate->thrown_ml = ml;
    }
    return true;
}

/* Offers `words` and the amount in place of the whole phrase. */
static void offer(struct resolving *resolving, struct finding *finding, const struct phrase *phrase, const char *words,
                  struct text amount, enum words_code title)
{
    char storage[160];
    struct voice *voice = &resolving->voice;
    struct place place = { voice->file, { phrase->span.start + voice->shift, phrase->span.end + voice->shift } };
    int length = snprintf(storage, sizeof storage, "%s%.*s", words, (int)amount.length, amount.bytes);
    if (finding && length > 0 && (size_t)length < sizeof storage)
        finding_fix(voice->findings, finding, place, text_of(storage), title, GAPS(text_of(storage)));
}

/* `left over 20 g`, `left in 20%`: what stays in the bowl or what stays in the dish? The finding offers both. */
static bool refuse_left(struct resolving *resolving, const struct phrase *phrase)
{
    const struct item *way = phrase->items->next, *number = way ? way->next : NULL;
    if (!is_word(resolving, phrase->items, "left") || !(is_word(resolving, way, "over") || is_word(resolving, way, "in"))
        || !number || !number->quantity || number->quantity->kind == QUANTITY_BAD)
        return false;
    struct text written = span_text(resolving->tail->text, phrase->span),
                amount = span_text(resolving->tail->text, (struct span){ number->span.start, phrase->span.end });
    bool share = number->quantity->is_percent;
    struct finding *finding = resolve_fail(resolving, share ? FINDING_LEFT_SHARE : FINDING_LEFT_AMOUNT, phrase->span, GAPS(written, amount));
    offer(resolving, finding, phrase, "thrown away ", amount, WORDS_FIX_THROWN_AWAY);
    if (share)
        offer(resolving, finding, phrase, "kept ", amount, WORDS_FIX_KEPT);
    return true;
}

/* ---- what boils away ------------------------------------------------------------------------------------------------ */

static const struct part_word {
    const char *word;
    double of;
} part_words[] = {
    { "half", 2 }, { "third", 3 }, { "thirds", 3 }, { "quarter", 4 }, { "quarters", 4 },
};

/* `half`, `a third`, `two thirds`, `30%`, `1/2`; 0: it is none of them. */
static struct range read_part(const struct resolving *resolving, const struct item *item)
{
    double times = 1;
    if (item && item->quantity && !item->next && item->quantity->kind != QUANTITY_BAD
        && (item->quantity->is_percent || item->quantity->high < 1))
        return range_between(item->quantity->low, item->quantity->high);
    if (item && item->next) {
        times = is_word(resolving, item, "two") ? 2 : is_word(resolving, item, "three") ? 3 : 1;
        item = item->next;
    }
    for (uint32_t i = 0; item && !item->next && i < COUNT_OF(part_words); i++) {
        if (is_word(resolving, item, part_words[i].word))
            return range_exact(times / part_words[i].of);
    }
    return range_exact(0);
}

/* `reduced to 2 cups`, `reduced to 300 g`, `reduced by half`, `reduced to a third`. */
static bool take_reduced(struct resolving *resolving, const struct phrase *phrase)
{
    const struct item *way = phrase->items->next;
    struct range grams = { 0 }, ml = { 0 }, share;
    bool to = is_word(resolving, way, "to"), by = is_word(resolving, way, "by");
    if (!is_word(resolving, phrase->items, "reduced") || (!to && !by))
        return false;
    const struct item *amount = way->next;
    while (amount && amount->kind == ITEM_WORD && treat_is_filler(resolving, item_text(resolving, amount)))
        amount = amount->next;                          /* `to about 1 cup` */
    if (!to || !read_measure(resolving, amount, &grams, &ml)) {
        share = read_part(resolving, amount);
        if (to && share.high > 0 && share.high <= 1)
            share = range_without(range_exact(1), share);
        if (share.low < 0 || share.high <= 0 || share.high >= 1) {
            resolve_fail(resolving, FINDING_REDUCED_HOW, phrase->span, NO_GAPS);
            return true;
        }
    } else {
        share = range_exact(0);
    }
    struct fate *fate = fate_of(resolving);
    if (!fate)
        return true;
    bool again = fate->reduced && share.high > 0;       /* `reduced by half, reduced by half` */
    struct range rest = range_without(range_exact(1), share), before = fate->by;
    if (again && before.high <= 0) {
        fate->grams = range_multiply(fate->grams, rest);
        fate->ml = range_multiply(fate->ml, rest);
    } else {
        fate->grams = grams;
        fate->ml = ml;
        fate->by = again ? range_of(1 - (1 - before.low) * rest.high, 1 - (1 - before.best) * rest.best, 1 - (1 - before.high) * rest.low)
                         : share;
    }
    fate->reduced = fate->keeps_bath = true;
    fate->span = phrase->span;
    return true;
}

/* `used in turn`: foods go into the bath one after the other. */
static bool take_in_turn(struct resolving *resolving, const struct phrase *phrase)
{
    const struct item *in = phrase->items->next;
    if (resolving->tail->items || !is_word(resolving, phrase->items, "used") || !is_word(resolving, in, "in")
        || !is_word(resolving, in->next, "turn") || in->next->next)
        return false;
    struct fate *fate = fate_of(resolving);
    if (fate)
        fate->in_turn = true;
    return true;
}

bool treat_take_words_of_language(struct resolving *resolving, const struct phrase *phrase)
{
    return take_kept(resolving, phrase) || take_thrown_away(resolving, phrase) || refuse_left(resolving, phrase)
        || take_reduced(resolving, phrase) || take_in_turn(resolving, phrase);
}
