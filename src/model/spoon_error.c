/* `spoon error 10%`: how far a spoon or a cup may hold more or less than it says. docs/method.md says why. */
#include "model/collect.h"

static bool is_word(const struct gathering *gathering, const struct item *item, const char *word)
{
    return item && item->kind == ITEM_WORD && text_is(collect_written(gathering, item->span), word);
}

bool collect_spoon_error(struct gathering *gathering, const struct node *node, double *error)
{
    const struct item *first = node->items.first;
    const struct quantity *share = &node->quantity;
    if (node->kind != NODE_KNOWLEDGE || !is_word(gathering, first, "spoon") || !is_word(gathering, first->next, "error") || first->next->next)
        return false;
    bool plain = share->kind == QUANTITY_NUMBER && share->is_percent && !node->unit.first && !node->phrases.first && !node->has_body;
    if (share->kind == QUANTITY_BAD)
        return true;                                    /* a finding speaks of it */
    if (*error > 0)
        finding_add(&gathering->findings, FINDING_REPEATED_STATEMENT, collect_place(gathering, node->span), GAPS(text_of("spoon error")));
    if (plain && amount_compare(share->low, LIMIT_SPOON_ERROR) <= 0)
        *error = amount_larger(*error, share->low);
    else
        finding_add(&gathering->findings, FINDING_SPOON_ERROR, collect_place(gathering, node->span), NO_GAPS);
    return true;
}
