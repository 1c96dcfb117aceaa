/* Amounts and cautions as several reports tell them. */
#include <string.h>

#include "output/lookup.h"
#include "output/told.h"

struct text told_unit(const struct library *library, uint32_t nutrient)
{
    const struct library *owner;
    const struct nutrient *found = library_nutrient_at(library, nutrient, &owner);
    return library_text(owner, found->unit);
}

struct text told_amount(struct sheet *sheet, struct range amount, bool complete, struct text unit)
{
    double low = figure_rounded(amount.low, ROUND_DOWN), high = figure_rounded(amount.high, ROUND_UP);
    int length = (int)unit.length;
    if (!complete && amount.low <= 0)
        return phrase_text(PHRASE_UNKNOWN);
    if (!complete)
        return sheet_say(sheet, PHRASE_AT_LEAST, sheet_print(sheet, "%.10g %.*s", low, length, unit.bytes));
    double best = figure_rounded(amount.best, ROUND_NEAREST);
    if (range_is_exact(amount) || low == high)
        return sheet_print(sheet, "%.10g %.*s", best, length, unit.bytes);
    return sheet_say(sheet, PHRASE_RANGE, sheet_print(sheet, "%.10g %.*s", best, length, unit.bytes), sheet_print(sheet, "%.10g", low),
                     sheet_print(sheet, "%.10g", high));
}

struct sheet_cell told_cell(struct sheet *sheet, struct range amount, bool complete, struct text unit)
{
    struct text words = told_amount(sheet, amount, complete, unit);
    return complete || amount.low > 0 ? cell_figure(words, complete ? amount.best : amount.low) : cell_words(words);
}

/* ---- cautions ------------------------------------------------------------------------------------------------------ */

bool told_cautions_hold(const struct told_cautions *cautions, struct text words)
{
    for (uint32_t i = 0; i < cautions->count; i++) {
        if (text_equal(cautions->at[i].words, words))
            return true;
    }
    return false;
}

static struct text kept(struct arena *arena, struct text text)
{
    char *copy = arena_copy(arena, text.length ? text.bytes : "", text.length);
    return copy ? (struct text){ copy, text.length } : text_of("");
}

/* An arena holds the list, too: it grows by taking twice the room. */
static bool make_room(struct told_cautions *cautions)
{
    if (cautions->count < cautions->capacity)
        return true;
    uint32_t capacity = cautions->capacity ? 2 * cautions->capacity : 16;
    struct told_caution *more = arena_take(cautions->arena, capacity * sizeof *more);
    if (!more)
        return false;
    if (cautions->count)
        memcpy(more, cautions->at, cautions->count * sizeof *more);
    cautions->at = more;
    cautions->capacity = capacity;
    return true;
}

void told_cautions_add(void *context, const struct caution_told *told)
{
    struct told_cautions *cautions = context;
    if (told_cautions_hold(cautions, told->words) || !make_room(cautions))
        return;
    struct told_caution *one = &cautions->at[cautions->count++];
    one->words = kept(cautions->arena, told->words);
    one->source = kept(cautions->arena, told->source);
    one->because = kept(cautions->arena, told->because);
}

void told_cautions_of(struct told_cautions *cautions, const struct sums *sums, const struct verdicts *verdicts)
{
    const struct kitchen *kitchen = sums->at.gathering->kitchen;
    struct cautious cautious = cautious_of(kitchen, sums, verdicts);
    cautions_called_for(&cautious, told_cautions_add, cautions);
    cautions_of_all(kitchen->cautions, kitchen->cautions_owner, told_cautions_add, cautions);
}

void told_cautions_tell(const struct told_cautions *cautions, struct sheet *sheet)
{
    sheet_heading(sheet, 2, phrase_text(PHRASE_CAUTIONS));
    for (int called_for = 1; called_for >= 0; called_for--) {
        for (uint32_t i = 0; i < cautions->count; i++) {
            const struct told_caution *caution = &cautions->at[i];
            if ((caution->because.length > 0) == (called_for == 1))
                sheet_paragraph(sheet, MANNER_CAUTION,
                                called_for ? sheet_say(sheet, PHRASE_CAUTION_BECAUSE, caution->words, caution->because) : caution->words);
        }
    }
}
