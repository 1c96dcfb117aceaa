/* The first pass: from the tree of one declaration to compact records. What may stand where is decided here;
 * names are not looked up yet, since the file that declares them may come later. */
#include <string.h>

#include "model/collect.h"

/* ---- small things ------------------------------------------------------------------------------------------------ */

static void *record_failed(struct gathering *gathering)
{
    gathering->failed = true;
    return NULL;
}

/* Appends a zeroed record; NULL when memory failed. */
#define ADD_RECORD(gathering, name) (array_grow(&(gathering)->kitchen->allocator, &(gathering)->name,           \
                                                (gathering)->name##_count, &(gathering)->name##_capacity,       \
                                                sizeof *(gathering)->name)                                      \
    ? memset(&(gathering)->name[(gathering)->name##_count++], 0, sizeof *(gathering)->name)                     \
    : record_failed(gathering))

static void need_block(struct gathering *gathering, const struct node *node)
{
    if (!node->has_body)
        finding_add(&gathering->findings, FINDING_MISSING_BLOCK, collect_place(gathering, node->keyword),
                    GAPS(text_of(collect_node_word(node->kind))));
}

/* ---- lines --------------------------------------------------------------------------------------------------------- */

struct collecting {
    struct gathering *gathering;
    uint32_t recipe;            /* number; records may move while they grow */
    uint32_t part;
    bool said_serves, said_makes;
};

static struct recipe *recipe_of(const struct collecting *collecting)
{
    return &collecting->gathering->recipes[collecting->recipe];
}

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

static void add_broken_line(struct collecting *collecting, struct span span)
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
    bool plain = node->quantity.kind == QUANTITY_NUMBER || node->quantity.kind == QUANTITY_RANGE;
    if (plain && saying->tail != NONE_INDEX)
        line_memory_add(&gathering->memory, collect_written(gathering, node->span), gathering->sayings_count - 1);
}

static void add_ingredient(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    struct span span = whole_tail(gathering, node);
    bool is_measured = node->quantity.kind != QUANTITY_SOME && node->quantity.kind != QUANTITY_BAD;
    const struct item *items = node->items.first;
    if (node->quantity.kind == QUANTITY_BLANK && items->kind == ITEM_GROUP && items->next)
        items = items->next;                            /* `? (up to 1) tsp`: what bounds the blank is no remark */
    uint32_t tail = gathering_tail(gathering, span, is_measured, items, node->phrases.first);
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
        add_broken_line(collecting, node->span);
        return;
    }
    collect_missing_amount(gathering, node, place, name);
    if (node->quantity.kind != QUANTITY_NONE) {
        add_broken_line(collecting, node->span);
        return;
    }
    struct node some = *node;
    some.quantity = (struct quantity){ .kind = QUANTITY_SOME, .span = { span.start, span.start } };
    add_ingredient(collecting, &some);
    flag_last_line(gathering, LINE_WITHOUT_AMOUNT);
}

/* What stands behind the one thing that a statement holds would be lost: it is a finding, and the recipe lacks it. */
static void reject(struct collecting *collecting, const struct item *extra)
{
    struct gathering *gathering = collecting->gathering;
    if (!extra)
        return;
    finding_add(&gathering->findings, FINDING_EXTRA_WORDS, collect_place(gathering, extra->span),
                GAPS(collect_written(gathering, extra->span)));
    add_broken_line(collecting, extra->span);
}

/* ---- servings and yields -------------------------------------------------------------------------------------------- */

static bool is_once(struct gathering *gathering, const struct node *node, bool *said)
{
    if (*said)
        finding_add(&gathering->findings, FINDING_REPEATED_STATEMENT, collect_place(gathering, node->keyword),
                    GAPS(text_of(collect_node_word(node->kind))));
    bool first = !*said;
    *said = true;
    return first;
}

static bool is_positive(struct gathering *gathering, const struct node *node)
{
    bool good = (node->quantity.kind == QUANTITY_NUMBER || node->quantity.kind == QUANTITY_RANGE)
             && node->quantity.low > 0 && !node->quantity.is_percent;
    if (!good && node->quantity.kind != QUANTITY_BAD)
        finding_add(&gathering->findings, FINDING_BAD_SERVINGS, collect_place(gathering, node->quantity.span), NO_GAPS);
    return good;
}

static const struct yields nothing_said;

static void set_yields(struct collecting *collecting, const struct yields *yields)
{
    struct gathering *gathering = collecting->gathering;
    struct yields *kept = arena_take(&gathering->arena, sizeof *kept);
    if (!kept)
        return;
    *kept = *yields;
    recipe_of(collecting)->yields = kept;
}

/* The amount with its unit in grams or millilitres; false when the unit is neither. */
static bool read_measure(struct gathering *gathering, double low, double high, struct text unit_words,
                         struct range *grams, struct range *ml)
{
    char key[KEY_BYTES];
    const struct unit *unit = library_unit(gathering->kitchen->stdlib,
                                           (struct text){ key, name_key_of(unit_words, false, key) }, NULL);
    if (!unit || (unit->dimension != DIMENSION_MASS && unit->dimension != DIMENSION_VOLUME))
        return false;
    struct range amount = range_multiply(range_between(low, high), unit->factor);
    *(unit->dimension == DIMENSION_MASS ? grams : ml) = amount;
    return true;
}

/* The item behind the leading words. */
static const struct item *behind_words(const struct item *first)
{
    while (first && first->kind == ITEM_WORD)
        first = first->next;
    return first;
}

static struct text words_text(struct gathering *gathering, const struct item *first)
{
    const struct item *last = first;
    if (!first)
        return (struct text){ "", 0 };
    while (last->next && last->next->kind == ITEM_WORD)
        last = last->next;
    return collect_written(gathering, (struct span){ first->span.start, last->span.end });
}

/* `serves 4 people`: only the number counts. */
static bool names_eaters(struct gathering *gathering, const struct item *item)
{
    static const char *const words[] = { "people", "persons", "person", "servings", "serving", "portions" };
    for (uint32_t i = 0; item && i < COUNT_OF(words); i++) {
        if (text_is(collect_written(gathering, item->span), words[i]))
            return true;
    }
    return false;
}

/* `of 1 1/2 cups`. */
static void take_serving_size(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    const struct item *of = names_eaters(gathering, node->unit.first) ? node->unit.first->next : node->unit.first;
    const struct item *number = of ? of->next : NULL;
    struct yields yields = *recipe_of(collecting)->yields;
    if (!of)
        return;
    bool good = text_is(collect_written(gathering, of->span), "of") && number && number->next
             && (number->kind == ITEM_NUMBER || number->kind == ITEM_RANGE) && number->quantity->low > 0;
    struct text unit = good ? words_text(gathering, number->next) : text_of("");
    if (good && read_measure(gathering, number->quantity->low, number->quantity->high, unit, &yields.serving_grams,
                             &yields.serving_ml)) {
        set_yields(collecting, &yields);
        return;
    }
    finding_add(&gathering->findings, FINDING_SERVING_SIZE, collect_place(gathering, of->span), NO_GAPS);
    add_broken_line(collecting, of->span);
}

static void add_serves(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    if (!is_once(gathering, node, &collecting->said_serves) || !is_positive(gathering, node))
        return;
    recipe_of(collecting)->serves = range_between(node->quantity.low, node->quantity.high);
    take_serving_size(collecting, node);
}

/* `makes 900 g`, `makes 6 cups`, `makes 12 muffins`: pieces become portions of the batch. */
static void add_makes(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    struct text unit = words_text(gathering, node->unit.first);
    struct yields yields = *recipe_of(collecting)->yields;
    char key[KEY_BYTES];
    if (!is_once(gathering, node, &collecting->said_makes) || !is_positive(gathering, node))
        return;
    reject(collecting, behind_words(node->unit.first));
    if (read_measure(gathering, node->quantity.low, node->quantity.high, unit, &yields.makes_grams, &yields.makes_ml)) {
        set_yields(collecting, &yields);
        return;
    }
    uint32_t length = name_key_of(unit, false, key);
    struct recipe_portion *portion = length ? ADD_RECORD(gathering, portions) : NULL;
    if (!portion) {
        finding_add(&gathering->findings, FINDING_SERVING_SIZE, collect_place(gathering, node->quantity.span), NO_GAPS);
        return;
    }
    portion->key = collect_keep(gathering, (struct text){ key, length });
    portion->batch = range_of(1 / node->quantity.high, 2 / (node->quantity.low + node->quantity.high), 1 / node->quantity.low);
}

/* `1 slice = 1/16`, `1 slice = 45 g`. */
static void add_portion(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    struct text unit = words_text(gathering, node->unit.first);
    struct range grams = range_exact(0), ml = range_exact(0), batch = range_exact(0);
    char key[KEY_BYTES];
    uint32_t length = name_key_of(words_text(gathering, node->items.first), false, key);
    double low = node->second.low / node->quantity.high, high = node->second.high / node->quantity.low;
    bool good = length > 0 && node->quantity.low > 0 && node->second.low > 0;
    if (good && unit.length)
        good = read_measure(gathering, low, high, unit, &grams, &ml) && grams.high > 0;
    else
        batch = range_between(low, high);
    reject(collecting, behind_words(node->unit.first));
    if (!good) {
        finding_add(&gathering->findings, FINDING_SERVING_SIZE, collect_place(gathering, node->span), NO_GAPS);
        return;
    }
    struct recipe_portion *portion = ADD_RECORD(gathering, portions);
    if (portion)
        *portion = (struct recipe_portion){ collect_keep(gathering, (struct text){ key, length }), batch, grams };
}

/* ---- statements of a recipe -------------------------------------------------------------------------------------------- */

static void collect_lines(struct collecting *collecting, const struct node *body);

static void add_part(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    struct span title, span = { 0, 0 };
    struct text name = collect_title(gathering, node, &title);
    uint32_t number = gathering->parts_count, outer = collecting->part, tail = NONE_INDEX;
    need_block(gathering, node);
    const struct phrases *done = node->phrases.first ? &node->phrases : &node->names;   /* behind the block, or before it */
    if (done->first) {
        span = (struct span){ done->first->span.start, done->last->span.end };
        tail = gathering_tail(gathering, span, true, NULL, done->first);
    }
    if (node->phrases.first && node->names.first)
        finding_add(&gathering->findings, FINDING_MISPLACED, collect_place(gathering, node->names.first->span),
                    GAPS(collect_written(gathering, node->names.first->span), text_of("part that says behind its block what is done")));
    struct part *part = ADD_RECORD(gathering, parts);
    if (!part)
        return;
    *part = (struct part){ name, outer, tail, collect_place(gathering, title), span.start };
    collecting->part = number;
    collect_lines(collecting, node->body);
    collecting->part = outer;
}

static void add_follow(struct gathering *gathering, const struct node *node)
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

/* A bath gives and takes salt: until that is computed, the whole recipe is incomplete. */
static void add_bath(struct collecting *collecting, const struct node *node)
{
    collect_not_computed(collecting->gathering, node, "a bath");
    recipe_of(collecting)->incomplete = true;
    add_broken_line(collecting, node->keyword);
    flag_last_line(collecting->gathering, LINE_NOT_COMPUTED);
}

static void reject_extra(struct collecting *collecting, const struct item *only)
{
    reject(collecting, only ? only->next : NULL);
}

static bool has_number(const struct item *items)
{
    while (items && !items->quantity)
        items = items->next;
    return items != NULL;
}

/* A method holds steps in quotes; a line of food in it would not be counted. */
static void check_method(struct collecting *collecting, const struct node *body)
{
    for (; body; body = body->next) {
        bool step = body->kind == NODE_KNOWLEDGE && body->items.first && body->items.first->kind == ITEM_STRING
                 && !body->items.first->next && body->quantity.kind == QUANTITY_NONE && !body->has_body;
        if (step || body->kind == NODE_NOTE)
            continue;
        collect_misplaced(collecting->gathering, body, "method");
        add_broken_line(collecting, body->span);
    }
}

static void collect_line(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    switch (node->kind) {
    case NODE_INGREDIENT:
        if (node->remembered)
            add_line_saying(collecting, node->span.start, node->remembered - 1);
        else
            add_ingredient(collecting, node);
        break;
    case NODE_KNOWLEDGE: add_line_without_amount(collecting, node); break;
    case NODE_BROKEN: add_broken_line(collecting, node->span); break;
    case NODE_PART: add_part(collecting, node); break;
    case NODE_BATH: add_bath(collecting, node); break;
    case NODE_PORTION: add_portion(collecting, node); break;
    case NODE_SERVES: add_serves(collecting, node); break;
    case NODE_MAKES: add_makes(collecting, node); break;
    case NODE_LIMIT:
    case NODE_AIM:
        if (!collect_bound(gathering, node) && has_number(node->unit.first))
            add_broken_line(collecting, node->span);
        break;
    case NODE_FOLLOW:
        add_follow(gathering, node);
        reject_extra(collecting, node->items.first);
        break;
    case NODE_ALTERNATIVE: collect_not_computed(gathering, node, "an alternative"); break;
    case NODE_CLAIM:
        collect_not_computed(gathering, node, "a claim");
        reject_extra(collecting, node->items.first);
        break;
    case NODE_SWAP: collect_not_computed(gathering, node, "a swap"); break;
    case NODE_NOTE:
    case NODE_SOURCE: reject_extra(collecting, node->items.first); break;
    case NODE_METHOD: check_method(collecting, node->body); break;
    default:
        collect_misplaced(gathering, node, "recipe");
        add_broken_line(collecting, node->span);
    }
}

static void collect_lines(struct collecting *collecting, const struct node *body)
{
    for (; body; body = body->next)
        collect_line(collecting, body);
}

void collect_recipe(struct gathering *gathering, const struct node *node)
{
    struct collecting collecting = { gathering, gathering->recipes_count, NONE_INDEX, false, false };
    struct span title;
    struct text name = collect_title(gathering, node, &title);
    struct recipe *recipe = ADD_RECORD(gathering, recipes);
    if (!recipe)
        return;
    *recipe = (struct recipe){ .name = name, .file = gathering->file, .title = title, .whole = node->span,
                               .document = node->document, .yields = &nothing_said,
                               .first_line = gathering->lines_count, .first_bound = gathering->bounds_count,
                               .first_portion = gathering->portions_count, .first_follow = gathering->follows_count };
    need_block(gathering, node);
    if (!node->has_body)
        add_broken_line(&collecting, node->keyword);
    collect_lines(&collecting, node->body);
    recipe = recipe_of(&collecting);
    recipe->line_count = gathering->lines_count - recipe->first_line;
    recipe->bound_count = gathering->bounds_count - recipe->first_bound;
    recipe->portion_count = gathering->portions_count - recipe->first_portion;
    recipe->follow_count = gathering->follows_count - recipe->first_follow;
}

void collect_lost_line(struct gathering *gathering, struct span span)
{
    struct recipe *last = gathering->recipes_count ? &gathering->recipes[gathering->recipes_count - 1] : NULL;
    if (!last || last->file != gathering->file)
        return;
    struct collecting collecting = { gathering, gathering->recipes_count - 1, NONE_INDEX, true, true };
    add_broken_line(&collecting, span);
    last->line_count = gathering->lines_count - last->first_line;
}

void collect_policy(struct gathering *gathering, const struct node *node)
{
    struct span title;
    struct text name = collect_title(gathering, node, &title);
    uint32_t first = gathering->bounds_count;
    bool variation = false;
    double spoon_error = 0;
    need_block(gathering, node);
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_LIMIT || at->kind == NODE_AIM)
            collect_bound(gathering, at);
        else if (at->kind == NODE_SWAP || at->kind == NODE_CLAIM)
            collect_not_computed(gathering, at, at->kind == NODE_SWAP ? "a swap" : "a claim");
        else if (at->kind == NODE_KNOWLEDGE && text_is(collect_written(gathering, at->span), "variation"))
            variation = true;
        else if (collect_spoon_error(gathering, at, &spoon_error))
            continue;
        else if (at->kind != NODE_NOTE && at->kind != NODE_SOURCE)
            collect_misplaced(gathering, at, "policy");
    }
    struct policy *policy = ADD_RECORD(gathering, policies);
    if (policy)
        *policy = (struct policy){ name, collect_place(gathering, title), first, gathering->bounds_count - first, variation, spoon_error };
}
