/* Amounts as a cook measures them: spoons and cups in the fractions that they are made in, pounds and ounces, and the same in
 * grams and millilitres. What does not come out even is rounded, and how far it is off is told. */
#include <math.h>
#include <string.h>

#include "output/cook.h"

/* ---- fractions ------------------------------------------------------------------------------------------------- */

enum kitchen_system { KITCHEN_VOLUME, KITCHEN_WEIGHT };
enum fractions { FRACTIONS_OF_CUPS, FRACTIONS_HALVES, FRACTIONS_OF_SPOONS, FRACTIONS_QUARTERS, FRACTIONS_OF_PIECES, FRACTION_SETS };

struct fraction {
    double value;
    enum report_phrase words;
    unsigned sets;                      /* a bit for each enum fractions that has it */
};

#define CUPS (1u << FRACTIONS_OF_CUPS)
#define HALVES (1u << FRACTIONS_HALVES)
#define SPOONS (1u << FRACTIONS_OF_SPOONS)
#define QUARTERS (1u << FRACTIONS_QUARTERS)
#define PIECES (1u << FRACTIONS_OF_PIECES)

static const struct fraction fractions[] = {
    { 0, PHRASE_NOTHING, CUPS | HALVES | SPOONS | QUARTERS | PIECES },
    { 0.125, PHRASE_COOK_EIGHTH, SPOONS | PIECES },
    { 1.0 / 6, PHRASE_COOK_SIXTH, PIECES },
    { 0.25, PHRASE_COOK_QUARTER, CUPS | SPOONS | QUARTERS | PIECES },
    { 1.0 / 3, PHRASE_COOK_THIRD, CUPS | PIECES },
    { 0.375, PHRASE_COOK_THREE_EIGHTHS, SPOONS },
    { 0.5, PHRASE_COOK_HALF, CUPS | HALVES | SPOONS | QUARTERS | PIECES },
    { 0.625, PHRASE_COOK_FIVE_EIGHTHS, SPOONS },
    { 2.0 / 3, PHRASE_COOK_TWO_THIRDS, CUPS | PIECES },
    { 0.75, PHRASE_COOK_THREE_QUARTERS, CUPS | SPOONS | QUARTERS | PIECES },
    { 5.0 / 6, PHRASE_COOK_FIVE_SIXTHS, PIECES },
    { 0.875, PHRASE_COOK_SEVEN_EIGHTHS, SPOONS },
};

struct measure {
    enum kitchen_system system;
    const char *unit;
    enum report_phrase one, several;
    double least;
    enum fractions fractions;
};

static const struct measure measures[] = {
#define MEASURE(system, unit, one, several, least, set) { system, unit, one, several, least, set },
#include "output/kitchen_measures.def"
#undef MEASURE
};

#define EVEN 0.005                      /* of an amount: nobody can measure closer */

/* The number with a fraction of the set that lies nearest, or the next one below. Which fraction it has goes to `which`. */
static double on_grid(double amount, enum fractions set, bool below, uint32_t *which)
{
    double whole = floor(amount + 1e-9), best = -1;
    for (uint32_t i = 0; i < COUNT_OF(fractions); i++) {
        double at = whole + fractions[i].value;
        bool fits = fractions[i].sets >> set & 1 && (!below || at <= amount * (1 + 1e-9));
        if (fits && (best < 0 || fabs(at - amount) < fabs(best - amount))) {
            best = at;
            *which = i;
        }
    }
    if (!below && fabs(whole + 1 - amount) < fabs(best - amount)) {
        best = whole + 1;
        *which = 0;
    }
    return best;
}

static struct text number_words(struct sheet *sheet, double on_grid_value, uint32_t which)
{
    double whole = floor(on_grid_value + 1e-9);
    if (which == 0)
        return sheet_print(sheet, "%.10g", whole);
    if (whole <= 0)
        return phrase_text(fractions[which].words);
    return sheet_say(sheet, PHRASE_COOK_MIXED, sheet_print(sheet, "%.10g", whole), phrase_text(fractions[which].words));
}

/* A number in fractions where one fits, else in three digits. */
static struct text count_words(struct sheet *sheet, double count)
{
    uint32_t which = 0;
    double grid = on_grid(count, FRACTIONS_OF_PIECES, false, &which);
    if (count > 0 && grid > 0 && fabs(grid - count) <= EVEN * count)
        return number_words(sheet, grid, which);
    return count < 1000 ? sheet_print(sheet, "%.3g", count) : sheet_fixed(sheet, 0, count);
}

/* Pieces that were scaled, in the fraction that lies nearest; `off`: by which share the words differ from the count. */
static struct text scaled_count(struct sheet *sheet, double count, double factor, double *off)
{
    uint32_t which = 0;
    double grid = on_grid(count, FRACTIONS_OF_PIECES, false, &which);
    *off = factor != 1 && count > 0 && grid > 0 ? (grid - count) / count : 0;
    if (fabs(*off) <= EVEN)
        return count_words(sheet, count);
    return sheet_say(sheet, PHRASE_COOK_ABOUT, number_words(sheet, grid, which));
}

static struct text scaled_counts(struct sheet *sheet, const struct line *written, double factor, double *off)
{
    double ignored;
    struct text low = scaled_count(sheet, written->low * factor, factor, off);
    return written->low < written->high ? sheet_say(sheet, PHRASE_COOK_TO, low, scaled_count(sheet, written->high * factor, factor, &ignored)) : low;
}

/* ---- spoons, cups, pounds -------------------------------------------------------------------------------------- */

static double measure_size(const struct library *library, const struct measure *measure)
{
    char key[KEY_BYTES];
    const struct unit *unit = library_unit(library, (struct text){ key, name_key_of(text_of(measure->unit), false, key) }, NULL);
    return unit ? unit->factor.best : 0;
}

static struct text measure_words(struct sheet *sheet, const struct measure *measure, double count, uint32_t which)
{
    return sheet_say(sheet, count > 1 + 1e-9 ? measure->several : measure->one, number_words(sheet, count, which));
}

/* In one measure where it comes out even; else in two, the smaller one rounded: `1 1/4 cups + 1 tbsp`. `made` is what the
 * words come to. No bytes where the amount is less than the smallest measure. */
static struct text in_measures(struct sheet *sheet, const struct library *library, enum kitchen_system system, double amount, double *made)
{
    struct text words = { "", 0 };
    uint32_t terms = 0;
    *made = 0;
    for (uint32_t i = 0; i < COUNT_OF(measures) && terms < 2 && amount - *made > EVEN * amount; i++) {
        const struct measure *measure = &measures[i];
        double size = measure_size(library, measure), left = size > 0 ? (amount - *made) / size : 0;
        bool last = i + 1 == COUNT_OF(measures) || measures[i + 1].system != system;
        uint32_t which = 0;
        if (measure->system != system || size <= 0 || left < measure->least * (last ? 0.5 : 1 - EVEN))
            continue;
        double near = on_grid(left, measure->fractions, false, &which);
        if (!last && terms == 0 && fabs(near - left) * size > EVEN * amount)
            near = on_grid(left, measure->fractions, true, &which);
        if (near <= 0)
            continue;
        struct text term = measure_words(sheet, measure, near, which);
        words = terms ? sheet_say(sheet, PHRASE_COOK_PLUS, words, term) : term;
        *made += near * size;
        terms++;
    }
    return words;
}

/* ---- grams and millilitres ------------------------------------------------------------------------------------- */

/* To what a kitchen scale or jug shows. */
static double metric_round(double amount)
{
    return amount_round(amount, amount < 1 ? 0.01 : amount < 10 ? 0.1 : amount < 100 ? 1 : 5, ROUND_NEAREST);
}

struct text cook_grams(struct sheet *sheet, double grams)
{
    double shown = metric_round(grams);
    if (shown >= 1000)
        return sheet_say(sheet, PHRASE_COOK_KG, sheet_print(sheet, "%.4g", amount_round(grams, grams < 10000 ? 10 : 100, ROUND_NEAREST) / 1000));
    return sheet_say(sheet, PHRASE_COOK_G, sheet_print(sheet, "%.4g", shown));
}

struct text cook_millilitres(struct sheet *sheet, double ml)
{
    double shown = metric_round(ml);
    if (shown >= 1000)
        return sheet_say(sheet, PHRASE_COOK_LITRE, sheet_print(sheet, "%.4g", amount_round(ml, ml < 10000 ? 10 : 100, ROUND_NEAREST) / 1000));
    return sheet_say(sheet, PHRASE_COOK_ML, sheet_print(sheet, "%.4g", shown));
}

/* Pounds and ounces of so many grams. */
struct text cook_pounds(struct sheet *sheet, const struct library *library, double grams)
{
    double made;
    return in_measures(sheet, library, KITCHEN_WEIGHT, grams, &made);
}

struct text cook_volume(struct sheet *sheet, const struct library *library, double ml)
{
    double made;
    return in_measures(sheet, library, KITCHEN_VOLUME, ml, &made);
}

/* ---- the words of a line --------------------------------------------------------------------------------------- */

/* The longest run of words, three at most, that is a unit; `end` is the item behind it. */
static const struct unit *unit_at(const struct library *library, struct text text, const struct item *first, const struct item **end)
{
    const struct unit *found = NULL;
    struct text words[3];
    char key[KEY_BYTES];
    const struct item *at = first;
    for (uint32_t count = 0; count < COUNT_OF(words) && at && at->kind == ITEM_WORD; at = at->next) {
        words[count++] = span_text(text, at->span);
        const struct unit *unit = library_unit(library, (struct text){ key, name_key(words, count, false, key) }, NULL);
        if (unit && unit->dimension != DIMENSION_SIZE) {
            found = unit;
            *end = at->next;
        }
    }
    return found;
}

static bool is_weighed(const struct unit *unit)
{
    return unit && (unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_VOLUME);
}

/* Words of a tail on their way to a reader: without quotes, and with the amounts in them scaled. */
struct wording {
    struct sheet *sheet;
    const struct library *library;
    struct text text;
    double factor;
    bool scales_groups;                 /* a parenthesis is of all of the line */
    struct buffer words;
    uint32_t written;                   /* up to where in the text */
};

static void write_until(struct wording *wording, uint32_t end)
{
    for (uint32_t at = wording->written; at < end && at < wording->text.length; at++) {
        char byte = wording->text.bytes[at];
        bool blank = strchr(" \t\r\n", byte) != NULL, double_blank = blank && wording->words.length > 0 && wording->words.bytes[wording->words.length - 1] == ' ';
        if (byte != '"' && !double_blank && !(blank && wording->words.length == 0))
            buffer_add(&wording->words, blank ? " " : &byte, 1);
    }
    if (end > wording->written)
        wording->written = end;
}

/* Amounts of weight or volume inside: `thrown away 20 g`, `(300 g)`. Lengths and times stay as they are. */
static void write_items(struct wording *wording, const struct item *items)
{
    for (const struct item *item = items; item; item = item->next) {
        const struct item *behind;
        bool number = (item->kind == ITEM_NUMBER || item->kind == ITEM_RANGE) && item->quantity && !item->quantity->is_percent;
        if (item->kind == ITEM_GROUP && wording->scales_groups)
            write_items(wording, item->inside);
        if (!number || wording->factor == 1 || !is_weighed(unit_at(wording->library, wording->text, item->next, &behind)))
            continue;
        write_until(wording, item->span.start);
        struct text low = count_words(wording->sheet, item->quantity->low * wording->factor);
        if (item->kind == ITEM_RANGE)
            low = sheet_say(wording->sheet, PHRASE_COOK_TO, low, count_words(wording->sheet, item->quantity->high * wording->factor));
        buffer_add(&wording->words, low.bytes, low.length);
        wording->written = item->span.end;
    }
}

/* The text of the tail from a byte on. */
static struct text tail_words(struct sheet *sheet, const struct library *library, const struct tail *tail, uint32_t from, double factor, bool scales_groups)
{
    struct wording wording = { .sheet = sheet, .library = library, .text = tail->text, .factor = factor, .scales_groups = scales_groups, .written = from };
    buffer_open(&wording.words, sheet->writer->buffer.allocator);
    write_items(&wording, tail->items);
    wording.scales_groups = wording.scales_groups && factor != 1;
    for (const struct phrase *phrase = tail->phrases; phrase; phrase = phrase->next)
        write_items(&wording, phrase->items);
    write_until(&wording, tail->text.length);
    writer_needs(sheet->writer, !wording.words.failed);
    struct text words = sheet_print(sheet, "%.*s", (int)wording.words.length, wording.words.length ? wording.words.bytes : "");
    buffer_close(&wording.words);
    return words;
}

struct text cook_part_words(struct sheet *sheet, const struct library *library, const struct gathering *gathering, const struct part *part, double factor)
{
    struct text name = part->name;
    if (part->is_bath)
        name = sheet_say(sheet, PHRASE_COOK_BATH, name);
    if (part->tail == NONE_INDEX)
        return name;
    struct text words = tail_words(sheet, library, &gathering->tails[part->tail], 0, factor, true);
    return words.length ? sheet_say(sheet, PHRASE_COOK_PART, name, words) : name;
}

/* ---- a line ---------------------------------------------------------------------------------------------------- */

/* Whether it is one of the round measures in grams or millilitres. */
static bool is_metric(const struct unit *unit)
{
    double thousandth = unit->factor.best * 1000;
    return is_weighed(unit) && fabs(thousandth - floor(thousandth + 0.5)) < 1e-6 * thousandth;
}

/* One end of a line's amount in the measures of a kitchen; `off`: by which share the words differ from it. */
static struct text amount_words(struct sheet *sheet, const struct library *library, const struct unit *unit, double amount, double *off)
{
    double made = 0, whole = unit ? amount * unit->factor.best : amount;
    *off = 0;
    if (!is_weighed(unit))
        return count_words(sheet, amount);
    struct text words = in_measures(sheet, library, unit->dimension == DIMENSION_MASS ? KITCHEN_WEIGHT : KITCHEN_VOLUME, whole, &made);
    if (words.length && whole > 0)
        *off = (made - whole) / whole;
    return words.length || is_metric(unit) ? words : phrase_text(PHRASE_COOK_TOO_LITTLE);
}

/* Whether what is packed is lighter once the line has done with it, as a drained can is: then the full weight is not what goes in. */
static bool leaves_less(const struct line_amount *amount, const struct library *library, const struct unit *unit)
{
    const struct resolved *resolved = amount->resolved;
    if (amount->unknown || resolved->subject != SUBJECT_FOOD || resolved->done.lost >> library->mass_column & 1)
        return false;
    bool packed = resolved->food.food->state != FOOD_PLAIN || (unit && unit->dimension == DIMENSION_PACKAGE);
    return packed && resolved->done.mass.best > 0 && resolved->done.mass.best < 1 - EVEN;
}

static void set_metric(struct cook_line *line, struct sheet *sheet, const struct line_amount *amount, const struct library *library,
                       const struct unit *unit, double factor)
{
    struct range grams = line_grams(amount, library);
    double written = (amount->line->low + amount->line->high) / 2 * factor;
    struct text weight = { "", 0 }, volume = { "", 0 };
    if (unit && unit->dimension == DIMENSION_MASS)
        weight = cook_grams(sheet, written * unit->factor.best);
    else if (grams.best > 0 && !amount->unknown)
        weight = sheet_say(sheet, PHRASE_COOK_ABOUT, cook_grams(sheet, grams.best * factor));
    if (unit && unit->dimension == DIMENSION_VOLUME)
        volume = cook_millilitres(sheet, written * unit->factor.best);
    if (weight.length && leaves_less(amount, library, unit))
        weight = sheet_say(sheet, PHRASE_COOK_LEFT, cook_grams(sheet, grams.best * amount->resolved->done.mass.best * factor), weight);
    line->metric = !volume.length ? weight : !weight.length ? volume : sheet_say(sheet, PHRASE_COOK_BESIDE, volume, weight);
}

/* Whether the unit is of the measures of a kitchen here, so that the words as written can stay. */
static bool is_kept_as_written(const struct unit *unit, double factor)
{
    return factor == 1 && !is_metric(unit);
}

static void set_measured(struct cook_line *line, struct sheet *sheet, const struct line_amount *amount, const struct library *library,
                         const struct unit *unit, struct text unit_text, double factor)
{
    const struct line *written = amount->line;
    double off;
    if (is_kept_as_written(unit, factor) || !range_is_exact(unit->factor)) {
        line->us = sheet_say(sheet, PHRASE_COOK_MEASURED, scaled_counts(sheet, written, factor, &line->off), unit_text);
        return;
    }
    line->us = amount_words(sheet, library, unit, written->low * factor, &line->off);
    if (written->low < written->high)
        line->us = sheet_say(sheet, PHRASE_COOK_TO, line->us, amount_words(sheet, library, unit, written->high * factor, &off));
    if (fabs(line->off) > EVEN)
        line->us = sheet_say(sheet, PHRASE_COOK_ABOUT, line->us);
}

static void set_counted(struct cook_line *line, struct sheet *sheet, const struct line *written, double factor)
{
    double high = written->high * factor, whole = ceil(high - 1e-9);
    line->us = scaled_counts(sheet, written, factor, &line->off);
    if (whole - high > 1e-6 && factor != 1)
        line->whole = whole;
}

/* The unit as it is written, without what stands behind it. */
static struct text words_before(const struct tail *tail, const struct item *behind)
{
    struct text words = span_text(tail->text, (struct span){ tail->items->span.start, behind->span.start });
    while (words.length > 0 && strchr(" \t\"", words.bytes[words.length - 1]))
        words.length--;
    return words;
}

const struct unit *cook_unit(const struct page *page, const struct line_amount *amount)
{
    const struct item *behind;
    const struct tail *tail = amount->line->tail == NONE_INDEX ? NULL : &page->sums->at.gathering->tails[amount->line->tail];
    return tail && tail->items ? unit_at(page->library, tail->text, tail->items, &behind) : NULL;
}

void cook_line(const struct page *page, struct sheet *sheet, const struct line_amount *amount, double factor, struct cook_line *line)
{
    const struct gathering *gathering = page->sums->at.gathering;
    const struct line *written = amount->line;
    *line = (struct cook_line){ .us = { "", 0 }, .metric = { "", 0 }, .unknown = amount->unknown };
    if (written->tail == NONE_INDEX) {
        line->what = phrase_text(PHRASE_COOK_UNREAD);
        return;
    }
    const struct tail *tail = &gathering->tails[written->tail];
    const struct item *behind = NULL;
    const struct unit *unit = tail->items ? unit_at(page->library, tail->text, tail->items, &behind) : NULL;
    bool total = amount->resolved && amount->resolved->flags & RESOLVED_TOTAL, measured = written->quantity == QUANTITY_NUMBER || written->quantity == QUANTITY_RANGE;
    bool parted = measured && is_weighed(unit) && behind;
    line->what = tail_words(sheet, page->library, tail, parted ? behind->span.start : 0, factor, total);
    if (!measured) {
        line->us = phrase_text(PHRASE_COOK_SOME);
        return;
    }
    if (parted)
        set_measured(line, sheet, amount, page->library, unit, words_before(tail, behind), factor);
    else
        set_counted(line, sheet, written, factor);
    set_metric(line, sheet, amount, page->library, parted ? unit : NULL, factor);
}
