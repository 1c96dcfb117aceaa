/* What a policy says of packets: how old they may be, and whether the law's tolerance counts. */
#include "model/collect.h"

/* Whether the items are these words and no others. */
static bool are_words(const struct gathering *gathering, const struct item *item, const char *const *words)
{
    for (; item && *words; item = item->next, words++) {
        if (item->kind != ITEM_WORD || !text_is(collect_written(gathering, item->span), *words))
            return false;
    }
    return !item && !*words;
}

static bool begins(const struct gathering *gathering, const struct node *node, const char *word)
{
    return node->kind == NODE_KNOWLEDGE && node->items.first && text_is(collect_written(gathering, node->items.first->span), word);
}

#define OLDEST_DAYS 36500.0

bool collect_packets(struct gathering *gathering, const struct node *node, struct packet_policy *packets)
{
    static const char *const at_most[] = { "packets", "at", "most", NULL }, *const days_old[] = { "days", "old", NULL };
    static const char *const legal[] = { "tolerance", "legal", NULL };
    const struct quantity *days = &node->quantity;
    bool of_packets = begins(gathering, node, "packets"), of_tolerance = begins(gathering, node, "tolerance");
    bool alone = (of_packets || of_tolerance) && !node->phrases.first && !node->has_body;
    struct place place = { gathering->file, node->span };
    if ((of_packets && packets->oldest > 0) || (of_tolerance && packets->tolerance)) {
        finding_add(&gathering->findings, FINDING_REPEATED_STATEMENT, place, GAPS(text_of(of_packets ? "packets" : "tolerance")));
        return true;
    }
    if (of_tolerance && alone && days->kind == QUANTITY_NONE && are_words(gathering, node->items.first, legal))
        packets->tolerance = true;
    else if (of_tolerance)
        finding_add(&gathering->findings, FINDING_TOLERANCE_WHAT, place, NO_GAPS);
    else if (of_packets && alone && days->kind == QUANTITY_NUMBER && !days->is_percent && days->low >= 1 && days->low <= OLDEST_DAYS
             && are_words(gathering, node->items.first, at_most) && are_words(gathering, node->unit.first, days_old))
        packets->oldest = (uint32_t)days->low;
    else if (of_packets && days->kind != QUANTITY_BAD)
        finding_add(&gathering->findings, FINDING_PACKET_AGE, place, NO_GAPS);
    return of_packets || of_tolerance;
}
