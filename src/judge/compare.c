/* Two recipes beside each other. A line that is the same in both has one true amount, whatever it is, so its range is
 * taken once: with C for what is shared, a and b for the rest, the ratio is (C + a) / (C + b). */
#include <math.h>
#include <string.h>

#include "judge/judge.h"

struct shares {
    struct range shared, own, other;
};

static bool same_range(struct range a, struct range b)
{
    return a.low == b.low && a.best == b.best && a.high == b.high;
}

/* The same food, in kitchens that may be two. */
static bool same_subject(const struct resolved *a, const struct resolved *b)
{
    if (a->food.food == b->food.food && a->recipe.recipe == b->recipe.recipe)
        return true;
    if (a->food.food && b->food.food)
        return text_equal(library_text(a->food.library, a->food.food->name), library_text(b->food.library, b->food.food->name))
            && text_equal(library_text(a->food.library, a->food.food->source), library_text(b->food.library, b->food.food->source));
    return a->recipe.recipe && b->recipe.recipe && text_equal(a->recipe.recipe->name, b->recipe.recipe->name);
}

bool lines_have_one_subject(const struct sums *sums, uint32_t first, const struct sums *other, uint32_t second)
{
    const struct resolved *a = sums->lines[first].resolved, *b = other->lines[second].resolved;
    return a && b && a->subject == b->subject && (a->food.food || a->recipe.recipe) && same_subject(a, b);
}

bool lines_have_one_amount(const struct sums *sums, uint32_t first, const struct sums *other, uint32_t second)
{
    const struct line_amount *a = &sums->lines[first], *b = &other->lines[second];
    if (!a->resolved || !b->resolved || a->own || b->own || a->line->tail == NONE_INDEX || b->line->tail == NONE_INDEX)
        return false;
    return same_subject(a->resolved, b->resolved) && same_range(a->driver, b->driver)
        && text_equal(sums->at.gathering->tails[a->line->tail].text, other->at.gathering->tails[b->line->tail].text);
}

static bool same_line(const struct sums *sums, uint32_t first, const struct sums *other, uint32_t second, uint32_t column)
{
    const struct library *library = sums->at.gathering->kitchen->library;
    return lines_have_one_amount(sums, first, other, second)
        && same_range(line_column(&sums->lines[first], library, column), line_column(&other->lines[second], library, column));
}

/* Of lines that stand several times, as many are shared as stand in both. */
static bool is_shared(const struct sums *sums, uint32_t line, const struct sums *other, uint32_t column)
{
    uint32_t earlier = 0, count = 0;
    for (uint32_t i = 0; i < line; i++)
        earlier += same_line(sums, i, sums, line, column);
    for (uint32_t i = 0; i < other->line_count; i++)
        count += same_line(sums, line, other, i, column);
    return earlier < count;
}

/* What a line holds of what is compared. What cannot be told apart may have been added, or not. */
static struct range compared_amount(const struct line_amount *line, const struct library *library, const struct condition *condition)
{
    if (!(condition->flags & CONDITION_ADDED))
        return line_column(line, library, condition->column);
    struct range either = line_column(line, library, library->origin_column + ORIGIN_UNSEPARATED);
    struct range added = range_add(line_column(line, library, library->origin_column + ORIGIN_MAKER),
                                   line_column(line, library, library->origin_column + ORIGIN_COOK));
    return range_add(added, range_of(0, either.best / 2, either.high));
}

static struct shares share_out(const struct sums *sums, const struct sums *other, const struct condition *condition)
{
    const struct library *library = sums->at.gathering->kitchen->library;
    uint32_t column = condition->column;
    struct shares shares = { range_exact(0), range_exact(0), range_exact(0) };
    for (uint32_t i = 0; i < sums->line_count; i++) {
        struct range amount = compared_amount(&sums->lines[i], library, condition);
        struct range *side = is_shared(sums, i, other, column) ? &shares.shared : &shares.own;
        *side = range_add(*side, amount);
    }
    for (uint32_t i = 0; i < other->line_count; i++) {
        if (!is_shared(other, i, sums, column))
            shares.other = range_add(shares.other, compared_amount(&other->lines[i], library, condition));
    }
    return shares;
}

/* What the basis divides by; high 0 when it cannot be had. */
static struct range basis_of(const struct sums *sums, const struct reference *reference, const struct condition *condition, bool *estimated)
{
    bool known, guessed = false;
    const struct kitchen *kitchen = sums->at.gathering->kitchen;
    const struct recipe *recipe = sums->at.recipe;
    if (condition->basis == PER_SERVING)
        return recipe->serves;
    if (condition->basis == PER_RECIPE)
        return range_exact(1);
    if (condition->basis == PER_REFERENCE && reference->grams <= 0 && reference->ml <= 0)
        return range_exact(0);
    if (condition->basis == PER_VOLUME || (condition->basis == PER_REFERENCE && reference->ml > 0))
        return recipe_ml(recipe);
    if (condition->basis == PER_ENERGY) {
        uint32_t energy = energy_column(kitchen->library);
        return energy == NONE_INDEX || !amounts_complete(&sums->total, energy) ? range_exact(0) : sums->total.column[energy];
    }
    struct range grams = recipe_grams(recipe, &sums->total, kitchen->library, &guessed, &known);
    *estimated = *estimated || guessed || sums->estimated;
    return known ? grams : range_exact(0);
}

static double ratio(double shared, double own, double other)
{
    return shared + other > 0 ? (shared + own) / (shared + other) : shared + own > 0 ? INFINITY : 1;
}

bool compare_less(const struct sums *sums, const struct sums *other, const struct reference *reference, const struct condition *condition, struct range *less, bool *estimated)
{
    uint32_t column = condition->column;
    *estimated = false;
    struct range under = basis_of(sums, reference, condition, estimated), above = basis_of(other, reference, condition, estimated);
    if (under.low <= 0 || above.low <= 0)
        return false;
    struct shares shares = share_out(sums, other, condition);
    struct range scale = range_divide(above, under);    /* the other's basis against this one's */
    double most = ratio(shares.other.low > shares.own.high ? shares.shared.high : shares.shared.low, shares.own.high, shares.other.low);
    double least = ratio(shares.other.high > shares.own.low ? shares.shared.low : shares.shared.high, shares.own.low, shares.other.high);
    bool own_known = amounts_complete(&sums->total, column), other_known = amounts_complete(&other->total, column);
    double best = ratio(shares.shared.best, shares.own.best, shares.other.best) * scale.best;
    less->low = own_known ? 1 - most * scale.high : -INFINITY;
    less->high = other_known ? 1 - least * scale.low : 1;
    less->best = own_known && other_known ? 1 - best : own_known ? less->low : less->high;
    return true;
}
