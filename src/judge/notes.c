/* How a line was read is noted only where that matters: where its sodium a serving is wide, or another reading would change it.
 * Equal notes of one recipe are told once. What warns of harm is no note of this sort and is never silenced. */
#include <math.h>
#include <stdio.h>

#include "judge/notes.h"

#define NOTED_FROM 5.0                  /* of the traced nutrient, in its unit (mg of sodium), a serving: what labels print as 0 */

enum difference {
    BY_WIDTH,                           /* what was not said is in the line's range */
    BY_AMOUNT,                          /* another reading would change the line by no more than all that it has */
    BY_REFUSE,                          /* … by the share of refuse against the rest */
    BY_WHOLE,                           /* … to what the whole package has of which this is a part */
    BY_PART,                            /* … to the part of it that the package has */
};

static const struct reading_note {
    enum words_code code;
    enum difference by;
} reading_notes[] = {
    { FINDING_SALTED_KIND, BY_AMOUNT },     { FINDING_TAKEN_AS_CANNED, BY_AMOUNT }, { FINDING_PORTIONS_JOINED, BY_WIDTH },
    { FINDING_SALT_UNSAID, BY_WIDTH },      { FINDING_REFUSE_TAKEN, BY_REFUSE },    { FINDING_REFUSE_OPEN, BY_WIDTH },
    { FINDING_DRAINED_SIZE, BY_WIDTH },     { FINDING_PACKAGE_SIZE_READ, BY_WHOLE },
    { FINDING_PACKAGE_PART_READ, BY_PART },  { FINDING_PACKAGE_PART_OPEN, BY_WIDTH }, { FINDING_PACKAGE_EACH_OPEN, BY_WIDTH },
};

static const struct reading_note *reading_note_of(const struct finding *finding)
{
    for (uint32_t i = 0; i < COUNT_OF(reading_notes); i++) {
        if (reading_notes[i].code == finding->words.code)
            return &reading_notes[i];
    }
    return NULL;
}

/* By how much another reading would change what the line holds of the traced nutrient. */
static double difference_in(const struct sums *sums, const struct line_amount *amount, enum difference by, struct range held)
{
    double refuse = amount->resolved->food.food ? amount->resolved->food.food->refuse.high : 0;
    double written = sums->at.gathering->tails[amount->line->tail].written;
    switch (by) {
    case BY_WIDTH: return held.high - held.low;
    case BY_AMOUNT: return held.high;
    case BY_REFUSE: return refuse < 1 ? amount_larger(held.high * refuse / (1 - refuse), held.high - held.low) : INFINITY;
    case BY_WHOLE: return written > 0 ? held.high * (1 / written - 1) : INFINITY;
    case BY_PART: return held.high * (1 - written);
    }
    return INFINITY;
}

/* A serving, or all of what does not say how many it serves. What a bath or a pan has changed is looked at before that, too: salt
 * may have gone from there into another line. */
static double line_difference(const struct sums *sums, const struct line_amount *amount, enum difference by)
{
    const struct library *library = sums->at.gathering->kitchen->library;
    uint32_t traced = library->traced;
    if (traced == NONE_INDEX || amount->unknown || amount->unmeasured || amount->incomplete >> traced & 1)
        return INFINITY;
    struct range serves = sums->at.recipe->serves.low > 0 ? sums->at.recipe->serves : range_exact(1);
    double after = difference_in(sums, amount, by, range_divide(line_column(amount, library, traced), serves));
    if (!amount->own)
        return after;
    if (!line_known_before(amount, traced))
        return INFINITY;
    return amount_larger(after, difference_in(sums, amount, by, range_divide(range_multiply(amount->as_written, amount->values[traced]), serves)));
}

bool line_is_wide(const struct sums *sums, const struct line_amount *amount)
{
    return amount_compare(line_difference(sums, amount, BY_WIDTH), NOTED_FROM) > 0;
}

/* The line's, or of a part the largest of its lines. */
static bool matters(const struct speaking *speaking, const struct reading_note *note)
{
    bool large = false;
    for (uint32_t i = speaking->first; i < speaking->end && !large; i++)
        large = amount_compare(line_difference(speaking->sums, &speaking->sums->lines[i], note->by), NOTED_FROM) > 0;
    return large;
}

/* Of a part's treatment the same may be found at each food in it, at one place; a note may also be told of one food in several. */
static bool is_same(const struct told_note *told, const struct finding *finding, const struct food *food, bool is_note)
{
    const struct words *other = &told->finding->words;
    bool here = told->finding->place.file == finding->place.file && told->finding->place.span.start == finding->place.span.start;
    bool same = other->code == finding->words.code && (here || (is_note && told->food == food));
    for (uint32_t i = 0; i < WORDS_ARGUMENTS && same; i++)
        same = text_equal(other->arguments[i], finding->words.arguments[i]);
    return same;
}

/* What the recipe has told already, or NULL: then it is remembered. Without memory it is told again. */
static struct told_note *told_before(struct speaking *speaking, struct finding *finding, bool is_note)
{
    uint32_t position;
    const struct resolved *resolved = speaking->sums->lines[speaking->first].resolved;
    const struct food *food = resolved ? resolved->food.food : NULL;
    uint64_t hash = hash_mix(hash_bytes(&finding->words.code, sizeof finding->words.code), is_note ? 0 : finding->place.span.start + 1);
    for (uint32_t i = 0; i < WORDS_ARGUMENTS; i++)
        hash = hash_mix(hash, hash_bytes(finding->words.arguments[i].bytes, finding->words.arguments[i].length));
    for (uint32_t at = table_find(&speaking->told, hash, &position); at != TABLE_NONE; at = table_next(&speaking->told, hash, &position)) {
        if (is_same(&speaking->notes[at], finding, food, is_note))
            return &speaking->notes[at];
    }
    if (array_grow(&speaking->allocator, &speaking->notes, speaking->count, &speaking->capacity, sizeof *speaking->notes)
        && table_add(&speaking->told, hash, speaking->count))
        speaking->notes[speaking->count++] = (struct told_note){ .finding = finding, .food = food };
    return NULL;
}

static bool is_kept(void *context, struct finding *finding)
{
    struct speaking *speaking = context;
    const struct reading_note *note = reading_note_of(finding);
    if (note && !matters(speaking, note))
        return false;
    struct told_note *told = told_before(speaking, finding, note != NULL);
    bool elsewhere = told && told->finding->place.span.start != finding->place.span.start;
    if (elsewhere && told->again++ == 0)
        told->next = finding->place;
    return !told;
}

void speaking_open(struct speaking *speaking, const struct sums *sums)
{
    *speaking = (struct speaking){ .sums = sums, .allocator = sums->allocator };
    table_open(&speaking->told, sums->allocator);
}

void speaking_close(struct speaking *speaking, struct findings *findings)
{
    for (uint32_t i = 0; i < speaking->count; i++) {
        char more[16];
        const struct told_note *note = &speaking->notes[i];
        snprintf(more, sizeof more, "%u", note->again - 1);
        if (note->again)
            finding_label(findings, note->finding, note->next, note->again > 1 ? WORDS_READ_SO_TOO_MORE : WORDS_READ_SO_TOO, GAPS(text_of(more)));
    }
    table_close(&speaking->told);
    speaking->allocator.resize(speaking->allocator.context, speaking->notes, 0);
}

void speaking_settle(struct speaking *speaking, uint32_t first, uint32_t end, struct findings *findings, struct finding *before)
{
    speaking->first = first;
    speaking->end = end;
    findings_keep(findings, before, is_kept, speaking);
}
