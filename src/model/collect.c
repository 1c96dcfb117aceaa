/* The first pass: from the tree of one declaration to compact records. What may stand where is decided here;
 * names are not looked up yet, since the file that declares them may come later. */
#include <string.h>

#include "model/collect.h"

/* ---- small things ------------------------------------------------------------------------------------------------ */

void *collect_record_failed(struct gathering *gathering)
{
    gathering->failed = true;
    return NULL;
}

struct recipe *collect_recipe_of(const struct collecting *collecting)
{
    return &collecting->gathering->recipes[collecting->recipe];
}

void collect_need_block(struct gathering *gathering, const struct node *node)
{
    if (!node->has_body)
        finding_add(&gathering->findings, FINDING_MISSING_BLOCK, collect_place(gathering, node->keyword),
                    GAPS(text_of(collect_node_word(node->kind))));
}

/* ---- lines --------------------------------------------------------------------------------------------------------- */

static void add_line_saying(struct collecting *collecting, uint32_t start, uint32_t saying)
{
    struct line_record *line = ADD_RECORD(collecting->gathering, lines);
    if (line)
        *line = (struct line_record){ start, saying, collecting->part };
}

/* Adds a line and what it says, to be filled in; NULL when memory failed. */
static struct saying *add_line(struct collecting *collecting, struct span span)
{
    struct gathering *gathering = collecting->gathering;
    struct saying *saying = ADD_RECORD(gathering, sayings);
    if (!saying)
        return NULL;
    saying->tail = NONE_INDEX;
    add_line_saying(collecting, span.start, gathering->sayings_count - 1);
    return gathering->failed ? NULL : saying;
}

void collect_broken_line(struct collecting *collecting, struct span span)
{
    struct saying *saying = add_line(collecting, span);
    if (saying)
        saying->flags = LINE_BROKEN;
}

/* A finding speaks of the line that was added last, which is no remembered one. */
static void flag_last_line(struct gathering *gathering, uint8_t flag)
{
    if (gathering->sayings_count)
        gathering->sayings[gathering->sayings_count - 1].flags |= flag;
}

static struct span tail_span(const struct node *node)
{
    struct span span = { node->items.first->span.start, node->items.last->span.end };
    if (node->items.last->kind == ITEM_STRING)
        span.end = node->span.end;
    if (node->phrases.last)
        span.end = node->span.end;
    return span;
}

/* A quoted first item begins at its quote. */
static struct span whole_tail(const struct gathering *gathering, const struct node *node)
{
    struct span span = tail_span(node);
    const char *bytes = gathering->parse.text.bytes;
    while (node->items.first->kind == ITEM_STRING && span.start > node->quantity.span.end
           && bytes[span.start - 1] != ' ' && bytes[span.start - 1] != '\t')
        span.start--;
    return span;
}

/* Only what no finding speaks of is remembered. */
static void remember(struct gathering *gathering, const struct node *node, const struct saying *saying)
{
    bool counted = node->quantity.kind == QUANTITY_NUMBER || node->quantity.kind == QUANTITY_RANGE;
    bool plain = counted && !node->quantity.is_percent      /* a share is a line of a blend, too, and is read there */
              && node->quantity.span.start == node->span.start;     /* and `eats 2 servings …` of days alone */
    if (plain && saying->tail != NONE_INDEX)
        line_memory_add(&gathering->memory, collect_written(gathering, node->span), gathering->sayings_count - 1);
}

void collect_ingredient(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    struct span span = whole_tail(gathering, node);
    const struct item *items = node->items.first;
    if (node->quantity.kind == QUANTITY_BLANK && items->kind == ITEM_GROUP && items->next)
        items = items->next;                            /* `? (up to 1) tsp`: what bounds the blank is no remark */
    uint32_t tail = gathering_tail(gathering, span, &node->quantity, items, node->phrases.first);
    struct saying *saying = add_line(collecting, node->span);
    if (!saying)
        return;
    *saying = (struct saying){ node->quantity.low, node->quantity.high, tail, span.start - node->span.start,
                               (uint8_t)node->quantity.kind, node->quantity.kind == QUANTITY_BAD ? LINE_BROKEN : 0 };
    remember(gathering, node, saying);
    if (node->quantity.kind == QUANTITY_BLANK) {
        saying->flags = LINE_NOT_COMPUTED;
        finding_add(&gathering->findings, FINDING_NOT_COMPUTED_YET, collect_place(gathering, node->quantity.span),
                    GAPS(text_of("a blank")));
    }
}

/* `salt` without an amount counts as `some`; `salt 1 tsp` counts as unknown until it is put in order. */
static void add_line_without_amount(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    struct span span = { node->items.first->span.start, node->items.last->span.end };
    struct text name = collect_written(gathering, span);
    struct place place = collect_place(gathering, span);
    if (node->has_body) {
        collect_misplaced(gathering, node, "recipe");
        collect_broken_line(collecting, node->span);
        return;
    }
    collect_missing_amount(gathering, node, place, name);
    if (node->quantity.kind != QUANTITY_NONE) {
        collect_broken_line(collecting, node->span);
        return;
    }
    struct node some = *node;
    some.quantity = (struct quantity){ .kind = QUANTITY_SOME, .span = { span.start, span.start } };
    collect_ingredient(collecting, &some);
    flag_last_line(gathering, LINE_WITHOUT_AMOUNT);
}

void collect_reject(struct collecting *collecting, const struct item *extra)
{
    struct gathering *gathering = collecting->gathering;
    if (!extra)
        return;
    finding_add(&gathering->findings, FINDING_EXTRA_WORDS, collect_place(gathering, extra->span),
                GAPS(collect_written(gathering, extra->span)));
    collect_broken_line(collecting, extra->span);
}

/* ---- statements of a recipe -------------------------------------------------------------------------------------------- */

static void collect_lines(struct collecting *collecting, const struct node *body);

/* The phrases behind the block, or before it, as a tail without items. */
static uint32_t part_tail(struct gathering *gathering, const struct node *node, uint32_t *start)
{
    const struct phrases *done = node->phrases.first ? &node->phrases : &node->names;
    if (node->phrases.first && node->names.first)
        finding_add(&gathering->findings, FINDING_MISPLACED, collect_place(gathering, node->names.first->span),
                    GAPS(collect_written(gathering, node->names.first->span), text_of("part that says behind its block what is done")));
    if (!done->first)
        return NONE_INDEX;
    struct span span = { done->first->span.start, done->last->span.end };
    *start = span.start;
    return gathering_tail(gathering, span, NULL, NULL, done->first);
}

static void remember_bath(struct gathering *gathering, struct text name, uint32_t part)
{
    char key[KEY_BYTES];
    uint32_t length = name_key_of(name, true, key);
    if (!gathering_has_bath(gathering, name) && !table_add(&gathering->bath_names, hash_bytes(key, length), part))
        gathering->failed = true;
}

/* A part of a recipe, or a bath: both hold lines, and say what becomes of the whole. */
static void add_part(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    struct span title;
    struct text name = collect_title(gathering, node, &title);
    uint32_t number = gathering->parts_count, outer = collecting->part, start = 0;
    bool is_bath = node->kind == NODE_BATH;
    collect_need_block(gathering, node);
    uint32_t tail = part_tail(gathering, node, &start);
    struct part *part = ADD_RECORD(gathering, parts);
    if (!part)
        return;
    *part = (struct part){ .name = name, .parent = outer, .tail = tail, .place = collect_place(gathering, title),
                           .tail_start = start, .first_line = gathering->lines_count, .is_bath = is_bath };
    if (is_bath)
        remember_bath(gathering, name, number);
    collecting->part = number;
    if (!node->has_body)
        collect_broken_line(collecting, node->keyword);
    collect_lines(collecting, node->body);
    gathering->parts[number].line_end = gathering->lines_count;
    collecting->part = outer;
}

void collect_follow(struct gathering *gathering, const struct node *node)
{
    const struct item *title = node->items.first;
    if (!title || title->kind != ITEM_STRING) {
        collect_misplaced(gathering, node, "recipe");
        return;
    }
    struct follow *follow = ADD_RECORD(gathering, follows);
    if (follow)
        *follow = (struct follow){ collect_keep(gathering, collect_written(gathering, title->span)),
                                   collect_place(gathering, title->span) };
}

static void reject_extra(struct collecting *collecting, const struct item *only)
{
    collect_reject(collecting, only ? only->next : NULL);
}

static bool has_number(const struct item *items)
{
    while (items && !items->quantity)
        items = items->next;
    return items != NULL;
}

/* Quoted words of a step or a note may tell how food is kept. */
static void hear_craft(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    for (const struct item *item = node->items.first; item; item = item->next) {
        if (item->kind == ITEM_STRING)
            collect_recipe_of(collecting)->crafts |= library_crafts(gathering->kitchen->stdlib, collect_written(gathering, item->span), false);
    }
}

/* A method holds steps in quotes; a line of food in it would not be counted. */
static void check_method(struct collecting *collecting, const struct node *body)
{
    for (; body; body = body->next) {
        bool step = body->kind == NODE_KNOWLEDGE && body->items.first && body->items.first->kind == ITEM_STRING
                 && !body->items.first->next && body->quantity.kind == QUANTITY_NONE && !body->has_body;
        if (step || body->kind == NODE_NOTE)
            hear_craft(collecting, body);
        if (step || body->kind == NODE_NOTE)
            continue;
        collect_misplaced(collecting->gathering, body, "method");
        collect_broken_line(collecting, body->span);
    }
}

bool collect_shared_statement(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    switch (node->kind) {
    case NODE_INGREDIENT:
        if (node->remembered)
            add_line_saying(collecting, node->span.start, node->remembered - 1);
        else
            collect_ingredient(collecting, node);
        return true;
    case NODE_KNOWLEDGE:
        if (!collect_expectation(collecting, node) && !collect_claiming(collecting, node))
            add_line_without_amount(collecting, node);
        return true;
    case NODE_BROKEN: collect_broken_line(collecting, node->span); return true;
    case NODE_FOLLOW:
        collect_follow(gathering, node);
        reject_extra(collecting, node->items.first);
        return true;
    case NODE_ALTERNATIVE: collect_not_computed(gathering, node, "an alternative"); return true;
    case NODE_REPLACE: collect_not_computed(gathering, node, "a replacement"); return true;
    case NODE_NOTE: hear_craft(collecting, node); reject_extra(collecting, node->items.first); return true;
    case NODE_SOURCE: reject_extra(collecting, node->items.first); return true;
    default: return false;
    }
}

static void collect_line(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    if (collect_shared_statement(collecting, node))
        return;
    switch (node->kind) {
    case NODE_PART:
    case NODE_BATH: add_part(collecting, node); break;
    case NODE_PORTION: collect_portion(collecting, node); break;
    case NODE_SERVES: collect_serves(collecting, node); break;
    case NODE_MAKES: collect_makes(collecting, node); break;
    case NODE_LIMIT:
    case NODE_GOAL:
        if (!collect_bound(gathering, node, BOUND_OF_RECIPE, NONE_INDEX) && has_number(node->unit.first))
            collect_broken_line(collecting, node->span);
        break;
    case NODE_CLAIM: collect_claim(gathering, node, "recipe"); break;
    case NODE_METHOD: check_method(collecting, node->body); break;
    default:
        collect_misplaced(gathering, node, "recipe");
        collect_broken_line(collecting, node->span);
    }
}

static void collect_lines(struct collecting *collecting, const struct node *body)
{
    for (; body; body = body->next)
        collect_line(collecting, body);
}

bool collect_begin(struct collecting *collecting, const struct node *node, struct text name, struct span title)
{
    struct gathering *gathering = collecting->gathering;
    struct recipe *recipe = ADD_RECORD(gathering, recipes);
    if (!recipe)
        return false;
    *recipe = (struct recipe){ .name = name, .file = gathering->file, .title = title, .whole = node->span,
                               .document = node->document, .yields = collect_no_yields(),
                               .first_line = gathering->lines_count, .first_bound = gathering->bounds_count,
                               .first_claim = gathering->claims_count,
                               .first_portion = gathering->portions_count, .first_follow = gathering->follows_count,
                               .first_part = gathering->parts_count, .first_expectation = gathering->expectations_count };
    collect_need_block(gathering, node);
    if (!node->has_body)
        collect_broken_line(collecting, node->keyword);
    return true;
}

void collect_end(struct collecting *collecting)
{
    struct gathering *gathering = collecting->gathering;
    struct recipe *recipe = collect_recipe_of(collecting);
    recipe->line_count = gathering->lines_count - recipe->first_line;
    recipe->bound_count = gathering->bounds_count - recipe->first_bound;
    recipe->claim_count = gathering->claims_count - recipe->first_claim;
    recipe->portion_count = gathering->portions_count - recipe->first_portion;
    recipe->follow_count = gathering->follows_count - recipe->first_follow;
    recipe->part_count = gathering->parts_count - recipe->first_part;
    recipe->expectation_count = gathering->expectations_count - recipe->first_expectation;
}

void collect_need_food(struct collecting *collecting, const struct node *node, uint32_t first_line)
{
    struct gathering *gathering = collecting->gathering;
    if (!node->has_body || gathering->lines_count > first_line)
        return;
    finding_add(&gathering->findings, FINDING_NO_FOOD, collect_place(gathering, node->keyword),
                GAPS(text_of(collect_node_word(node->kind))));
    collect_broken_line(collecting, node->keyword);
}

/* Whom the recipe is for. Other words behind its name or its block may have been meant for the food. */
static void take_person(struct collecting *collecting, const struct node *node)
{
    const struct item *name = node->items.first;
    bool says_more = name && name->kind == ITEM_STRING && (name->next || node->names.first);
    const struct eater *eater = collect_eater(collecting->gathering, node);
    collect_recipe_of(collecting)->eater = eater;
    if (says_more && !eater)
        collect_broken_line(collecting, node->keyword);
    if (node->phrases.first) {
        collect_refuse_phrase(collecting->gathering, node->phrases.first, "recipe");
        collect_broken_line(collecting, node->phrases.first->span);
    }
}

void collect_recipe(struct gathering *gathering, const struct node *node)
{
    struct collecting collecting = { gathering, gathering->recipes_count, NONE_INDEX, false, false };
    struct span title;
    struct text name = collect_title_of_person(gathering, node, &title);
    if (!collect_begin(&collecting, node, name, title))
        return;
    take_person(&collecting, node);
    collect_lines(&collecting, node->body);
    collect_need_food(&collecting, node, collect_recipe_of(&collecting)->first_line);
    collect_end(&collecting);
}

void collect_lost_line(struct gathering *gathering, struct span span)
{
    struct recipe *last = gathering->recipes_count ? &gathering->recipes[gathering->recipes_count - 1] : NULL;
    if (!last || last->file != gathering->file)
        return;
    struct collecting collecting = { gathering, gathering->recipes_count - 1, NONE_INDEX, true, true };
    collect_broken_line(&collecting, span);
    last->line_count = gathering->lines_count - last->first_line;
}

void collect_policy(struct gathering *gathering, const struct node *node)
{
    struct span title;
    struct text name = collect_title_of_person(gathering, node, &title);
    uint32_t first = gathering->bounds_count, first_claim = gathering->claims_count;
    bool variation = false;
    double spoon_error = 0;
    collect_need_block(gathering, node);
    struct packet_policy packets = { 0 };
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_LIMIT || at->kind == NODE_GOAL)
            collect_bound(gathering, at, BOUND_OF_POLICY, NONE_INDEX);
        else if (at->kind == NODE_CLAIM)
            collect_claim(gathering, at, "policy");
        else if (at->kind == NODE_REPLACE)
            collect_not_computed(gathering, at, "a replacement");
        else if (at->kind == NODE_KNOWLEDGE && text_is(collect_written(gathering, at->span), "variation"))
            variation = true;
        else if (collect_spoon_error(gathering, at, &spoon_error) || collect_packets(gathering, at, &packets))
            continue;
        else if (at->kind != NODE_NOTE && at->kind != NODE_SOURCE)
            collect_misplaced(gathering, at, "policy");
    }
    struct policy *policy = ADD_RECORD(gathering, policies);
    if (policy)
        *policy = (struct policy){ name, collect_place(gathering, title), collect_eater(gathering, node), first, gathering->bounds_count - first, first_claim,
                                    gathering->claims_count - first_claim, variation, spoon_error, packets };
}
