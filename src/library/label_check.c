/* A label checks itself: a slip of the pen shows where one figure follows from others. Every amount that the printed
 * figures can stand for is tried, so that no lawful label is told off; what follows from what is declared in the rules. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "library/label.h"

/* So many figures as a label has: 2300, 46, 7.4, 0.35. */
static struct text print_figure(char *storage, size_t size, double amount, struct text unit)
{
    int places = amount >= 10 || amount_compare(amount, amount_round(amount, 1, ROUND_NEAREST)) == 0 ? 0 : amount >= 1 ? 1 : 2;
    int length = snprintf(storage, size, "%.*f %.*s", places, amount, (int)unit.length, unit.bytes);
    return (struct text){ storage, (uint32_t)length };
}

/* ---- percents of the daily value ------------------------------------------------------------------------------- */

static struct text nutrient_name(const struct builder *builder, uint32_t number)
{
    const struct nutrient *found = build_nutrient_at(builder, number);
    return builder->base ? library_text(builder->base, found->name) : build_string(builder, found->name);
}

/* The shares, in percent, that may be printed so; false when no rule prints it. */
static bool lawful_shares(const struct library *owner, const struct rounding *rounding, double percent, struct range *shares)
{
    bool good = rounding_invert(owner, rounding, percent, shares);
    if (percent == 0 && rounding->small > 0)
        shares->high = amount_larger(shares->high, rounding->small);
    return good;
}

void label_check_percent(struct making *making, const struct node *node, uint32_t nutrient, struct range amounts, double percent)
{
    struct builder *builder = making->builder;
    const struct library *owner = builder->label_rules_owner;
    const struct daily_value *value = rules_daily_value(owner, builder->label_rules, nutrient);
    const struct rounding *rounding = rules_rounding(owner, builder->label_rules, nutrient, true);
    struct place place = build_place(builder, node->span);
    char share[32], day[48], means[48], says[48];
    struct text unit = build_nutrient_unit(builder, nutrient);
    struct range shares;
    if (!value || !rounding) {
        finding_add(builder->findings, value ? FINDING_LABEL_NO_PERCENT : FINDING_LABEL_NO_DAILY_VALUE, place, GAPS(nutrient_name(builder, nutrient)));
        return;
    }
    snprintf(share, sizeof share, "%.4g%%", percent);
    if (!lawful_shares(owner, rounding, percent, &shares))
        finding_add(builder->findings, FINDING_LABEL_FIGURE, place, GAPS(text_of(share)));
    if (amount_compare(amounts.high * 100, shares.low * value->amount) >= 0 && amount_compare(amounts.low * 100, shares.high * value->amount) <= 0)
        return;
    finding_add(builder->findings, FINDING_LABEL_PERCENT, place,
                GAPS(text_of(share), print_figure(day, sizeof day, value->amount, unit),
                     print_figure(means, sizeof means, percent * value->amount / 100, unit),
                     print_figure(says, sizeof says, amounts.best, unit)));
}

/* ---- figures that follow from others ------------------------------------------------------------------------------ */

/* What a printed figure may stand for; one that is not printed may be anything, or nothing where the rules say so. */
static struct range part_amount(struct making *making, const struct check_part *part)
{
    if (making->food.known >> part->nutrient & 1)
        return *making_column(making, part->nutrient);
    return (struct range){ 0, 0, part->if_printed ? 0 : INFINITY };
}

static const struct check_part *find_part(const struct library *owner, const struct label_check *check, uint32_t nutrient)
{
    for (uint32_t i = 0; i < check->part_count; i++) {
        const struct check_part *part = &owner->check_parts[check->first_part + i];
        if (part->nutrient == nutrient && part->whole == NONE_INDEX)
            return part;
    }
    return NULL;
}

/* Of a whole that was counted already, what this part of it counts less, or more. */
static struct range part_correction(struct making *making, const struct library *owner, const struct label_check *check,
                                    const struct check_part *part)
{
    const struct check_part *whole = find_part(owner, check, part->whole);
    struct range amount = part_amount(making, part), most, none = { 0, 0, 0 };
    if (!whole)
        return none;
    most = part_amount(making, whole);
    double least_rate = part->least - whole->least, most_rate = part->most - whole->most;
    double at_least = amount_smaller(amount.low, most.high), at_most = amount_smaller(amount.high, most.low);
    double high = amount_smaller(amount.high, most.high);
    none.low = least_rate < 0 ? least_rate * at_most : least_rate * at_least;
    none.high = most_rate < 0 ? most_rate * at_least : most_rate > 0 ? most_rate * high : 0;
    return none;
}

static struct range sum_parts(struct making *making, const struct library *owner, const struct label_check *check)
{
    struct range sum = { 0, 0, 0 };
    for (uint32_t i = 0; i < check->part_count; i++) {
        const struct check_part *part = &owner->check_parts[check->first_part + i];
        struct range amount = part_amount(making, part), counts = { amount.low * part->least, 0, part->most > 0 ? amount.high * part->most : 0 };
        if (part->whole != NONE_INDEX)
            counts = part_correction(making, owner, check, part);
        sum.low += counts.low;
        sum.high += counts.high;
    }
    return sum;
}

/* `fat, carbohydrate and protein`: the printed figures that count. */
static struct text part_names(struct making *making, const struct library *owner, const struct label_check *check, char *storage, size_t size)
{
    uint32_t known = 0, seen = 0;
    int used = 0;
    for (int pass = 0; pass < 2; pass++) {
        for (uint32_t i = 0; i < check->part_count; i++) {
            uint32_t nutrient = owner->check_parts[check->first_part + i].nutrient;
            if (!(making->food.known >> nutrient & 1) || owner->check_parts[check->first_part + i].whole != NONE_INDEX)
                continue;
            known += pass == 0;
            seen += pass == 1;
            struct text name = nutrient_name(making->builder, nutrient);
            if (pass == 1 && used + (int)name.length + 8 < (int)size)
                used += snprintf(storage + used, size - (size_t)used, "%s%.*s", seen == 1 ? "" : seen == known ? " and " : ", ",
                                 (int)name.length, name.bytes);
        }
    }
    return (struct text){ storage, (uint32_t)used };
}

/* The statement of the label that prints the checked figure. */
static struct span figure_span(struct making *making, const struct node *label, uint32_t nutrient)
{
    for (const struct node *at = label->body; at; at = at->next) {
        char storage[64];
        struct text words = build_words(making->builder, at->items.first, storage, sizeof storage);
        if (at->kind == NODE_KNOWLEDGE && nutrient != ROUNDING_SERVING_MASS && build_nutrient(making->builder, words) == nutrient)
            return at->span;
        if (at->kind == NODE_KNOWLEDGE && nutrient == ROUNDING_SERVING_MASS && (text_is(words, "serving") || text_is(words, "serving about")))
            return at->span;
    }
    return label->span;
}

static void check_sum(struct making *making, const struct node *label, const struct library *owner, const struct label_check *check)
{
    bool is_mass = check->nutrient == ROUNDING_SERVING_MASS;
    struct builder *builder = making->builder;
    if (is_mass ? making->food.serving_grams.high <= 0 : !(making->food.known >> check->nutrient & 1))
        return;
    struct range printed = is_mass ? making->food.serving_grams : *making_column(making, check->nutrient);
    struct range sum = sum_parts(making, owner, check);
    bool above = amount_compare(sum.low, printed.high * (1 + check->within)) > 0;
    bool below = !is_mass && amount_compare(sum.high, printed.low * (1 - check->within)) < 0;
    if (!above && !below)
        return;
    char names[160], bound[48], says[48];
    struct text unit = is_mass ? text_of("g") : build_nutrient_unit(builder, check->nutrient);
    finding_add(builder->findings, above ? FINDING_LABEL_SUM_ABOVE : FINDING_LABEL_SUM_BELOW,
                build_place(builder, figure_span(making, label, check->nutrient)),
                GAPS(part_names(making, owner, check, names, sizeof names),
                     print_figure(bound, sizeof bound, above ? sum.low : sum.high, unit),
                     print_figure(says, sizeof says, printed.best, unit)));
}

void label_check_sums(struct making *making, const struct node *label)
{
    const struct rules *rules = making->builder->label_rules;
    const struct library *owner = making->builder->label_rules_owner;
    for (uint32_t i = 0; rules && i < rules->check_count; i++)
        check_sum(making, label, owner, &owner->label_checks[rules->first_check + i]);
}
