/* `expect sodium 310 mg (within 5%)`: the best value that somebody saw and relies on. */
#include "model/collect.h"

#define USUAL_WITHIN 0.01           /* where nothing is said */

static struct text word_of(const struct gathering *gathering, const struct item *item)
{
    return item && item->kind == ITEM_WORD ? collect_written(gathering, item->span) : (struct text){ "", 0 };
}

static bool fail(const struct collecting *collecting, struct span span)
{
    finding_add(&collecting->gathering->findings, FINDING_EXPECT_FORM, collect_place(collecting->gathering, span), NO_GAPS);
    return false;
}

/* `(within 5%)` */
static bool read_within(const struct collecting *collecting, const struct item *group, double *within)
{
    const struct item *word = group->inside, *share = word ? word->next : NULL;
    bool good = share && !share->next && text_is(word_of(collecting->gathering, word), "within") && share->kind == ITEM_NUMBER
             && share->quantity->kind == QUANTITY_NUMBER && share->quantity->is_percent && share->quantity->low <= 1;
    if (!good)
        return fail(collecting, group->span);
    *within = share->quantity->low;
    return true;
}

static bool read_basis(const struct collecting *collecting, struct text word, enum basis *basis)
{
    bool is_day = collect_recipe_of(collecting)->is_day;
    if (text_is(word, "day") && is_day)
        return true;
    *basis = text_is(word, "recipe") ? PER_RECIPE : PER_SERVING;
    return !is_day && (text_is(word, "recipe") || text_is(word, "serving"));
}

/* What stands behind the unit: `per recipe`, `(within 5%)`, `with library "…"`, in any order. */
static bool read_rest(struct collecting *collecting, const struct item *item, struct expectation *expectation)
{
    struct gathering *gathering = collecting->gathering;
    for (; item; item = item->next) {
        struct text word = word_of(gathering, item);
        const struct item *next = item->next;
        if (item->kind == ITEM_GROUP && read_within(collecting, item, &expectation->within))
            continue;
        if (item->kind == ITEM_GROUP)
            return false;
        if (text_is(word, "per") && next && read_basis(collecting, word_of(gathering, next), &expectation->basis)) {
            item = next;
        } else if (text_is(word, "with") && text_is(word_of(gathering, next), "library") && next->next && next->next->kind == ITEM_STRING) {
            item = next->next;
            expectation->library = collect_keep(gathering, collect_written(gathering, item->span));
        } else {
            return fail(collecting, item->span);
        }
    }
    return true;
}

static bool read_nutrient(struct gathering *gathering, const struct node *node, struct expectation *expectation)
{
    char key[KEY_BYTES];
    const struct item *first = node->items.first->next;
    struct span span = { first ? first->span.start : node->items.first->span.start, node->items.last->span.end };
    struct text name = collect_written(gathering, span);
    struct text found = { key, name_key_of(name, false, key) };
    if (first && library_nutrient(gathering->kitchen->stdlib, found, &expectation->column))
        return true;
    finding_add(&gathering->findings, FINDING_UNKNOWN_NUTRIENT, collect_place(gathering, span), GAPS(name));
    return false;
}

static void read_expectation(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    const struct item *unit = node->unit.first;
    struct expectation expectation = { .within = USUAL_WITHIN, .divisor = 1, .place = collect_place(gathering, node->span),
                                       .basis = collect_recipe_of(collecting)->is_day ? PER_DAY : PER_SERVING };
    struct text words = word_of(gathering, unit);
    bool plain = node->quantity.kind == QUANTITY_NUMBER && !node->quantity.is_percent && !node->phrases.first && !node->has_body;
    if (!plain || !unit) {
        fail(collecting, node->span);
        return;
    }
    if (!read_nutrient(gathering, node, &expectation) || !read_rest(collecting, unit->next, &expectation))
        return;
    double factor = collect_unit_factor(gathering, expectation.column, words, unit->span, &expectation.divisor);
    struct expectation *kept = factor > 0 ? ADD_RECORD(gathering, expectations) : NULL;
    if (!kept)
        return;
    expectation.value = node->quantity.low * factor;
    expectation.unit = collect_keep(gathering, words);
    *kept = expectation;
    gathering->bound_columns |= (uint64_t)1 << expectation.column;
}

bool collect_expectation(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    if (!text_is(word_of(gathering, node->items.first), "expect") || node->has_body)
        return false;
    if (collecting->part != NONE_INDEX)                 /* a figure of the whole would be taken for that of the part */
        collect_misplaced(gathering, node, gathering->parts[collecting->part].is_meal ? "meal" : "part");
    else if (node->quantity.kind != QUANTITY_BAD)
        read_expectation(collecting, node);
    return true;
}
