/* The top of a file: recipes and policies are collected, knowledge is kept until all files are read, and what steers
 * the whole kitchen is noted. */
#include <string.h>

#include "model/collect.h"

struct text collect_written(const struct gathering *gathering, struct span span)
{
    return span_text(gathering->parse.text, span);
}

struct place collect_place(const struct gathering *gathering, struct span span)
{
    return (struct place){ gathering->file, span };
}

struct text collect_keep(struct gathering *gathering, struct text text)
{
    return (struct text){ arena_copy(&gathering->arena, text.bytes, text.length), text.length };
}


const char *collect_node_word(enum node_kind kind)
{
    static const char *const words[NODE_COUNT] = {
#define KEYWORD(symbol, word, needs, opens) [NODE_##symbol] = word,
#include "text/keywords.def"
#undef KEYWORD
    };
    return words[kind] ? words[kind] : "line";
}

static struct text shorten(struct text text)
{
    uint32_t length = 0;
    while (length < text.length && length < 48 && text.bytes[length] != '\n' && text.bytes[length] != '{')
        length++;
    while (length > 0 && (text.bytes[length - 1] == ' ' || (text.bytes[length - 1] & 0xc0) == 0x80))
        length--;
    return (struct text){ text.bytes, length };
}

void collect_misplaced(struct gathering *gathering, const struct node *node, const char *where)
{
    if (node->kind == NODE_BROKEN)
        return;
    struct span span = node->keyword.end ? node->keyword : node->span;
    struct text text = shorten(collect_written(gathering, span));
    span.end = span.start + text.length;
    finding_add(&gathering->findings, FINDING_MISPLACED, collect_place(gathering, span), GAPS(text, text_of(where)));
}

/* What is not computed but touches no sum. */
void collect_not_computed(struct gathering *gathering, const struct node *node, const char *what)
{
    struct span span = node->keyword.end ? node->keyword : node->span;
    finding_add(&gathering->findings, node->kind == NODE_BATH ? FINDING_NOT_COMPUTED_YET : FINDING_NOT_COMPUTED_ASIDE, collect_place(gathering, span), GAPS(text_of(what)));
}

static void report_bad_title(struct gathering *gathering, const struct node *node, const struct item *after)
{
    struct text kind = text_of(collect_node_word(node->kind));
    if (after)
        finding_add(&gathering->findings, FINDING_MISPLACED, collect_place(gathering, after->span),
                    GAPS(collect_written(gathering, after->span), text_of("title")));
    else if (!node->body || node->body->kind != NODE_BROKEN)
        finding_add(&gathering->findings, FINDING_MISSING_TITLE, collect_place(gathering, node->keyword), GAPS(kind));
}

struct text collect_unquoted_title(struct gathering *gathering, enum node_kind kind, struct span span)
{
    struct text name = collect_written(gathering, span);
    if (name.length > 2 && name.bytes[0] == '\'' && name.bytes[name.length - 1] == '\'')
        name = (struct text){ name.bytes + 1, name.length - 2 };       /* `'Bean salad'` is the wrong sort of quotes */
    struct place place = collect_place(gathering, span);
    struct finding *finding = finding_add(&gathering->findings, FINDING_UNQUOTED_TITLE, place,
                                          GAPS(text_of(collect_node_word(kind)), name));
    char *quoted = arena_print(&gathering->arena, "\"%.*s\"", (int)name.length, name.bytes);
    if (quoted)
        finding_fix(&gathering->findings, finding, place, text_of(quoted), WORDS_FIX_WRITE, GAPS(text_of(quoted)));
    return collect_keep(gathering, name);
}

/* The quoted name of a block; words without quotes are a finding and are taken as the name. */
struct text collect_title(struct gathering *gathering, const struct node *node, struct span *span)
{
    const struct item *first = node->items.first;
    *span = first ? first->span : node->keyword;
    if (first && first->kind != ITEM_STRING) {
        span->end = node->items.last->span.end;
        return collect_unquoted_title(gathering, node->kind, *span);
    }
    bool named = first && first->span.end > first->span.start;
    if (!named || first->next)
        report_bad_title(gathering, node, named ? first->next : NULL);
    return named ? collect_keep(gathering, collect_written(gathering, first->span)) : text_of("");
}

/* ---- the top of a file ---- */

/* Knowledge keeps its tree and a copy of its file until all files are read. */
static bool keep_declaration(struct gathering *gathering, struct node *node)
{
    struct declaration *declaration = arena_take(&gathering->arena, sizeof *declaration);
    if (!gathering->kept_text.bytes)
        gathering->kept_text = collect_keep(gathering, gathering->parse.text);
    if (!declaration || !gathering->kept_text.bytes)
        return false;
    *declaration = (struct declaration){ node, gathering->kept_text, gathering->file, NULL };
    *gathering->declarations_end = declaration;
    gathering->declarations_end = &declaration->next;
    return true;
}

static void add_to_list(struct gathering *gathering, struct follow **list, uint32_t *count, uint32_t *capacity,
                        struct span span)
{
    struct kitchen *kitchen = gathering->kitchen;
    if (!array_grow(&kitchen->allocator, list, *count, capacity, sizeof **list)) {
        gathering->failed = true;
        return;
    }
    (*list)[(*count)++] = (struct follow){ collect_keep(gathering, collect_written(gathering, span)), collect_place(gathering, span) };
}

/* `follow rules us`, `follow "Heart group"`. */
static void follow_in_kitchen(struct gathering *gathering, const struct node *node)
{
    struct kitchen *kitchen = gathering->kitchen;
    const struct item *first = node->items.first;
    if (first && first->kind == ITEM_STRING) {
        add_to_list(gathering, &kitchen->follows, &kitchen->follows_count, &kitchen->follows_capacity, first->span);
    } else if (first && first->next && text_is(collect_written(gathering, first->span), "rules")) {
        struct span span = { first->next->span.start, node->items.last->span.end };
        struct text written = collect_written(gathering, span);
        if (kitchen->rules_said && text_equal(written, kitchen->rules_name)) {
            finding_add(&gathering->findings, FINDING_REPEATED_STATEMENT, collect_place(gathering, span), GAPS(written));
            return;
        }
        if (kitchen->rules_said) {
            struct finding *finding = finding_add(&gathering->findings, FINDING_RULES_TWICE, collect_place(gathering, span),
                                                  GAPS(written, kitchen->rules_name));
            finding_label(&gathering->findings, finding, kitchen->rules_place, WORDS_RULES_IN_FORCE, GAPS(kitchen->rules_name));
            return;
        }
        kitchen->rules_name = collect_keep(gathering, written);
        kitchen->rules_place = collect_place(gathering, span);
        kitchen->rules_said = true;
    } else {
        collect_misplaced(gathering, node, "kitchen");
    }
}

/* These steer the whole kitchen: they stand in kitchen.quern, or in a file on its own. */
static void collect_kitchen(struct gathering *gathering, const struct node *node)
{
    struct kitchen *kitchen = gathering->kitchen;
    const struct kitchen_file *file = &kitchen->files[gathering->file];
    struct span title;
    if (file->is_used)
        return;                             /* another kitchen's own affair */
    if (kitchen->root && !file->is_kitchen) {
        finding_add(&gathering->findings, FINDING_KITCHEN_STATEMENT, collect_place(gathering, node->keyword),
                    GAPS(text_of(collect_node_word(node->kind))));
        return;
    }
    if (node->kind == NODE_FOLLOW) {
        follow_in_kitchen(gathering, node);
        return;
    }
    struct text name = collect_title(gathering, node, &title);
    if (node->kind == NODE_KITCHEN && kitchen->name.length)
        finding_add(&gathering->findings, FINDING_REPEATED_STATEMENT, collect_place(gathering, node->span), GAPS(text_of("kitchen")));
    else if (node->kind == NODE_KITCHEN)
        kitchen->name = name;
    else if (name.length)
        add_to_list(gathering, &kitchen->uses, &kitchen->uses_count, &kitchen->uses_capacity, title);
}

/* Said at the first of a run of such lines: a card without its frame is one mistake. */
static void collect_loose_line(struct gathering *gathering, const struct node *node)
{
    collect_lost_line(gathering, node->span);
    if (node->kind == NODE_BROKEN || gathering->in_loose_lines)
        return;
    struct span span = node->keyword.end ? node->keyword : node->span;
    struct text text = shorten(collect_written(gathering, span));
    span.end = span.start + text.length;
    finding_add(&gathering->findings, FINDING_LOOSE_LINE, collect_place(gathering, span), GAPS(text));
    gathering->in_loose_lines = true;
}

bool collect_declaration(void *context, struct node *node)
{
    struct gathering *gathering = context;
    bool in_loose_lines = gathering->in_loose_lines;
    gathering->in_loose_lines = false;
    if (library_takes(gathering->parse.text, node))
        return keep_declaration(gathering, node);
    switch (node->kind) {
    case NODE_RECIPE: collect_recipe(gathering, node); break;
    case NODE_POLICY: collect_policy(gathering, node); break;
    case NODE_DAY: collect_day(gathering, node); break;
    case NODE_WEEK: collect_week(gathering, node); break;
    case NODE_TAPER: collect_not_computed(gathering, node, "a taper"); break;
    case NODE_KITCHEN:
    case NODE_USE:
    case NODE_FOLLOW: collect_kitchen(gathering, node); break;
    case NODE_SOURCE:
    case NODE_NOTE: break;
    default:
        gathering->in_loose_lines = in_loose_lines;
        collect_loose_line(gathering, node);
    }
    return false;
}
