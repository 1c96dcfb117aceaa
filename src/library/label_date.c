/* `seen 2026-02-01`: the day on which somebody held the packet. Whether that is long ago is for whoever knows what day
 * it is: no clock is read here. */
#include "library/label.h"

static struct text written_date(struct builder *builder, const struct node *node)
{
    const struct item *first = node->items.first, *date = first ? first->next : NULL;
    bool alone = date && !date->next && node->quantity.kind == QUANTITY_NONE && !node->phrases.first && !node->has_body;
    return alone ? build_written(builder, date->span) : (struct text){ "", 0 };
}

void label_read_seen(struct making *making, const struct node *node)
{
    struct builder *builder = making->builder;
    struct text date = written_date(builder, node);
    uint32_t day = day_of(date);
    if (day == 0)
        finding_add(builder->findings, FINDING_SEEN_DATE, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
    else if (making->food.seen)
        finding_add(builder->findings, FINDING_REPEATED_STATEMENT, build_place(builder, node->span), GAPS(text_of("seen")));
    else
        making->food.seen_span = node->span;
    if (making->food.seen == 0)
        making->food.seen = day;
}
