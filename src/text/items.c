/* Finding one's way among the items of a statement. */
#include "text/text.h"

const struct item *items_find_word(struct text text, const struct item *items, const char *word)
{
    while (items && !text_is(span_text(text, items->span), word))
        items = items->next;
    return items;
}

struct text items_between(struct text text, const struct item *first, const struct item *end)
{
    const struct item *last = first;
    if (!first || first == end)
        return (struct text){ "", 0 };
    while (last->next && last->next != end)
        last = last->next;
    return span_text(text, (struct span){ first->span.start, last->span.end });
}
