/* How a line was read is noted only where that matters: where its sodium a serving is wide, or another reading would change it.
 * Equal notes of one recipe are told once. What warns of harm is no note of this sort and is never silenced. */
#include <math.h>

#include "judge/notes.h"

enum difference {
    BY_WIDTH,                           /* what was not said is in the line's range */
    BY_AMOUNT,                          /* another reading would change the line by no more than all that it has */
    BY_REFUSE,                          /* … by the share of refuse against the rest */
};

static const struct reading_note {
    enum words_code code;
    enum difference by;
} reading_notes[] = {
    { FINDING_SALTED_KIND, BY_AMOUNT },     { FINDING_TAKEN_AS_CANNED, BY_AMOUNT }, { FINDING_PORTIONS_JOINED, BY_WIDTH },
    { FINDING_SALT_UNSAID, BY_WIDTH },      { FINDING_REFUSE_TAKEN, BY_REFUSE },    { FINDING_REFUSE_OPEN, BY_WIDTH },
    { FINDING_DRAINED_SIZE, BY_WIDTH },     { FINDING_PART_OF_PACKAGE, BY_AMOUNT },
};

static const struct reading_note *reading_note_of(const struct finding *finding)
{
    for (uint32_t i = 0; i < COUNT_OF(reading_notes); i++) {
        if (reading_notes[i].code == finding->words.code)
            return &reading_notes[i];
    }
    return NULL;
}

/* How much of the traced nutrient a serving could have more or less; infinite where that is not known. */
static double difference_of_note(const struct speaking *speaking, const struct reading_note *note)
{
    const struct sums *sums = speaking->sums;
    const struct line_amount *amount = speaking->amount;
    const struct library *library = sums->at.gathering->kitchen->library;
    uint32_t traced = library->traced;
    if (traced == NONE_INDEX || amount->unknown || amount->unmeasured || amount->incomplete >> traced & 1)
        return INFINITY;
    struct range held = range_divide(line_column(amount, library, traced), sums->at.recipe->serves.low > 0 ? sums->at.recipe->serves : range_exact(1));
    double refuse = amount->resolved->food.food ? amount->resolved->food.food->refuse.high : 0;
    if (note->by == BY_REFUSE)
        return refuse < 1 ? amount_larger(held.high * refuse / (1 - refuse), held.high - held.low) : INFINITY;
    return note->by == BY_AMOUNT ? held.high : held.high - held.low;
}

/* Whether the recipe has told the same; remembers it where it has not. Without memory it is told again. */
static bool told_before(struct speaking *speaking, const struct finding *finding)
{
    uint32_t position;
    const struct food *food = speaking->amount->resolved->food.food;
    uint64_t hash = hash_mix(hash_bytes(&finding->words.code, sizeof finding->words.code), hash_bytes(&food, sizeof food));
    for (uint32_t i = 0; i < WORDS_ARGUMENTS; i++)
        hash = hash_mix(hash, hash_bytes(finding->words.arguments[i].bytes, finding->words.arguments[i].length));
    for (uint32_t found = table_find(&speaking->told, hash, &position); found != TABLE_NONE; found = table_next(&speaking->told, hash, &position)) {
        const struct words *other = &speaking->notes[found].finding->words;
        bool same = other->code == finding->words.code && speaking->notes[found].food == food;
        for (uint32_t i = 0; i < WORDS_ARGUMENTS && same; i++)
            same = text_equal(other->arguments[i], finding->words.arguments[i]);
        if (same)
            return true;
    }
    if (array_grow(&speaking->allocator, &speaking->notes, speaking->count, &speaking->capacity, sizeof *speaking->notes)
        && table_add(&speaking->told, hash, speaking->count))
        speaking->notes[speaking->count++] = (struct told_note){ finding, food };
    return false;
}

static bool is_kept(void *context, const struct finding *finding)
{
    struct speaking *speaking = context;
    const struct reading_note *note = reading_note_of(finding);
    return !note || (amount_compare(difference_of_note(speaking, note), NOTED_FROM) > 0 && !told_before(speaking, finding));
}

void speaking_open(struct speaking *speaking, const struct sums *sums)
{
    *speaking = (struct speaking){ .sums = sums, .allocator = sums->allocator };
    table_open(&speaking->told, sums->allocator);
}

void speaking_close(struct speaking *speaking)
{
    table_close(&speaking->told);
    speaking->allocator.resize(speaking->allocator.context, speaking->notes, 0);
}

void speaking_settle(struct speaking *speaking, const struct line_amount *amount, struct findings *findings, struct finding *before)
{
    speaking->amount = amount;
    findings_keep(findings, before, is_kept, speaking);
}
