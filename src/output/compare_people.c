/* Two of anything beside each other, for people: the difference first, then what makes it doubtful, then where it comes
 * from. */
#include <math.h>
#include <string.h>

#include "output/class.h"
#include "output/compare.h"
#include "output/lookup.h"

#define SHOWN_SHARE 0.01                /* of the larger total: smaller differences of lines are told together */

struct teller {
    struct sheet *sheet;
    struct compare *comparison;
    const struct library *library;
};

static struct text say(enum report_phrase phrase)
{
    return phrase_text(phrase);
}

static struct text figure(struct teller *teller, double amount, enum direction direction)
{
    return sheet_print(teller->sheet, "%.10g", figure_rounded(amount, direction));
}

/* How much more or less, where that is sure: `least` to `most`, both above 0. */
static struct text sure_words(struct teller *teller, bool more, double least, double best, double most, bool best_known, struct text unit)
{
    struct sheet *sheet = teller->sheet;
    struct text low = figure(teller, least, ROUND_DOWN), middle = figure(teller, best, ROUND_NEAREST);
    if (!isfinite(most) || !best_known)
        return sheet_say(sheet, more ? PHRASE_COMPARE_AT_LEAST_MORE : PHRASE_COMPARE_AT_LEAST_LESS, low, unit);
    struct text high = figure(teller, most, ROUND_UP);
    if (amount_compare(least, most) == 0 || text_equal(low, high))
        return sheet_say(sheet, more ? PHRASE_COMPARE_MORE : PHRASE_COMPARE_LESS, middle, unit);
    return sheet_say(sheet, more ? PHRASE_COMPARE_MORE_RANGE : PHRASE_COMPARE_LESS_RANGE, middle, unit, low, high);
}

static struct text unsure_words(struct teller *teller, const struct change *change, struct text unit)
{
    struct sheet *sheet = teller->sheet;
    if (!isfinite(change->low) && !isfinite(change->high))
        return say(PHRASE_COMPARE_OPEN);
    if (!isfinite(change->high) && change->low == 0)
        return say(PHRASE_COMPARE_NO_LESS);
    if (!isfinite(change->low) && change->high == 0)
        return say(PHRASE_COMPARE_NO_MORE);
    if (!isfinite(change->high))
        return sheet_say(sheet, PHRASE_COMPARE_OPEN_MORE, figure(teller, -change->low, ROUND_UP), unit);
    if (!isfinite(change->low))
        return sheet_say(sheet, PHRASE_COMPARE_OPEN_LESS, figure(teller, change->high, ROUND_UP), unit);
    struct text less = figure(teller, -change->low, ROUND_UP), more = figure(teller, change->high, ROUND_UP);
    if (change->low == 0)
        return sheet_say(sheet, PHRASE_COMPARE_UP_TO_MORE, more, unit);
    if (change->high == 0)
        return sheet_say(sheet, PHRASE_COMPARE_UP_TO_LESS, less, unit);
    return sheet_say(sheet, PHRASE_COMPARE_EITHER, less, more, unit);
}

static struct text change_words(struct teller *teller, const struct change *change, struct text unit)
{
    switch (change->kind) {
    case CHANGE_MORE:
        return sure_words(teller, true, change->low, change->best, change->high, change->best_known, unit);
    case CHANGE_LESS:
        return sure_words(teller, false, -change->high, -change->best, -change->low, change->best_known, unit);
    case CHANGE_NONE:
        return say(PHRASE_COMPARE_NONE);
    case CHANGE_UNCERTAIN:
        break;
    }
    return sheet_say(teller->sheet, PHRASE_COMPARE_UNCERTAIN, unsure_words(teller, change, unit));
}

/* ---- what is compared ------------------------------------------------------------------------------------------------ */

static const struct compare_figure *figures_of(const struct teller *teller, uint32_t nutrient)
{
    return &teller->comparison->figures[nutrient * SHARE_COUNT];
}

static bool is_day(const struct compare_side *side)
{
    return side->held.sums && side->held.sums->at.recipe->is_day;
}

/* A recipe that does not say how many it serves. */
static bool is_whole(const struct compare_side *side)
{
    return side->held.sums && !is_day(side) && side->held.sums->at.recipe->serves.high <= 0;
}

static enum report_phrase share_phrase(const struct teller *teller, enum share share)
{
    const struct compare_side *sides = teller->comparison->sides;
    if (share == SHARE_MASS)
        return PHRASE_COMPARE_PER_100_G;
    if (share == SHARE_VOLUME)
        return PHRASE_COMPARE_PER_100_ML;
    return is_day(&sides[0]) && is_day(&sides[1]) ? PHRASE_COMPARE_IN_THE_DAY
         : is_whole(&sides[0]) && is_whole(&sides[1]) ? PHRASE_COMPARE_IN_ALL : PHRASE_COMPARE_PER_SERVING;
}

static struct text share_words(struct teller *teller, enum share share, uint32_t nutrient)
{
    return sheet_say(teller->sheet, share_phrase(teller, share), column_name(teller->library, nutrient));
}

/* ---- spoons ------------------------------------------------------------------------------------------------------------ */

/* The kitchen's spoon nearest to a number of them: ` (about 1/3 tsp)`. */
static struct text kitchen_spoons(struct teller *teller, double spoons, struct text unit)
{
    static const struct { double value; const char *words; } parts[] = {
        { 0, "" }, { 0.125, "1/8" }, { 0.25, "1/4" }, { 1.0 / 3, "1/3" }, { 0.5, "1/2" }, { 2.0 / 3, "2/3" }, { 0.75, "3/4" }, { 1, "" },
    };
    double whole = floor(spoons), rest = spoons - whole;
    uint32_t best = 0;
    for (uint32_t i = 1; i < COUNT_OF(parts); i++)
        best = fabs(rest - parts[i].value) < fabs(rest - parts[best].value) ? i : best;
    whole += parts[best].value == 1;
    if (whole == 0 && best == 0)
        return sheet_say(teller->sheet, PHRASE_COMPARE_SPOON_SMALL, unit);
    struct text words = whole == 0 ? text_of(parts[best].words)
                      : sheet_print(teller->sheet, "%.10g%s%s", whole, parts[best].words[0] ? " " : "", parts[best].words);
    return sheet_say(teller->sheet, PHRASE_COMPARE_SPOON_KITCHEN, words, unit);
}

static void tell_spoons(struct teller *teller, uint32_t nutrient, const struct change *change)
{
    const struct kitchen *kitchen = teller->comparison->sides[1].held.kitchen;
    struct spoonful spoon;
    if (change->kind != CHANGE_MORE && change->kind != CHANGE_LESS)
        return;
    for (uint32_t i = 0; spoon_of(kitchen, nutrient, i, &spoon); i++) {
        double spoons = fabs(change->best) / spoon.holds;
        struct text words = sheet_print(teller->sheet, "%.2g", spoons);
        sheet_paragraph(teller->sheet, MANNER_QUIET,
                        sheet_say(teller->sheet, change->best_known ? PHRASE_COMPARE_SPOON : PHRASE_COMPARE_SPOON_AT_LEAST, words, spoon.unit,
                                  spoon.food, kitchen_spoons(teller, spoons, spoon.unit)));
    }
}

static void tell_lead(struct teller *teller, enum share share)
{
    uint32_t nutrient = teller->comparison->nutrient;
    const struct compare_figure *figure = &figures_of(teller, nutrient)[share];
    if (!figure->had)
        return;
    bool sure = figure->change.kind == CHANGE_MORE || figure->change.kind == CHANGE_LESS;
    sheet_paragraph(teller->sheet, MANNER_LEAD,
                    sheet_say(teller->sheet, sure ? PHRASE_COMPARE_LEAD : PHRASE_COMPARE_LEAD_NONE, share_words(teller, share, nutrient),
                              change_words(teller, &figure->change, told_unit(teller->library, nutrient))));
    if (share == SHARE_SERVING)
        tell_spoons(teller, nutrient, &figure->change);
}

/* ---- what makes it doubtful --------------------------------------------------------------------------------------------- */

static void doubt(struct teller *teller, struct text words)
{
    sheet_paragraph(teller->sheet, MANNER_DOUBT, words);
}

static struct text ordinal(uint32_t side)
{
    return say(side ? PHRASE_COMPARE_WORD_SECOND : PHRASE_COMPARE_WORD_FIRST);
}

static bool has_size(const struct compared *one)
{
    return one->grams.high > 0 || one->ml.high > 0;
}

static struct text size_words(struct teller *teller, const struct compared *one, bool by_mass)
{
    struct range size = by_mass ? one->grams : one->ml;
    return told_amount(teller->sheet, size, true, text_of(by_mass ? "g" : "ml"));
}

static void doubt_servings(struct teller *teller)
{
    struct compare *comparison = teller->comparison;
    struct compare_side *sides = comparison->sides;
    const struct compared *first = &sides[0].held, *second = &sides[1].held;
    const struct compare_figure *serving = &figures_of(teller, comparison->nutrient)[SHARE_SERVING];
    bool by_mass = first->grams.high > 0 && second->grams.high > 0;
    if (is_day(&sides[0]) != is_day(&sides[1]))
        doubt(teller, say(PHRASE_COMPARE_DAY_AND_SERVING));
    else if (is_whole(&sides[0]) != is_whole(&sides[1]))
        doubt(teller, sheet_say(teller->sheet, PHRASE_COMPARE_NO_SERVES, ordinal(is_whole(&sides[1]))));
    else if (comparison->servings == SERVINGS_DIFFER && serving->had && !is_day(&sides[0]))
        doubt(teller, sheet_say(teller->sheet, PHRASE_COMPARE_DIFFER, size_words(teller, first, by_mass), size_words(teller, second, by_mass),
                                text_of(by_mass ? "100 g" : "100 ml")));
    else if (comparison->servings == SERVINGS_UNKNOWN && serving->had && !is_day(&sides[0]))
        doubt(teller, sheet_say(teller->sheet, PHRASE_COMPARE_UNKNOWN_SIZE,
                                say(has_size(first) == has_size(second) ? PHRASE_COMPARE_SIZE_OF_BOTH
                                    : has_size(second) ? PHRASE_COMPARE_SIZE_OF_FIRST : PHRASE_COMPARE_SIZE_OF_SECOND)));
    if (comparison->orders_differ)
        doubt(teller, sheet_say(teller->sheet, PHRASE_COMPARE_ORDERS_DIFFER, ordinal(serving->change.kind == CHANGE_MORE),
                                ordinal(serving->change.kind != CHANGE_MORE), column_name(teller->library, comparison->nutrient)));
}

static void tell_doubts(struct teller *teller)
{
    struct compare *comparison = teller->comparison;
    struct text name = column_name(teller->library, comparison->nutrient);
    bool estimated = false;
    for (uint32_t i = 0; i < 2; i++) {
        struct compare_side *side = &comparison->sides[i];
        if (side->unknown_count)
            doubt(teller, sheet_say(teller->sheet, side->unknown_count == 1 ? PHRASE_COMPARE_UNKNOWN_LINE : PHRASE_COMPARE_UNKNOWN_LINES,
                                    ordinal(i), sheet_print(teller->sheet, "%u", side->unknown_count), name));
        if (side->also_a_food)
            sheet_paragraph(teller->sheet, MANNER_PLAIN, sheet_say(teller->sheet, PHRASE_COMPARE_ALSO_A_FOOD, ordinal(i), side->kind));
        estimated = estimated || (side->held.estimated && side->held.grams.high > 0);
    }
    if (estimated && !comparison->pairs.identical)
        sheet_paragraph(teller->sheet, MANNER_PLAIN, say(PHRASE_COMPARE_ESTIMATED));
    if (comparison->pairs.identical)
        sheet_paragraph(teller->sheet, MANNER_PLAIN, say(PHRASE_COMPARE_UNCHANGED));
}

/* ---- side by side ---------------------------------------------------------------------------------------------------------- */

static void tell_who(struct teller *teller, uint32_t number)
{
    const struct compare_side *side = &teller->comparison->sides[number];
    struct sheet *sheet = teller->sheet;
    struct text line = sheet_print(sheet, "%u", side->line), what = side->kind;
    if (side->revision.length)
        what = sheet_say(sheet, PHRASE_COMPARE_WHO_REVISION, side->kind, side->file, line, side->revision);
    else if (side->file.length)
        what = sheet_say(sheet, PHRASE_COMPARE_WHO_PLACE, side->kind, side->file, line);
    else if (side->source.length)
        what = sheet_say(sheet, PHRASE_COMPARE_WHO_SOURCE, side->kind, sheet_source(sheet, side->source, false));
    sheet_item(sheet, sheet_say(sheet, PHRASE_COMPARE_WHO, ordinal(number), side->name, what));
}

static struct sheet_cell serving_cell(struct teller *teller, const struct compare_side *side)
{
    const struct compared *held = &side->held;
    struct sheet *sheet = teller->sheet;
    if (is_whole(side) || !has_size(held))
        return cell_words(side->serving.length ? side->serving : say(PHRASE_COMPARE_SERVING_UNKNOWN));
    bool by_mass = held->grams.high > 0;
    struct text words = size_words(teller, held, by_mass);
    if (side->serving.length)
        words = sheet_say(sheet, PHRASE_COMPARE_SERVING_IS, side->serving, words);
    return cell_figure(words, by_mass ? held->grams.best : held->ml.best);
}

static struct sheet_cell amount_cell(struct teller *teller, struct range amount, bool had, bool complete, struct text unit)
{
    return had ? told_cell(teller->sheet, amount, complete, unit) : cell_words(say(PHRASE_UNKNOWN));
}

/* What a recipe holds that does not say how many it serves is no serving, beside one of the other. */
static void mark_whole(struct teller *teller, enum share share, struct sheet_cell *first)
{
    const struct compare_side *sides = teller->comparison->sides;
    for (uint32_t i = 0; share == SHARE_SERVING && is_whole(&sides[0]) != is_whole(&sides[1]) && i < 2; i++) {
        if (is_whole(&sides[i]))
            first[i].words = sheet_say(teller->sheet, PHRASE_COMPARE_ALL_OF_IT, first[i].words);
    }
}

static struct sheet_cell change_cell(struct teller *teller, const struct change *change, struct text unit)
{
    struct text words = change_words(teller, change, unit);
    return change->best_known ? cell_figure(words, change->best) : cell_words(words);
}

static void tell_figure(struct teller *teller, struct text name, uint32_t nutrient, enum share share)
{
    const struct compare_figure *figure = &figures_of(teller, nutrient)[share];
    struct text unit = told_unit(teller->library, nutrient);
    struct sheet_cell cells[] = {
        cell_words(name), amount_cell(teller, figure->first, figure->first_had, figure->first_complete, unit),
        amount_cell(teller, figure->second, figure->second_had, figure->second_complete, unit),
        figure->had ? change_cell(teller, &figure->change, unit) : cell_words(say(PHRASE_COMPARE_NO_SHARE)),
    };
    mark_whole(teller, share, cells + 1);
    sheet_row(teller->sheet, cells);
}

static void open_table(struct teller *teller, struct text caption, enum report_phrase first)
{
    const struct sheet_column columns[] = {
        { say(first), false }, { say(PHRASE_COMPARE_COLUMN_FIRST), true }, { say(PHRASE_COMPARE_COLUMN_SECOND), true },
        { say(PHRASE_COMPARE_COLUMN_CHANGE), false },
    };
    sheet_table(teller->sheet, caption, columns, COUNT_OF(columns));
}

static void tell_both(struct teller *teller)
{
    struct compare *comparison = teller->comparison;
    open_table(teller, say(PHRASE_COMPARE_BOTH), PHRASE_COMPARE_WHAT);
    struct sheet_cell cells[] = { cell_words(say(PHRASE_COMPARE_SERVING)), serving_cell(teller, &comparison->sides[0]),
                                  serving_cell(teller, &comparison->sides[1]), cell_words(say(PHRASE_NOTHING)) };
    if (!is_day(&comparison->sides[0]) || !is_day(&comparison->sides[1]))
        sheet_row(teller->sheet, cells);
    for (uint32_t i = 0; i < comparison->shown_count; i++) {
        for (enum share share = 0; share < SHARE_COUNT; share++) {
            const struct compare_figure *figure = &figures_of(teller, comparison->shown[i])[share];
            if (share == SHARE_SERVING ? figure->first_had || figure->second_had : figure->had)
                tell_figure(teller, share_words(teller, share, comparison->shown[i]), comparison->shown[i], share);
        }
    }
    sheet_table_end(teller->sheet);
}

/* ---- line by line ------------------------------------------------------------------------------------------------------------ */

static void tell_row(struct teller *teller, const struct compare_row *row, struct text unit)
{
    struct sheet_cell nothing = cell_words(say(PHRASE_NOTHING)), change = change_cell(teller, &row->change, unit);
    struct sheet_cell first = row->first.length ? amount_cell(teller, row->first_holds, true, row->first_known, unit) : nothing;
    struct sheet_cell second = row->second.length ? amount_cell(teller, row->second_holds, true, row->second_known, unit) : nothing;
    bool two = row->first.length && row->second.length && !text_equal(row->first, row->second);
    struct sheet_cell above[] = { cell_words(row->first), first, nothing, nothing };
    struct sheet_cell cells[] = { cell_words(two || !row->first.length ? row->second : row->first), two ? nothing : first, second, change };
    cells[0].depth = two;
    if (two)
        sheet_row(teller->sheet, above);
    sheet_row(teller->sheet, cells);
}

static bool is_small(const struct compare_row *row, double least)
{
    const double ends[] = { row->change.low, row->change.high };
    return fabs(ends[0]) < least && fabs(ends[1]) < least;
}

static void tell_lines(struct teller *teller)
{
    struct compare *comparison = teller->comparison;
    const struct compare_figure *figure = &figures_of(teller, comparison->nutrient)[SHARE_SERVING];
    struct text name = column_name(teller->library, comparison->nutrient), unit = told_unit(teller->library, comparison->nutrient);
    bool days = is_day(&comparison->sides[0]) && is_day(&comparison->sides[1]);
    double least = SHOWN_SHARE * amount_larger(figure->first.best, figure->second.best);
    uint32_t rest = 0;
    if (!comparison->rows || comparison->pairs.identical)
        return;
    open_table(teller, sheet_say(teller->sheet, days ? PHRASE_COMPARE_WHERE_DAY : PHRASE_COMPARE_WHERE, name), PHRASE_COMPARE_LINE);
    for (uint32_t i = 0; i < comparison->row_count; i++) {
        const struct compare_row *row = &comparison->rows[i];
        bool settled = row->same && row->change.kind == CHANGE_NONE;
        if (!settled && !is_small(row, least))
            tell_row(teller, row, unit);
        rest += !settled && is_small(row, least);
    }
    struct sheet_cell nothing = cell_words(say(PHRASE_NOTHING));
    struct sheet_cell cells[] = { cell_words(sheet_say(teller->sheet, PHRASE_COMPARE_REST, sheet_print(teller->sheet, "%u", rest))), nothing, nothing, nothing };
    if (rest)
        sheet_row(teller->sheet, cells);
    sheet_table_end(teller->sheet);
    if (comparison->same_count)
        sheet_paragraph(teller->sheet, MANNER_PLAIN, comparison->same_count == 1 ? say(PHRASE_COMPARE_SAME_ONE)
                        : sheet_say(teller->sheet, PHRASE_COMPARE_SAME, sheet_print(teller->sheet, "%u", comparison->same_count)));
}

/* ---- the rest ------------------------------------------------------------------------------------------------------------------ */

static bool is_shown(const struct compare *comparison, uint32_t nutrient)
{
    bool shown = false;
    for (uint32_t i = 0; i < comparison->shown_count; i++)
        shown = shown || comparison->shown[i] == nutrient;
    return shown;
}

/* Per serving where servings can be compared, else per 100 g. */
static void tell_others(struct teller *teller)
{
    struct compare *comparison = teller->comparison;
    const struct compare_figure *figures = figures_of(teller, comparison->nutrient);
    bool per_serving = figures[SHARE_SERVING].had && comparison->servings != SERVINGS_DIFFER;
    enum share share = per_serving || !figures[SHARE_MASS].had ? SHARE_SERVING : SHARE_MASS;
    open_table(teller, say(share == SHARE_SERVING ? PHRASE_COMPARE_OTHERS : PHRASE_COMPARE_OTHERS_MASS), PHRASE_COMPARE_NUTRIENT);
    for (uint32_t i = 0; i < teller->library->nutrient_total; i++) {
        if (!is_shown(comparison, i))
            tell_figure(teller, column_name(teller->library, i), i, share);
    }
    sheet_table_end(teller->sheet);
}

/* Whether each keeps its own limits; a food or label has none. */
static void tell_limits(struct teller *teller, struct telling *telling)
{
    for (uint32_t i = 0; i < 2; i++) {
        struct compare_side *side = &teller->comparison->sides[i];
        struct showing showing = { .kitchen = (struct kitchen *)side->held.kitchen, .writer = &telling->writer };
        struct report report = { .sums = &side->sums, .verdicts = &side->verdicts };
        if (!side->held.sums)
            continue;
        struct page page = page_of(&showing, teller->sheet, &report);
        page_print_limits(&page, &side->verdicts, sheet_say(teller->sheet, PHRASE_COMPARE_LIMITS, side->name));
    }
}

enum status comparison_tell(struct compare *comparison, struct telling *telling)
{
    struct sheet sheet;
    struct teller teller = { &sheet, comparison, comparison->sides[1].held.kitchen->library };
    const struct compare_side *sides = comparison->sides;
    sheet_open(&sheet, sheet_look(telling->form), &telling->writer, telling->allocator);
    sheet_begin(&sheet, sides[0].revision.length ? sheet_say(&sheet, PHRASE_COMPARE_TITLE_SINCE, sides[1].name, sides[0].revision)
                                                 : sheet_say(&sheet, PHRASE_COMPARE_TITLE, sides[0].name, sides[1].name));
    sheet_list(&sheet, false);
    tell_who(&teller, 0);
    tell_who(&teller, 1);
    sheet_list_end(&sheet);
    doubt_servings(&teller);            /* before any figure: they mislead where the servings differ */
    for (enum share share = 0; share < SHARE_COUNT; share++)
        tell_lead(&teller, share);
    tell_doubts(&teller);
    tell_both(&teller);
    tell_limits(&teller, telling);
    tell_lines(&teller);
    tell_others(&teller);
    told_cautions_tell(&comparison->cautions, &sheet);
    sheet_end(&sheet);
    bool failed = sheet.arena.failed;
    sheet_close(&sheet);
    return failed ? STATUS_NO_MEMORY : STATUS_OK;
}
