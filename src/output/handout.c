/* The handout for patients: plain words, large print, no codes. First three things: how much there is, where it comes from,
 * and what can be done; then what to cook it from, the steps, and the cautions. */
#include <math.h>

#include "output/handout.h"
#include "output/lookup.h"

static bool is_day(const struct handout *handout)
{
    return handout->page->recipe->is_day;
}

/* The words for a serving, for all of a recipe that does not say how many it serves, or for a day. */
static enum report_phrase phrase_for(const struct handout *handout, enum report_phrase serving, enum report_phrase all, enum report_phrase day)
{
    return is_day(handout) ? day : handout->page->recipe->serves.high > 0 ? serving : all;
}

static struct text rounded(const struct handout *handout, uint32_t nutrient, double amount, enum direction direction)
{
    return sheet_say(handout->sheet, PHRASE_COOK_MEASURED,
                     sheet_print(handout->sheet, "%.6g", page_rounded(handout->page, nutrient, amount, direction)), page_unit(handout->page, nutrient));
}

/* `, somewhere from 380 mg to 450 mg`, or nothing where the amount is exact. */
static struct text between(const struct handout *handout, uint32_t nutrient, struct range amount)
{
    double low = page_rounded(handout->page, nutrient, amount.low, ROUND_DOWN), high = page_rounded(handout->page, nutrient, amount.high, ROUND_UP);
    if (range_is_exact(amount) || low == high)
        return text_of("");
    return sheet_say(handout->sheet, PHRASE_HAND_BETWEEN, rounded(handout, nutrient, amount.low, ROUND_DOWN), rounded(handout, nutrient, amount.high, ROUND_UP));
}

/* ---- the first thing: how much --------------------------------------------------------------------------------- */

static struct text add_daily_value(const struct handout *handout, struct text words, struct range amount, bool complete)
{
    double share, value;
    if (!page_daily_share(handout->page, handout->traced, amount, complete, &share, &value))
        return words;
    struct text of = sheet_say(handout->sheet, PHRASE_COOK_MEASURED, sheet_print(handout->sheet, "%.6g", value), page_unit(handout->page, handout->traced));
    const struct daily_value *daily = recipe_daily_value(handout->page->kitchen, handout->page->recipe, handout->report->verdicts, handout->traced);
    words = sheet_say(handout->sheet, complete ? PHRASE_HAND_DAILY_VALUE : PHRASE_HAND_DAILY_VALUE_LEAST, words, of, sheet_fixed(handout->sheet, 0, share),
                      kitchen_daily_name(handout->page->kitchen));
    bool unchecked = daily && claim_is_from_memory(library_text(handout->page->kitchen->rules_owner, daily->source));
    return unchecked ? sheet_say(handout->sheet, PHRASE_HAND_UNCHECKED, words) : words;
}

/* The limits that are not surely kept; where all are, the strictest. What is told first is not told again. */
static struct text add_limits(const struct handout *handout, struct text words)
{
    const struct verdicts *verdicts = handout->report->verdicts;
    const struct verdict *strictest = NULL;
    bool all_kept = true;
    for (uint32_t i = 0; i < verdicts->count; i++) {
        const struct verdict *verdict = &verdicts->at[i];
        if (!handout_is_plain(handout, verdict))
            continue;
        if (verdict->outcome != OUTCOME_KEPT && !handout_is_urgent(verdict))
            words = sheet_say(handout->sheet, PHRASE_HAND_AND, words, handout_outcome(handout, verdict));
        all_kept = all_kept && verdict->outcome == OUTCOME_KEPT;
        strictest = !strictest || verdict->bound->most < strictest->bound->most ? verdict : strictest;
    }
    return all_kept && strictest ? sheet_say(handout->sheet, PHRASE_HAND_AND, words, handout_outcome(handout, strictest)) : words;
}

static struct text how_much(const struct handout *handout)
{
    struct range amount = page_per_serving(handout->page, handout->page->sums->total.column[handout->traced]);
    bool complete = amounts_complete(&handout->page->sums->total, handout->traced);
    struct text name = page_name(handout->page, handout->traced), words;
    if (complete)
        words = sheet_say(handout->sheet, phrase_for(handout, PHRASE_HAND_SODIUM, PHRASE_HAND_SODIUM_ALL, PHRASE_HAND_SODIUM_DAY),
                          rounded(handout, handout->traced, amount.best, ROUND_NEAREST), name, between(handout, handout->traced, amount));
    else
        words = sheet_say(handout->sheet, phrase_for(handout, PHRASE_HAND_SODIUM_LEAST, PHRASE_HAND_SODIUM_LEAST_ALL, PHRASE_HAND_SODIUM_LEAST_DAY),
                          rounded(handout, handout->traced, amount.low, ROUND_DOWN), name);
    return add_limits(handout, add_daily_value(handout, words, amount, complete));
}

/* ---- the second: where from ------------------------------------------------------------------------------------ */

/* Of a line that is not all known, what is known of it. */
static double line_holds(const struct handout *handout, uint32_t line, uint32_t column)
{
    const struct line_amount *amount = &handout->page->sums->lines[line];
    struct range holds = line_column(amount, handout->page->library, column);
    return amount->incomplete >> column & 1 ? holds.low : holds.best;
}

static double known_total(const struct handout *handout)
{
    double total = 0;
    for (uint32_t i = 0; i < handout->page->sums->line_count; i++)
        total += line_holds(handout, i, handout->traced);
    return total;
}

/* The line that holds most of a column below `below`, or equal to it and behind line `after`; NONE_INDEX: there is none. */
static uint32_t next_largest(const struct handout *handout, uint32_t column, double below, uint32_t after)
{
    uint32_t found = NONE_INDEX;
    for (uint32_t i = 0; i < handout->page->sums->line_count; i++) {
        double holds = line_holds(handout, i, column);
        bool later = holds < below || (holds == below && after != NONE_INDEX && i > after);
        if (holds > 0 && later && (found == NONE_INDEX || holds > line_holds(handout, found, column)))
            found = i;
    }
    return found;
}

static struct text line_words(const struct handout *handout, uint32_t line)
{
    struct cook_line words;
    cook_line(handout->page, handout->sheet, &handout->page->sums->lines[line], handout->factor, &words);
    return words.us.length ? sheet_say(handout->sheet, PHRASE_HAND_LINE_AMOUNT, words.us, words.what) : words.what;
}

#define MOST_TOLD 3                     /* lines, … */
#define ENOUGH 0.8                      /* … or until they hold so much of it all */

static struct text where_from(const struct handout *handout)
{
    double total = known_total(handout), told = 0, below = INFINITY;
    struct text words = { "", 0 };
    uint32_t line = NONE_INDEX;
    bool complete = amounts_complete(&handout->page->sums->total, handout->traced);
    for (uint32_t i = 0; i < MOST_TOLD && told < ENOUGH * total; i++) {
        line = next_largest(handout, handout->traced, below, line);
        if (line == NONE_INDEX)
            break;
        below = line_holds(handout, line, handout->traced);
        told += below;
        struct text one = sheet_say(handout->sheet, PHRASE_HAND_SOURCE, line_words(handout, line), sheet_fixed(handout->sheet, 0, below / total * 100));
        words = words.length ? sheet_say(handout->sheet, PHRASE_HAND_SOURCE_NEXT, words, one) : one;
    }
    struct text name = page_name(handout->page, handout->traced);
    if (!words.length)
        return sheet_say(handout->sheet, complete ? PHRASE_HAND_NO_SOURCES : PHRASE_HAND_NO_KNOWN, name);
    return sheet_say(handout->sheet, complete ? PHRASE_HAND_SOURCES : PHRASE_HAND_SOURCES_KNOWN, name, words);
}

/* ---- the third: what to do ------------------------------------------------------------------------------------- */

#define WORTH_IT 0.15                   /* of all of it: less is not worth telling */

/* What of the recipe nobody knows, in words; no bytes where all is known. */
static struct text unknown_lines(const struct handout *handout)
{
    struct text words = { "", 0 };
    for (uint32_t i = 0; i < handout->page->sums->line_count; i++) {
        if (!(handout->page->sums->lines[i].incomplete >> handout->traced & 1))
            continue;
        struct text one = line_words(handout, i);
        words = words.length ? sheet_say(handout->sheet, PHRASE_HAND_SOURCE_NEXT, words, one) : one;
    }
    return words;
}

static bool seasons(const struct handout *handout, uint32_t line)
{
    const struct resolved *resolved = handout->page->sums->lines[line].resolved;
    return resolved && resolved->subject == SUBJECT_FOOD && resolved->food.food && library_is_used(resolved->food, GROUP_SEASONS);
}

/* The largest line whose food the cook adds for its salt alone; what is left without it. Lines of a bath change one another. */
static struct text leave_out(const struct handout *handout)
{
    uint32_t cook = handout->page->library->origin_column + ORIGIN_COOK, line = next_largest(handout, cook, INFINITY, NONE_INDEX);
    double total = known_total(handout);
    if (handout->page->sums->moves || is_day(handout))
        return text_of("");
    while (line != NONE_INDEX && !seasons(handout, line))
        line = next_largest(handout, cook, line_holds(handout, line, cook), line);
    if (line == NONE_INDEX || line_holds(handout, line, cook) < WORTH_IT * total)
        return text_of("");
    double without = (total - line_holds(handout, line, cook)) / handout->page->servings.best;
    return sheet_say(handout->sheet, PHRASE_HAND_LEAVE_OUT, line_words(handout, line), sheet_say(handout->sheet, PHRASE_COOK_ABOUT, rounded(handout, handout->traced, without, ROUND_NEAREST)));
}

/* Whether a caution comes first of a food by itself: a potassium salt in place of salt. */
static void see_caution(void *context, const struct caution_told *told)
{
    bool *first = context;
    *first = *first || told->first;
}

/* A lower-sodium version, with its potassium first where that is what makes it one. */
static struct text milder_words(const struct handout *handout, struct food_at food, struct text milder)
{
    char key[KEY_BYTES];
    bool first = false;
    struct range held;
    const struct kitchen *kitchen = handout->page->kitchen;
    struct sheet *sheet = handout->sheet;
    uint32_t other = kitchen_other_nutrient(kitchen);
    struct food_at version = library_food(kitchen->library, (struct text){ key, name_key_of(milder, false, key) });
    struct text name = library_text(food.library, food.food->name);
    if (version.food)
        cautions_of_food(kitchen->library, kitchen->cautions, kitchen->cautions_owner, version, see_caution, &first);
    if (!first)
        return sheet_say(sheet, PHRASE_HAND_MILDER, milder, name);
    bool known = other != NONE_INDEX && lookup_amount(version, NULL, other, &held);
    struct text amount = known ? sheet_say(sheet, PHRASE_HAND_MILDER_AMOUNT, rounded(handout, other, held.best, ROUND_NEAREST), page_name(handout->page, other))
                               : phrase_text(PHRASE_HAND_MILDER_UNKNOWN);
    return sheet_say(sheet, PHRASE_HAND_MILDER_SALT, milder, amount, name);
}

static struct text buy_milder(const struct handout *handout)
{
    double total = known_total(handout);
    uint32_t line = next_largest(handout, handout->traced, INFINITY, NONE_INDEX);
    const struct resolved *resolved = line == NONE_INDEX ? NULL : handout->page->sums->lines[line].resolved;
    if (!resolved || resolved->subject != SUBJECT_FOOD || !resolved->food.food || line_holds(handout, line, handout->traced) < WORTH_IT * total)
        return text_of("");
    struct text milder = library_text(resolved->food.library, resolved->food.food->milder);
    return milder.length ? milder_words(handout, resolved->food, milder) : milder;
}

static struct text what_to_do(const struct handout *handout)
{
    struct text words = unknown_lines(handout);
    if (words.length)
        return sheet_say(handout->sheet, PHRASE_HAND_UNKNOWN_FIRST, words);
    if (!recipe_needs_salt(handout->page->sums))
        words = leave_out(handout);
    if (!words.length && !recipe_needs_salt(handout->page->sums))
        words = buy_milder(handout);
    return words.length ? words : sheet_say(handout->sheet, PHRASE_HAND_SERVING_SIZE, page_name(handout->page, handout->traced));
}

/* ---- the document ---------------------------------------------------------------------------------------------- */

static void tell_three(const struct handout *handout)
{
    sheet_heading(handout->sheet, 2, phrase_text(PHRASE_HAND_PATIENTS));
    sheet_list(handout->sheet, true);
    sheet_item(handout->sheet, how_much(handout));
    sheet_item(handout->sheet, where_from(handout));
    sheet_item(handout->sheet, what_to_do(handout));
    sheet_list_end(handout->sheet);
}

static void tell_other(const struct handout *handout)
{
    const struct rules *rules = handout->page->kitchen->rules;
    uint32_t other = rules ? rules->compare_under : NONE_INDEX;
    if (other == NONE_INDEX)
        return;
    struct range amount = page_per_serving(handout->page, handout->page->sums->total.column[other]);
    bool complete = amounts_complete(&handout->page->sums->total, other);
    sheet_heading(handout->sheet, 2, phrase_text(phrase_for(handout, PHRASE_HAND_OTHER, PHRASE_HAND_OTHER_ALL, PHRASE_HAND_OTHER_ALL)));
    sheet_paragraph(handout->sheet, MANNER_PLAIN,
                    complete ? sheet_say(handout->sheet, PHRASE_HAND_POTASSIUM, page_name(handout->page, other), rounded(handout, other, amount.best, ROUND_NEAREST), between(handout, other, amount))
                             : sheet_say(handout->sheet, PHRASE_HAND_POTASSIUM_LEAST, page_name(handout->page, other), rounded(handout, other, amount.low, ROUND_DOWN)));
}

static bool tell(const struct handout *handout)
{
    struct sheet *sheet = handout->sheet;
    struct written written;
    if (!written_read(&handout->page->showing->sources, handout->page->recipe, &sheet->arena, &written))
        return false;
    sheet_begin(sheet, handout->page->recipe->name);
    if (written.introduction.length)
        sheet_paragraph(sheet, MANNER_PLAIN, written.introduction);
    if (handout->page->recipe->eater)
        page_print_eater(handout->page);
    handing_print_serves(handout->page, sheet, handout->factor);
    handout_tell_first(handout);
    if (handout->traced != NONE_INDEX)
        tell_three(handout);
    handout_tell_limits(handout);
    handing_print_ingredients(handout->page, sheet, handout->factor);
    handing_print_steps(handout->page, sheet, &written, handout->factor);
    tell_other(handout);
    handout_tell_cautions(handout);
    sheet_end(sheet);
    return true;
}

enum status telling_handout(struct telling *telling, struct showing *showing, struct sheet *sheet, const struct report *report)
{
    double factor;
    if (report->week)
        return telling_fail(telling, STATUS_USAGE, "a week has no handout; hand out its days, by their names", NULL);
    if (!handing_factor(telling, report->sums->at.recipe, &factor))
        return STATUS_USAGE;
    struct page page = page_of(showing, sheet, report);
    struct handout handout = { &page, sheet, report, page.library->traced, factor };
    return tell(&handout) ? STATUS_OK : STATUS_NO_MEMORY;
}
