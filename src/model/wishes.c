/* Near names for what nobody has, in the order of places, when all findings are there: the first ones get an offer, whatever the
 * number of threads, and a file of a hundred thousand slips costs no more than one of some. */
#include <stdlib.h>

#include "model/model.h"

#define OFFERS_MOST 5

struct wishing {
    struct findings *findings;
    struct finding *finding;
};

static int compare_wishes(const void *left, const void *right)
{
    const struct place *a = &((const struct wishing *)left)->finding->place, *b = &((const struct wishing *)right)->finding->place;
    if (a->file != b->file)
        return a->file < b->file ? -1 : 1;
    return a->span.start < b->span.start ? -1 : a->span.start > b->span.start;
}

static void offer(const struct kitchen *kitchen, const struct wishing *at)
{
    struct near_name near[12];
    const struct finding_wish *wish = at->finding->wish;
    bool is_food = wish->spaces & 1u << SPACE_FOOD;
    uint32_t most = is_food ? COUNT_OF(near) : 3, count = library_near(kitchen->library, wish->spaces, wish->name, near, most), offered = 0;
    struct text last = text_of("");
    for (uint32_t i = 0; i < count && offered < OFFERS_MOST; i++) {
        struct text written = library_text(near[i].library, near[i].name->written);
        if (wish->canned && near[i].library->foods[near[i].name->index].state == FOOD_PLAIN)
            continue;                   /* a can never stands for the dry or raw food */
        if (text_equal(written, last))
            continue;                   /* the same word may be declared for several groups */
        offered++;
        last = written;
        finding_note(at->findings, at->finding, WORDS_NEAR_NAME, GAPS(written));
        if (is_food)
            finding_fix(at->findings, at->finding, at->finding->place, written, WORDS_FIX_NAME, GAPS(written));
    }
}

static uint32_t count_wishes(const struct kitchen *kitchen)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++) {
        for (const struct finding *at = kitchen->gatherings[i].findings.first; at; at = at->next)
            count += at->wish != NULL;
    }
    return count;
}

enum status kitchen_grant_wishes(struct kitchen *kitchen)
{
    struct allocator *allocator = &kitchen->allocator;
    uint32_t count = count_wishes(kitchen), found = 0;
    struct wishing *wishes = count ? allocator->resize(allocator->context, NULL, count * sizeof *wishes) : NULL;
    if (!wishes)
        return count ? STATUS_NO_MEMORY : STATUS_OK;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++) {
        struct findings *findings = &kitchen->gatherings[i].findings;
        for (struct finding *at = findings->first; at; at = at->next) {
            if (at->wish)
                wishes[found++] = (struct wishing){ findings, at };
        }
    }
    qsort(wishes, count, sizeof *wishes, compare_wishes);
    for (uint32_t i = 0; i < count && i < LIMIT_NEAR_SEARCHES; i++)
        offer(kitchen, &wishes[i]);
    allocator->resize(allocator->context, wishes, 0);
    return STATUS_OK;
}
