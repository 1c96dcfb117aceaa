/* The top of a file: recipes and policies are collected, knowledge is kept until all files are read, and what steers
 * the whole kitchen is noted. */
#include <string.h>

#include "model/collect.h"

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
        kitchen->rules_name = collect_keep(gathering, collect_written(gathering, span));
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
    if (node->kind == NODE_KITCHEN)
        kitchen->name = name;
    else if (name.length)
        add_to_list(gathering, &kitchen->uses, &kitchen->uses_count, &kitchen->uses_capacity, title);
}

bool collect_declaration(void *context, struct node *node)
{
    struct gathering *gathering = context;
    if (library_takes(gathering->parse.text, node))
        return keep_declaration(gathering, node);
    switch (node->kind) {
    case NODE_RECIPE: collect_recipe(gathering, node); break;
    case NODE_POLICY: collect_policy(gathering, node); break;
    case NODE_DAY: collect_not_computed(gathering, node, "a day"); break;
    case NODE_TAPER: collect_not_computed(gathering, node, "a taper"); break;
    case NODE_KITCHEN:
    case NODE_USE:
    case NODE_FOLLOW: collect_kitchen(gathering, node); break;
    case NODE_SOURCE:
    case NODE_NOTE: break;
    default:
        collect_misplaced(gathering, node, "file outside a recipe");
        collect_lost_line(gathering, node->span);
    }
    return false;
}
