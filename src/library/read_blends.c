/* Blends: foods that are mixed by mass from others. A curing salt, a salt substitute. What a blend holds is the sum of
 * its shares of them; what is unknown of one of them is unknown of the blend. */
#include <stdio.h>
#include <string.h>

#include "library/making.h"

#define SHARE_SLACK 0.0001          /* shares are written in rounded percents: three times 33.33% is a whole */

/* Sums of all shares: least, best, most. */
struct blend {
    struct making making;
    struct range sum;
    bool is_wrong;                  /* a finding has spoken: nothing is computed */
};

struct part {
    struct range share;
    const struct range *values, *varied;
    uint64_t known;
};

/* ---- shares --------------------------------------------------------------------------------------------------------- */

/* `1 tsp = 6 g` is a portion; what else begins with an amount is meant as a share. */
static bool is_share(const struct node *node)
{
    return node->kind == NODE_INGREDIENT;
}

static bool read_share(struct blend *blend, const struct node *node, struct range *share)
{
    struct builder *builder = blend->making.builder;
    const struct quantity *quantity = &node->quantity;
    bool number = quantity->kind == QUANTITY_NUMBER || quantity->kind == QUANTITY_RANGE;
    if (quantity->kind == QUANTITY_BAD)
        return false;
    if (!number || !quantity->is_percent || quantity->high <= 0) {
        finding_add(builder->findings, FINDING_BLEND_SHARE, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
        return false;
    }
    if (node->phrases.first) {
        struct span span = node->phrases.first->span;
        finding_add(builder->findings, FINDING_EXTRA_WORDS, build_place(builder, span), GAPS(build_written(builder, span)));
        return false;
    }
    *share = range_between(quantity->low, quantity->high);
    return true;
}

static void add_shares(struct blend *blend, const struct node *node)
{
    for (const struct node *at = node->body; at; at = at->next) {
        struct range share;
        if (!is_share(at))
            blend->is_wrong = blend->is_wrong || at->kind == NODE_BROKEN;
        else if (read_share(blend, at, &share))
            blend->sum = range_add(blend->sum, share);
        else
            blend->is_wrong = true;
    }
}

static void check_sum(struct blend *blend, const struct node *node)
{
    struct builder *builder = blend->making.builder;
    char written[64];
    if (blend->is_wrong || (blend->sum.low <= 1 + SHARE_SLACK && blend->sum.high >= 1 - SHARE_SLACK))
        return;
    if (range_is_exact(blend->sum))
        snprintf(written, sizeof written, "%.6g%%", 100 * blend->sum.best);
    else
        snprintf(written, sizeof written, "%.6g%% to %.6g%%", 100 * blend->sum.low, 100 * blend->sum.high);
    finding_add(builder->findings, FINDING_BLEND_SUM, making_head_place(builder, node), GAPS(text_of(written)));
    blend->is_wrong = true;
}

/* The bests come to a whole: each moves within its own range, by the same part of the way to its end. Shares without
 * ranges, which miss the whole by their rounding, are all scaled. */
static struct range settle_share(const struct range *sum, struct range share)
{
    double missing = 1 - sum->best, room = missing > 0 ? sum->high - sum->best : sum->best - sum->low;
    if (range_is_exact(*sum))
        return range_scale(share, 1 / sum->best);
    if (room <= 0)
        return share;
    double way = amount_smaller(1, (missing > 0 ? missing : -missing) / room);
    double best = share.best + way * (missing > 0 ? share.high - share.best : share.low - share.best);
    return range_of(share.low, amount_larger(share.low, amount_smaller(best, share.high)), share.high);
}

/* ---- parts ---------------------------------------------------------------------------------------------------------- */

static bool has_key(struct text name, struct text key)
{
    char other[KEY_BYTES];
    return text_equal(key, (struct text){ other, name_key_of(name, false, other) });
}

/* Whether the blend itself has the name. */
static bool is_own_name(struct builder *builder, const struct node *node, struct text key)
{
    if (has_key(build_items_text(builder, node->items.first->next), key))
        return true;
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind != NODE_ALSO)
            continue;
        if (has_key(build_items_text(builder, at->items.first), key))
            return true;
        for (const struct phrase *more = at->names.first; more; more = more->next) {
            if (has_key(build_written(builder, more->span), key))
                return true;
        }
    }
    return false;
}

static void tell_unknown(struct builder *builder, const struct node *node, struct text name)
{
    struct near_name near[3];
    struct finding *finding = finding_add(builder->findings, FINDING_BLEND_FOOD, build_place(builder, node->span), GAPS(name));
    bool looks = builder->base && builder->near_searches++ < LIMIT_NEAR_SEARCHES;
    uint32_t count = looks ? library_near(builder->base, 1u << SPACE_FOOD, name, near, COUNT_OF(near)) : 0;
    for (uint32_t i = 0; i < count; i++)
        finding_note(builder->findings, finding, WORDS_NEAR_NAME, GAPS(library_text(near[i].library, near[i].name->written)));
}

/* The food with the key, of the pack under construction or of those below it; false where there is none. */
static bool find_values(struct builder *builder, struct text key, struct part *part, bool *damaged)
{
    uint32_t index = build_find_key(builder, SPACE_FOOD, key);
    if (index != NONE_INDEX) {
        const struct food *food = &builder->foods[index];
        part->values = &builder->values[food->values];
        part->varied = &builder->values[food->varied];
        part->known = food->known;
        return true;
    }
    struct food_at found = builder->base ? library_food(builder->base, key) : (struct food_at){ NULL, NULL };
    *damaged = found.library && !found.food;
    if (!found.food)
        return false;
    part->values = &found.library->values[found.food->values];
    part->varied = &found.library->values[found.food->varied];
    part->known = found.food->known;
    return true;
}

static bool find_part(struct blend *blend, const struct node *node, const struct node *line, struct part *part)
{
    struct builder *builder = blend->making.builder;
    struct text name = build_items_text(builder, line->items.first);
    char set[KEY_BYTES], ordered[KEY_BYTES];
    struct text key = { set, name_key_of(name, false, set) }, in_order = { ordered, name_key_of(name, true, ordered) };
    bool damaged = false;
    if (is_own_name(builder, node, key)) {
        finding_add(builder->findings, FINDING_BLEND_ITSELF, build_place(builder, line->span), GAPS(name));
        return false;
    }
    if (find_values(builder, in_order, part, &damaged) || (!damaged && find_values(builder, key, part, &damaged)))
        return true;
    if (damaged)
        finding_add(builder->findings, FINDING_PACK_FOOD_DAMAGED, build_place(builder, line->span), GAPS(name));
    else
        tell_unknown(builder, line, name);
    return false;
}

/* ---- sums ----------------------------------------------------------------------------------------------------------- */

static void add_part(struct blend *blend, const struct part *part, uint32_t row, bool varied)
{
    struct builder *builder = blend->making.builder;
    for (uint32_t i = 0; i < build_nutrient_total(builder); i++) {
        struct range *sum = &builder->values[row + i];
        if (blend->making.computed >> i & 1)
            *sum = range_add(*sum, range_multiply(part->share, varied ? part->varied[i] : part->values[i]));
    }
}

/* Looks every part up once: what is known of all of them is computed. */
static void find_parts(struct blend *blend, const struct node *node)
{
    uint64_t known = ((uint64_t)1 << build_nutrient_total(blend->making.builder)) - 1;
    for (const struct node *at = node->body; at; at = at->next) {
        struct part part;
        if (!is_share(at) || !at->quantity.is_percent || at->quantity.kind == QUANTITY_BAD)
            continue;
        if (find_part(blend, node, at, &part))
            known &= part.known;
        else
            blend->is_wrong = true;
    }
    if (!blend->is_wrong)
        blend->making.computed = known;
}

/* Adds up all parts in a row of values; tells whether samples of one of them vary. */
static bool sum_row(struct blend *blend, const struct node *node, uint32_t row, bool varied)
{
    bool varies = false;
    for (const struct node *at = node->body; at; at = at->next) {
        struct part part;
        if (!is_share(at) || !find_part(blend, node, at, &part) || !read_share(blend, at, &part.share))
            continue;
        part.share = settle_share(&blend->sum, part.share);
        add_part(blend, &part, row, varied);
        varies = varies || part.varied != part.values;
    }
    return varies;
}

/* A row of the widened ranges of its parts, as a food with samples has one. */
static void add_varied(struct blend *blend, const struct node *node)
{
    struct making *making = &blend->making;
    struct builder *builder = making->builder;
    uint32_t plain = making->food.values, varied = builder->values_count;
    for (uint32_t i = 0; i < making->column_count; i++) {
        if (BUILD_ADD(builder, values) == NONE_INDEX)
            return;
        bool summed = i < build_nutrient_total(builder) && making->computed >> i & 1;
        builder->values[varied + i] = summed ? range_exact(0) : builder->values[plain + i];
    }
    sum_row(blend, node, varied, true);
    making->food.values = varied;
    making_split_origins(making);
    making->food.values = plain;
    builder->foods[making->index].varied = varied;
}

void read_blend(struct builder *builder, const struct node *node)
{
    struct blend blend = { .sum = range_exact(0) };
    struct making *making = &blend.making;
    const struct item *name = node->items.first->next;
    bool varies = false;
    if (!making_open(making, builder, node, name))
        return;
    making_check_name(builder, node);
    add_shares(&blend, node);
    check_sum(&blend, node);
    find_parts(&blend, node);
    if (!blend.is_wrong) {
        varies = sum_row(&blend, node, making->food.values, false);
        making->food.known |= making->computed;
    }
    for (const struct node *at = node->body; at; at = at->next) {
        if (!is_share(at))
            making_read_statement(making, at);
    }
    making_close(making, node, name);
    if (varies && making->food.spread_count == 0)
        add_varied(&blend, node);
}
