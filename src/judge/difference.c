/* Two of anything beside each other. With C for lines that both have, a and b for the rest, s and t for how many shares
 * there are, the difference is (C + b) / t - (C + a) / s: its ends are found with one C, not with two. */
#include <math.h>
#include <string.h>

#include "judge/difference.h"

#define NOISE 1e-9                      /* of the larger amount: what binary numbers add and lose */

/* ---- one side ------------------------------------------------------------------------------------------------------ */

static const struct library *library_of(const struct compared *one)
{
    return one->kitchen->library;
}

struct range compared_servings(const struct compared *one)
{
    bool said = one->sums && one->sums->at.recipe->serves.low > 0;
    return said ? one->sums->at.recipe->serves : range_exact(1);
}

struct compared compared_recipe(const struct sums *sums)
{
    const struct recipe *recipe = sums->at.recipe;
    struct compared one = { .kitchen = sums->at.gathering->kitchen, .sums = sums };
    bool known, estimated;
    struct range grams = recipe_grams(recipe, &sums->total, library_of(&one), &estimated, &known);
    struct range servings = compared_servings(&one);
    one.estimated = estimated;
    if (recipe->yields->serving_grams.high > 0)
        one.grams = recipe->yields->serving_grams;
    else if (known && grams.low > 0)
        one.grams = range_divide(grams, servings);
    if (recipe->yields->serving_ml.high > 0)
        one.ml = recipe->yields->serving_ml;
    else if (recipe->yields->makes_ml.high > 0)
        one.ml = range_divide(recipe->yields->makes_ml, servings);
    return one;
}

struct compared compared_food(const struct kitchen *kitchen, struct food_at food, const struct portion *portion)
{
    struct compared one = { .kitchen = kitchen, .food = food, .portion = portion };
    if (food.food->basis == FOOD_PER_SERVING) {
        one.grams = food.food->serving_grams;
        one.ml = food.food->serving_ml;
    } else if (portion) {
        one.grams = portion->grams;
        one.ml = range_exact(portion->volume_ml);
    }
    return one;
}

/* By how many shares the whole is divided; high 0: nobody knows. A food's whole is what its figures are of. */
static struct range shares_in(const struct compared *one, enum share share)
{
    bool is_label = one->food.food && one->food.food->basis == FOOD_PER_SERVING;
    struct range servings = compared_servings(one);
    if (one->food.food && !is_label)
        return share == SHARE_MASS ? range_exact(1)
             : share == SHARE_VOLUME ? (one->food.food->density.low > 0 ? range_divide(range_exact(1), one->food.food->density) : range_exact(0))
             : one->portion && one->portion->grams.low > 0 ? range_divide(range_exact(100), one->portion->grams) : range_exact(0);
    if (share == SHARE_SERVING)
        return servings;
    struct range one_serving = share == SHARE_MASS ? one->grams : one->ml;
    return one_serving.low > 0 ? range_scale(range_multiply(one_serving, servings), 0.01) : range_exact(0);
}

/* The whole's column. */
static struct range whole_of(const struct compared *one, uint32_t column, bool *complete)
{
    if (one->sums) {
        *complete = amounts_complete(&one->sums->total, column);
        return one->sums->total.column[column];
    }
    const struct food *food = one->food.food;
    struct range held = one->food.library->values[kitchen_food_row(one->kitchen, food) + column];
    bool open = one->kitchen->tolerance && food->open >> column & 1;
    *complete = (food->known >> column & 1) && !open;
    return food->known >> column & 1 ? held : range_exact(0);
}

/* A weight that nobody weighed is the sum of the lines, and a line drives both sides of the ratio. */
static bool is_ratio_of_lines(const struct compared *one, enum share share)
{
    return share == SHARE_MASS && one->sums && one->estimated;
}

bool compared_amount(const struct compared *one, enum share share, uint32_t column, struct range *amount, bool *complete)
{
    struct range shares = shares_in(one, share), whole = whole_of(one, column, complete);
    if (shares.low <= 0)
        return false;
    *amount = range_divide(whole, shares);
    if (is_ratio_of_lines(one, share)) {
        const struct library *library = library_of(one);
        *amount = range_scale(ratio_of_lines(one->sums->lines, one->sums->line_count, library, column, library->mass_column, true, true), 100);
    }
    return true;
}

/* ---- lines that belong together ---------------------------------------------------------------------------------------- */

static bool same_range(struct range a, struct range b)
{
    return a.low == b.low && a.best == b.best && a.high == b.high;
}

static bool names_agree(const struct compared *first, const struct compared *second)
{
    char one[KEY_BYTES], other[KEY_BYTES];
    struct text a = { one, name_key_of(first->sums->at.recipe->name, true, one) };
    struct text b = { other, name_key_of(second->sums->at.recipe->name, true, other) };
    return text_equal(a, b);
}

/* Whether the lines say the same, whatever they mean. */
static bool same_words(const struct sums *sums, uint32_t line, const struct sums *other, uint32_t second)
{
    const struct line *a = sums->lines[line].line, *b = other->lines[second].line;
    if (a->tail == NONE_INDEX || b->tail == NONE_INDEX || a->low != b->low || a->high != b->high || a->quantity != b->quantity)
        return false;
    return text_equal(sums->at.gathering->tails[a->tail].text, other->at.gathering->tails[b->tail].text);
}

/* One recipe named twice, or one that nobody has touched between two revisions: then all of it cancels, and who tastes and
 * adds salt does so once. */
static bool same_recipe(const struct compared *first, const struct compared *second)
{
    const struct sums *a = first->sums, *b = second->sums;
    if (a->at.recipe == b->at.recipe)
        return true;
    bool same = names_agree(first, second) && a->line_count == b->line_count && a->total.incomplete == b->total.incomplete
             && library_of(first)->column_count == library_of(second)->column_count
             && same_range(a->at.recipe->serves, b->at.recipe->serves) && same_range(first->grams, second->grams)
             && same_range(first->ml, second->ml);
    for (uint32_t i = 0; same && i < a->line_count; i++)
        same = same_words(a, i, b, i);
    for (uint32_t i = 0; same && i < library_of(first)->column_count; i++)
        same = same_range(a->total.column[i], b->total.column[i]);
    return same;
}

static bool same_food(const struct compared *first, const struct compared *second)
{
    const struct food *a = first->food.food, *b = second->food.food;
    if (a == b)
        return true;
    bool same = text_equal(library_text(first->food.library, a->name), library_text(second->food.library, b->name))
             && a->known == b->known && a->basis == b->basis && library_of(first)->column_count == library_of(second)->column_count
             && same_range(first->grams, second->grams) && same_range(first->ml, second->ml);
    for (uint32_t i = 0; same && i < library_of(first)->column_count; i++)
        same = same_range(first->food.library->values[a->values + i], second->food.library->values[b->values + i]);
    return same;
}

static void pair(struct line_pairs *pairs, uint32_t line, uint32_t other)
{
    pairs->second[line] = other;
    pairs->first[other] = line;
}

/* The salt of a pot that is poured away and the salt of a soup are two things, though both are salt. */
static bool stand_alike(const struct sums *a, uint32_t line, const struct sums *b, uint32_t other)
{
    return line_stands_in_bath(a, a->lines[line].line) == line_stands_in_bath(b, b->lines[other].line);
}

/* Pairs what is not paired yet where `fits` says so. */
static void pair_those(struct line_pairs *pairs, const struct sums *a, const struct sums *b,
                       bool fits(const struct sums *, uint32_t, const struct sums *, uint32_t))
{
    for (uint32_t i = 0; i < a->line_count; i++) {
        for (uint32_t j = 0; j < b->line_count && pairs->second[i] == NONE_INDEX; j++) {
            if (pairs->first[j] == NONE_INDEX && stand_alike(a, i, b, j) && fits(a, i, b, j))
                pair(pairs, i, j);
        }
    }
}

bool lines_pair(struct line_pairs *pairs, const struct compared *first, const struct compared *second, struct arena *arena)
{
    const struct sums *a = first->sums, *b = second->sums;
    *pairs = (struct line_pairs){ .identical = false };
    if (!a || !b) {
        pairs->identical = !a && !b && same_food(first, second);
        return true;
    }
    pairs->second = arena_take(arena, (a->line_count + 1) * sizeof *pairs->second);
    pairs->first = arena_take(arena, (b->line_count + 1) * sizeof *pairs->first);
    if (!pairs->second || !pairs->first)
        return false;
    memset(pairs->second, 0xff, a->line_count * sizeof *pairs->second);
    memset(pairs->first, 0xff, b->line_count * sizeof *pairs->first);
    pairs->identical = same_recipe(first, second);
    for (uint32_t i = 0; pairs->identical && i < a->line_count; i++)
        pair(pairs, i, i);
    pair_those(pairs, a, b, lines_have_one_amount);
    pair_those(pairs, a, b, lines_have_one_subject);
    return true;
}

static bool is_known(const struct line_amount *amount, uint32_t column)
{
    return !(amount->incomplete >> column & 1);
}

bool pair_cancels(const struct compared *first, const struct compared *second, uint32_t line, uint32_t other, uint32_t column)
{
    const struct line_amount *a = &first->sums->lines[line], *b = &second->sums->lines[other];
    return lines_have_one_amount(first->sums, line, second->sums, other) && !a->unmeasured && !b->unmeasured
        && is_known(a, column) == is_known(b, column)
        && same_range(line_column(a, library_of(first), column), line_column(b, library_of(second), column));
}

/* ---- differences ------------------------------------------------------------------------------------------------------- */

/* What both have, and what each has alone; the high end is infinite where nobody knows it. */
struct parting {
    struct range both, first, second;
};

/* How many shares each is divided into. `one`: they are one number, though nobody may know which. */
struct dividing {
    struct range first, second;
    bool one;
};

/* Of nothing there is nothing, whatever the number. */
static double times(double a, double b)
{
    return a == 0 || b == 0 ? 0 : a * b;
}

static double lowest(struct range both, double factor)
{
    return amount_smaller(times(both.low, factor), times(both.high, factor));
}

static double highest(struct range both, double factor)
{
    return amount_larger(times(both.low, factor), times(both.high, factor));
}

static struct change divide_once(const struct parting *parting, struct range shares)
{
    double low = parting->second.low - parting->first.high, high = parting->second.high - parting->first.low;
    struct change change = { .low = low < 0 ? low / shares.low : low / shares.high, .high = high < 0 ? high / shares.high : high / shares.low };
    change.best = (parting->second.best - parting->first.best) / shares.best;
    change.best_known = isfinite(parting->first.high) && isfinite(parting->second.high);
    return change;
}

static struct change change_of(const struct parting *parting, const struct dividing *by)
{
    const struct range *both = &parting->both, *a = &parting->first, *b = &parting->second, s = by->first, t = by->second;
    if (by->one)
        return divide_once(parting, s);
    double grows = 1 / t.best - 1 / s.best;
    struct change change = {
        .low = lowest(*both, 1 / t.high - 1 / s.low) + b->low / t.high - a->high / s.low,
        .best = times(both->best, grows) + b->best / t.best - a->best / s.best,
        .high = highest(*both, 1 / t.low - 1 / s.high) + b->high / t.low - a->low / s.high,
    };
    bool equal = range_is_exact(s) && range_is_exact(t) && grows == 0;
    change.best_known = isfinite(a->high) && isfinite(b->high) && (isfinite(both->high) || equal);
    return change;
}

/* `scale`: the larger of the amounts that were compared. */
static void judge_change(struct change *change, double scale)
{
    double noise = NOISE * (isfinite(scale) ? scale : 0);
    double *const ends[] = { &change->low, &change->best, &change->high };
    for (uint32_t i = 0; i < COUNT_OF(ends); i++)
        *ends[i] = fabs(*ends[i]) <= noise ? 0 : *ends[i];
    change->kind = change->low > 0 ? CHANGE_MORE : change->high < 0 ? CHANGE_LESS
                 : change->low == 0 && change->high == 0 ? CHANGE_NONE : CHANGE_UNCERTAIN;
    if (!change->best_known)
        change->best = change->kind == CHANGE_MORE ? change->low : change->kind == CHANGE_LESS ? change->high : 0;
}

static struct range amount_or_open(struct range amount, bool known)
{
    return known ? amount : range_of(amount.low, amount.best, INFINITY);
}

static struct range line_or_open(const struct compared *one, uint32_t line, uint32_t column)
{
    const struct line_amount *amount = &one->sums->lines[line];
    return amount_or_open(line_column(amount, library_of(one), column), is_known(amount, column));
}

static struct parting part_lines(const struct compared *first, const struct compared *second, const struct line_pairs *pairs, uint32_t column)
{
    struct parting parting = { range_exact(0), range_exact(0), range_exact(0) };
    for (uint32_t i = 0; i < first->sums->line_count; i++) {
        uint32_t other = pairs->second[i];
        bool cancels = other != NONE_INDEX && pair_cancels(first, second, i, other, column);
        struct range *side = cancels ? &parting.both : &parting.first;
        *side = range_add(*side, line_or_open(first, i, column));
    }
    for (uint32_t i = 0; i < second->sums->line_count; i++) {
        uint32_t other = pairs->first[i];
        if (other == NONE_INDEX || !pair_cancels(first, second, other, i, column))
            parting.second = range_add(parting.second, line_or_open(second, i, column));
    }
    return parting;
}

static struct dividing dividing_of(const struct compared *first, const struct compared *second, enum share share)
{
    struct dividing by = { shares_in(first, share), shares_in(second, share), false };
    by.one = first->sums && second->sums && names_agree(first, second) && same_range(by.first, by.second);
    return by;
}

bool difference_of(const struct compared *first, const struct compared *second, const struct line_pairs *pairs,
                   enum share share, uint32_t column, struct change *change)
{
    bool first_complete, second_complete;
    struct range a, b;
    if (!compared_amount(first, share, column, &a, &first_complete) || !compared_amount(second, share, column, &b, &second_complete))
        return false;
    struct parting apart = { range_exact(0), amount_or_open(a, first_complete), amount_or_open(b, second_complete) };
    struct dividing undivided = { range_exact(1), range_exact(1), true };
    *change = change_of(&apart, &undivided);
    if (pairs->identical)
        *change = (struct change){ .best_known = true };
    else if (first->sums && second->sums && !is_ratio_of_lines(first, share) && !is_ratio_of_lines(second, share)) {
        struct parting parting = part_lines(first, second, pairs, column);
        struct dividing by = dividing_of(first, second, share);
        struct change together = change_of(&parting, &by);
        change->low = amount_larger(change->low, together.low);
        change->high = amount_smaller(change->high, together.high);
        change->best = together.best_known ? together.best : change->best;
        change->best_known = change->best_known || together.best_known;
    }
    judge_change(change, amount_larger(a.high, b.high));
    return true;
}

struct change difference_of_lines(const struct compared *first, const struct compared *second, uint32_t line, uint32_t other,
                                  uint32_t column)
{
    struct parting parting = { range_exact(0), range_exact(0), range_exact(0) };
    struct dividing by = dividing_of(first, second, SHARE_SERVING);
    bool both = line != NONE_INDEX && other != NONE_INDEX && pair_cancels(first, second, line, other, column);
    if (both)
        parting.both = line_or_open(first, line, column);
    if (line != NONE_INDEX && !both)
        parting.first = line_or_open(first, line, column);
    if (other != NONE_INDEX && !both)
        parting.second = line_or_open(second, other, column);
    struct change change = change_of(&parting, &by);
    if (by.one && both)
        change.best_known = true;
    judge_change(&change, amount_larger(parting.both.high, amount_larger(parting.first.high, parting.second.high)));
    return change;
}
