/* Makers of the syntax tree, and the parse that calls bison over one file. */
#include <math.h>
#include <string.h>

#include "text/tree.h"
#include "text/scan.h"

/* ---- spans and tokens --------------------------------------------------------------------------------- */

void tree_join_span(struct span *joined, const struct span *right, int count)
{
    int first = 1;
    while (first < count && right[first].start == right[first].end)
        first++;
    *joined = count ? (struct span){ right[first].start, right[count].end } : (struct span){ right[0].end, right[0].end };
    if (joined->end < joined->start)
        joined->end = joined->start;
}

struct text span_text(struct text text, struct span span)
{
    return (struct text){ text.bytes + span.start, span.end - span.start };
}

static const struct quantity *keep_quantity(struct parse *parse, struct quantity quantity)
{
    struct quantity *kept = arena_take(parse->arena, sizeof *kept);
    if (kept)
        *kept = quantity;
    return kept;
}

/* ---- items ---------------------------------------------------------------------------------------------- */

struct item *tree_item(struct parse *parse, enum item_kind kind, struct span span, const struct token *token)
{
    struct item *item = arena_take(parse->arena, sizeof *item);
    if (!item)
        return NULL;
    item->kind = kind;
    item->span = span;
    item->touches = token->touches;
    if (kind == ITEM_NUMBER)
        item->quantity = keep_quantity(parse, tree_number(span, token, token, parse->text.bytes[span.end - 1] == '%'));
    return kind == ITEM_NUMBER && !item->quantity ? NULL : item;
}

static uint32_t quote_length(const char *bytes)
{
    return *bytes == '"' ? 1 : 3;
}

/* The span of a string is what stands between its quotes. */
static struct span inside_quotes(struct parse *parse, struct span span)
{
    const char *bytes = parse->text.bytes;
    span.start += quote_length(bytes + span.start);
    if (span.end > span.start && bytes[span.end - 1] == '"')
        span.end--;
    else if (span.end >= span.start + 3 && memcmp(bytes + span.end - 3, "\xe2\x80", 2) == 0)
        span.end -= 3;
    return span;
}

struct item *tree_string(struct parse *parse, struct span span, const struct token *token)
{
    return tree_item(parse, ITEM_STRING, inside_quotes(parse, span), token);
}

struct item *tree_bath(struct parse *parse, struct span span, struct span name, const struct token *token)
{
    struct item *item = tree_item(parse, ITEM_BATH, span, token);
    if (item)
        item->inside = tree_string(parse, name, token);
    return item;
}

struct item *tree_group(struct parse *parse, struct span span, struct items inside)
{
    struct token none = { .start = span.start };
    struct item *item = tree_item(parse, ITEM_GROUP, span, &none);
    if (item)
        item->inside = inside.first;
    return item;
}

struct item *tree_range_item(struct parse *parse, struct span span, const struct token *low,
                             const struct token *high, bool is_percent)
{
    struct item *item = tree_item(parse, ITEM_RANGE, span, low ? low : high);
    if (item)
        item->quantity = keep_quantity(parse, tree_range(parse, span, low, high, is_percent));
    return item && item->quantity ? item : NULL;
}

struct items tree_first_item(struct item *item)
{
    return (struct items){ item, item };
}

struct items tree_add_item(struct items items, struct item *item)
{
    if (!item)
        return items;
    if (!items.first)
        return tree_first_item(item);
    items.last->next = item;
    items.last = item;
    return items;
}

struct items tree_join_items(struct items items, struct items more)
{
    if (!items.first || !more.first)
        return items.first ? items : more;
    items.last->next = more.first;
    items.last = more.last;
    return items;
}

struct phrases tree_add_phrase(struct parse *parse, struct phrases phrases, struct items items)
{
    struct phrase *phrase = items.first ? arena_take(parse->arena, sizeof *phrase) : NULL;
    if (!phrase)
        return phrases;
    phrase->items = items.first;
    phrase->span = (struct span){ items.first->span.start, items.last->span.end };
    if (phrases.last)
        phrases.last->next = phrase;
    else
        phrases.first = phrase;
    phrases.last = phrase;
    return phrases;
}

/* ---- quantities ------------------------------------------------------------------------------------------- */

struct quantity tree_number(struct span span, const struct token *low, const struct token *high, bool is_percent)
{
    struct quantity quantity = { .kind = QUANTITY_NUMBER, .is_percent = is_percent, .span = span,
                                 .low = low->value, .high = high->value };
    if (isnan(quantity.low) || isnan(quantity.high))
        quantity.kind = QUANTITY_BAD;
    return quantity;
}

/* `up to 3` has no low token: it is 0 to 3. `40 to 60%` means percent on both sides. */
struct quantity tree_range(struct parse *parse, struct span span, const struct token *low, const struct token *high,
                           bool is_percent)
{
    struct quantity quantity = tree_number(span, low ? low : high, high, is_percent);
    bool low_is_percent = low && parse->text.bytes[low->start + low->length - 1] == '%';
    if (quantity.kind == QUANTITY_BAD)
        return quantity;
    quantity.kind = QUANTITY_RANGE;
    quantity.low = !low ? 0 : is_percent && !low_is_percent ? low->value / 100 : low->value;
    if (amount_compare(quantity.low, quantity.high) > 0) {
        struct text text = span_text(parse->text, span);
        finding_add(parse->findings, FINDING_BACKWARD_RANGE, (struct place){ parse->file, span }, GAPS(text));
        quantity.kind = QUANTITY_BAD;
    }
    return quantity;
}

/* ---- nodes --------------------------------------------------------------------------------------------------- */

static struct node *make_node(struct parse *parse, enum node_kind kind, struct span span)
{
    struct node *node = arena_take(parse->arena, sizeof *node);
    if (!node)
        return NULL;
    node->kind = kind;
    node->span = span;
    return node;
}

static struct node *make_keyword_node(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                                      struct items items)
{
    struct node *node = make_node(parse, kind, span);
    if (!node)
        return NULL;
    node->keyword = keyword;
    node->items = items;
    return node;
}

struct nodes tree_add_node(struct nodes nodes, struct node *node)
{
    if (!node)
        return nodes;
    if (nodes.last)
        nodes.last->next = node;
    else
        nodes.first = node;
    while (node->next)
        node = node->next;
    nodes.last = node;
    return nodes;
}

struct nodes tree_add_broken(struct parse *parse, struct nodes nodes, struct span span)
{
    return tree_add_node(nodes, make_node(parse, NODE_BROKEN, span));
}

struct node *tree_head(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                       struct items head, struct phrases names)
{
    struct node *node = make_keyword_node(parse, kind, keyword, span, head);
    if (node)
        node->names = names;
    return node;
}

struct node *tree_block(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                        struct items head, struct phrases names, struct nodes body, struct phrases after)
{
    struct node *node = tree_head(parse, kind, keyword, span, head, names);
    if (!node)
        return NULL;
    tree_give_body(node, body);
    node->phrases = after;
    return node;
}

/* A block whose head a finding speaks of keeps its lines, so that they are checked, too. */
struct node *tree_broken_block(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                               struct nodes body, struct phrases after)
{
    struct node *broken = make_node(parse, NODE_BROKEN, keyword);
    struct node *node = tree_block(parse, kind, keyword, span, (struct items){ 0 }, (struct phrases){ 0 }, body, after);
    if (!node || !broken)
        return NULL;
    broken->next = node->body;
    node->body = broken;
    return node;
}

struct node *tree_replacement(struct parse *parse, struct span keyword, struct span span, struct items what, struct items by,
                              struct phrases phrases)
{
    struct node *node = make_keyword_node(parse, NODE_REPLACE, keyword, span, what);
    if (node) {
        node->unit = by;
        node->phrases = phrases;
    }
    return node;
}

struct node *tree_figure(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                         struct quantity quantity, struct items unit)
{
    struct node *node = make_keyword_node(parse, kind, keyword, span, (struct items){ 0 });
    if (!node)
        return NULL;
    node->quantity = quantity;
    node->unit = unit;
    return node;
}

struct node *tree_per(struct parse *parse, struct span keyword, struct span span, struct quantity quantity,
                      struct items unit, struct nodes body)
{
    struct node *node = tree_figure(parse, NODE_PER, keyword, span, quantity, unit);
    tree_give_body(node, body);
    return node;
}

struct node *tree_alternatives(struct parse *parse, struct span span, struct nodes alternatives)
{
    struct node *node = make_node(parse, NODE_ALTERNATIVE, span);
    if (node)
        node->body = alternatives.first;
    return node;
}

struct node *tree_ingredient(struct parse *parse, struct span span, struct quantity quantity, struct items items,
                             struct phrases phrases)
{
    struct node *node = make_node(parse, NODE_INGREDIENT, span);
    if (!node)
        return NULL;
    node->quantity = quantity;
    node->items = items;
    node->phrases = phrases;
    return node;
}

struct node *tree_remembered(struct parse *parse, const struct token *token)
{
    struct nodes nodes = { NULL, NULL };
    const struct recalled_line *line = &parse->recalled[(uint32_t)token->value];
    for (;; line++) {
        struct node *node = make_node(parse, NODE_INGREDIENT, line->span);
        if (node)
            node->remembered = line->number + 1;
        nodes = tree_add_node(nodes, node);
        if (line->is_last)
            return nodes.first;
    }
}

struct node *tree_portion(struct parse *parse, struct span span, struct quantity of, struct items items,
                          struct quantity is, struct items unit)
{
    struct node *node = tree_ingredient(parse, span, of, items, (struct phrases){ 0 });
    if (!node)
        return NULL;
    node->kind = NODE_PORTION;
    tree_give_second(node, is, unit);
    return node;
}

struct node *tree_bound(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                        struct items items, enum comparison comparison, struct quantity quantity, struct items unit)
{
    struct node *node = make_keyword_node(parse, kind, keyword, span, items);
    if (!node)
        return NULL;
    node->comparison = comparison;
    node->quantity = quantity;
    node->unit = unit;
    return node;
}

struct node *tree_between(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                          struct items items, struct quantity low, struct items low_unit, struct quantity high,
                          struct items high_unit)
{
    struct node *node = tree_bound(parse, kind, keyword, span, items, COMPARE_BETWEEN, low,
                                   low_unit.first ? low_unit : high_unit);
    if (node)
        node->second = high;
    return node;
}

void tree_bound_per(struct node *node, struct items per)
{
    if (node)
        node->per = per;
}

struct node *tree_knowledge(struct parse *parse, struct span span, struct items words, struct quantity quantity,
                            struct items unit, struct phrases phrases)
{
    struct node *node = make_node(parse, NODE_KNOWLEDGE, span);
    if (!node)
        return NULL;
    node->items = words;
    node->quantity = quantity;
    node->unit = unit;
    node->phrases = phrases;
    return node;
}

void tree_give_body(struct node *node, struct nodes body)
{
    if (!node)
        return;
    node->has_body = true;
    node->body = body.first;
}

void tree_give_second(struct node *node, struct quantity quantity, struct items unit)
{
    if (!node)
        return;
    node->second = quantity;
    node->unit = node->kind == NODE_PORTION ? unit : node->unit;
    node->per = unit;
}

/* ---- findings ---------------------------------------------------------------------------------------------------- */

static struct text shorten(struct text text)
{
    if (text.length > 40)
        text.length = 40;
    while (text.length > 0 && (text.bytes[text.length - 1] & 0xc0) == 0x80)
        text.length--;
    return text;
}

static void print_expected(char *words, size_t size, const char *const *expected, uint32_t count)
{
    size_t used = 0;
    words[0] = '\0';
    for (uint32_t i = 0; i < count && used < size; i++) {
        const char *joint = i == 0 ? "" : i + 1 == count ? " or " : ", ";
        int length = snprintf(words + used, size - used, "%s%s", joint, expected[i]);
        used += length > 0 ? (size_t)length : 0;
    }
}

void tree_syntax_finding(struct parse *parse, struct span span, const char *const *expected, uint32_t count)
{
    char words[256];
    struct text found = shorten(span_text(parse->text, span));
    struct place place = { parse->file, span };
    print_expected(words, sizeof words, expected, count);
    bool at_end = found.length == 0 || *found.bytes == '\n' || *found.bytes == '\r' || *found.bytes == ';';
    if (at_end) {
        place.span.end = place.span.start;
        finding_add(parse->findings, count ? FINDING_SYNTAX_END : FINDING_SYNTAX_END_OPEN, place, GAPS(text_of(words)));
    } else {
        finding_add(parse->findings, count ? FINDING_SYNTAX : FINDING_SYNTAX_OPEN, place, GAPS(found, text_of(words)));
    }
}
