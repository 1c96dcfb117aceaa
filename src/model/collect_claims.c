/* Claims, and what rules need to know of a recipe to judge them. Rules may be declared in a file that comes later, so
 * their names are looked up when all is read. */
#include "model/collect.h"

static struct text words_before(struct gathering *gathering, const struct item *first, const struct item *end)
{
    const struct item *last = first;
    if (!first || first == end)
        return text_of("");
    while (last->next && last->next != end)
        last = last->next;
    return collect_written(gathering, (struct span){ first->span.start, last->span.end });
}

/* What stands behind `compared to`, if anything does. */
static const struct item *food_after(struct gathering *gathering, const struct item *first)
{
    const struct item *second = first ? first->next : NULL;
    bool compared = second && second->next && text_is(words_before(gathering, first, second->next), "compared to");
    return compared ? second->next : NULL;
}

static void read_phrase(struct gathering *gathering, const struct phrase *phrase, struct claim_said *claim)
{
    const struct item *string = phrase->items;
    while (string && string->kind != ITEM_STRING)
        string = string->next;
    struct text words = words_before(gathering, phrase->items, string);
    const struct item *food = food_after(gathering, phrase->items);
    if (string && !string->next && !claim->compared.length && text_is(words, "compared to")) {
        claim->compared = collect_keep(gathering, collect_written(gathering, string->span));
        claim->compared_place = collect_place(gathering, string->span);
    } else if (!string && !claim->compared.length && food) {
        struct span span = { food->span.start, phrase->span.end };
        claim->compared = collect_keep(gathering, collect_written(gathering, span));
        claim->compared_place = collect_place(gathering, span);
        claim->compared_bare = true;
    } else if (!string && text_is(words, "with footnote")) {
        claim->footnote = true;
    } else {
        finding_add(&gathering->findings, FINDING_CLAIM_FORM, collect_place(gathering, phrase->span),
                    GAPS(collect_written(gathering, phrase->span)));
    }
}

static void keep_claim(struct gathering *gathering, struct claim_said claim)
{
    struct claim_said *kept = claim.name.length ? ADD_RECORD(gathering, claims) : NULL;
    if (kept)
        *kept = claim;
}

/* `claim "low sodium" compared to "Other"`, without the comma, can mean one thing only; what stands there is read. */
static bool lacks_comma(struct gathering *gathering, const struct node *node, struct claim_said *claim)
{
    const struct item *title = node->items.first, *more = title ? title->next : NULL;
    if (!title || title->kind != ITEM_STRING || title->span.end <= title->span.start || !more)
        return false;
    struct phrase phrase = { .items = node->items.first->next, .span = { more->span.start, node->items.last->span.end } };
    finding_add(&gathering->findings, FINDING_CLAIM_COMMA, collect_place(gathering, phrase.span), GAPS(collect_written(gathering, phrase.span)));
    *claim = (struct claim_said){ .name = collect_keep(gathering, collect_written(gathering, title->span)), .place = collect_place(gathering, title->span) };
    read_phrase(gathering, &phrase, claim);
    return true;
}

void collect_claim(struct gathering *gathering, const struct node *node, const char *where)
{
    struct claim_said claim;
    if (node->has_body) {
        collect_misplaced(gathering, node, where);
        return;
    }
    if (!lacks_comma(gathering, node, &claim)) {
        struct span title;
        struct text name = collect_title(gathering, node, &title);
        claim = (struct claim_said){ .name = name, .place = collect_place(gathering, title) };
    }
    for (const struct phrase *phrase = node->names.first; phrase; phrase = phrase->next)
        read_phrase(gathering, phrase, &claim);
    keep_claim(gathering, claim);
}

/* `claim low sodium`: the name lacks its quotes. */
static void claim_without_quotes(struct gathering *gathering, const struct node *node, const struct item *name)
{
    struct span span = { name->span.start, node->span.end };
    keep_claim(gathering, (struct claim_said){ .name = collect_unquoted_title(gathering, NODE_CLAIM, span), .place = collect_place(gathering, span) });
}

bool collect_claim_in_day(struct gathering *gathering, const struct node *node)
{
    if (node->kind == NODE_CLAIM)
        finding_add(&gathering->findings, FINDING_CLAIM_IN_DAY, collect_place(gathering, node->span), NO_GAPS);
    return node->kind == NODE_CLAIM;
}

/* ---- what rules need to know ---- */

/* `reference amount "soups"`, `reference amount 245 g`. */
static bool read_reference(struct gathering *gathering, const struct node *node, struct claiming *claiming)
{
    const struct item *string = node->items.first->next->next;
    claiming->reference_place = collect_place(gathering, node->span);
    if (string && string->kind == ITEM_STRING && !string->next && node->quantity.kind == QUANTITY_NONE) {
        claiming->reference_place = collect_place(gathering, string->span);
        claiming->category = collect_keep(gathering, collect_written(gathering, string->span));
        return claiming->category.length > 0;
    }
    if (string || node->quantity.kind != QUANTITY_NUMBER || node->quantity.is_percent || node->quantity.low <= 0 || !node->unit.first)
        return false;
    claiming->amount = node->quantity.low;
    claiming->unit = collect_keep(gathering, words_before(gathering, node->unit.first, NULL));
    return true;
}

static bool is_word(struct gathering *gathering, const struct item *item, const char *word)
{
    return item && item->kind == ITEM_WORD && text_is(collect_written(gathering, item->span), word);
}

bool collect_claiming(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    const struct item *first = node->items.first, *second = first ? first->next : NULL;
    bool reference = is_word(gathering, first, "reference") && is_word(gathering, second, "amount");
    bool counts = is_word(gathering, first, "counts") && is_word(gathering, second, "as");
    if (is_word(gathering, first, "claim") && second && node->quantity.kind == QUANTITY_NONE && !node->has_body) {
        claim_without_quotes(gathering, node, second);
        return true;
    }
    if (!reference && !counts)
        return false;
    struct recipe *recipe = collect_recipe_of(collecting);
    struct claiming claiming = recipe->claiming ? *recipe->claiming : (struct claiming){ 0 };
    bool good = !node->has_body && !node->phrases.first;
    bool again = reference ? claiming.amount > 0 || claiming.category.length : claiming.kind.length > 0;
    if (again) {
        finding_add(&gathering->findings, FINDING_REPEATED_STATEMENT, collect_place(gathering, node->span), GAPS(text_of(reference ? "reference amount" : "counts as")));
        return true;
    }
    if (reference) {
        good = read_reference(gathering, node, &claiming) && good;
    } else {
        const struct item *kind = second->next;
        claiming.kind = collect_keep(gathering, words_before(gathering, kind, NULL));
        claiming.kind_place = collect_place(gathering, node->span);
        good = good && kind && node->quantity.kind == QUANTITY_NONE;
    }
    if (!good) {
        finding_add(&gathering->findings, FINDING_CLAIMING_FORM, collect_place(gathering, node->span), GAPS(collect_written(gathering, node->span)));
        return true;
    }
    struct claiming *kept = arena_take(&gathering->arena, sizeof *kept);
    if (kept) {
        *kept = claiming;
        recipe->claiming = kept;
    }
    return true;
}
