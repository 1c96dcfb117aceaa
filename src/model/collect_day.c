/* Days and weeks. A day is a record like a recipe's: its meals are parts, its lines are lines, and whoever resolves,
 * adds up and judges recipes does so with days. What it lacks are servings; what it has is who eats it. */
#include "model/collect.h"

/* ---- lines ------------------------------------------------------------------------------------------------------ */

/* A measure alone, as in `eats 2 servings`, names nothing. */
static bool is_measure(const struct gathering *gathering, const struct item *item)
{
    char key[KEY_BYTES];
    struct text word = { key, name_key_of(collect_written(gathering, item->span), false, key) };
    return item->kind == ITEM_WORD && (text_is(word, "serving") || library_unit(gathering->kitchen->stdlib, word, NULL));
}

/* What is eaten, as a line without the word in front; items is empty where it does not say. */
static struct node eaten_line(const struct gathering *gathering, const struct node *node)
{
    struct node line = *node;
    const struct item *second = node->items.first->next;
    line.kind = NODE_INGREDIENT;
    line.items = node->unit;
    if (node->quantity.kind == QUANTITY_NONE) {
        line.quantity = (struct quantity){ .kind = QUANTITY_SOME, .span = second->span };
        line.items = (struct items){ (struct item *)second->next, node->items.last };
    }
    if (line.items.first && !line.items.first->next && is_measure(gathering, line.items.first))
        line.items.first = NULL;
    return line;
}

/* `eats 2 servings "Soup"` is the line behind its first word; false where the statement is another. */
static bool take_eats(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    const struct item *first = node->kind == NODE_KNOWLEDGE ? node->items.first : NULL;
    if (!first || first->kind != ITEM_WORD || node->has_body || !text_is(collect_written(gathering, first->span), "eats"))
        return false;
    bool some = first->next && text_is(collect_written(gathering, first->next->span), "some");
    if (node->quantity.kind == QUANTITY_NONE ? !some : first->next != NULL)
        return false;
    struct node line = eaten_line(gathering, node);
    if (line.items.first) {
        collect_ingredient(collecting, &line);
        return true;
    }
    finding_add(&gathering->findings, FINDING_EATS_WHAT, collect_place(gathering, node->span), NO_GAPS);
    collect_broken_line(collecting, node->span);
    return true;
}

static void take_bound(struct collecting *collecting, const struct node *node)
{
    bool in_meal = collecting->part != NONE_INDEX;
    collect_bound(collecting->gathering, node, in_meal ? BOUND_OF_MEAL : BOUND_OF_DAY, collecting->part);
}

static void collect_meal(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    struct span title;
    struct text name = collect_title(gathering, node, &title);
    uint32_t number = gathering->parts_count, first = gathering->lines_count;
    const struct phrase *phrase = node->phrases.first ? node->phrases.first : node->names.first;
    collect_need_block(gathering, node);
    struct part *part = ADD_RECORD(gathering, parts);
    if (!part)
        return;
    *part = (struct part){ .name = name, .parent = NONE_INDEX, .tail = NONE_INDEX, .place = collect_place(gathering, title),
                           .first_line = first, .is_meal = true };
    collecting->part = number;
    if (phrase) {
        collect_refuse_phrase(gathering, phrase, "meal");
        collect_broken_line(collecting, phrase->span);
    }
    if (!node->has_body)
        collect_broken_line(collecting, node->keyword);
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_LIMIT || at->kind == NODE_GOAL)
            take_bound(collecting, at);
        else if (at->kind == NODE_FOLLOW)               /* it would hold for the day */
            collect_misplaced(gathering, at, "meal");
        else if (take_eats(collecting, at) || collect_claim_in_day(gathering, at) || collect_shared_statement(collecting, at))
            continue;
        else {
            collect_misplaced(gathering, at, "meal");
            collect_broken_line(collecting, at->span);
        }
    }
    collect_need_food(collecting, node, first);
    gathering->parts[number].line_end = gathering->lines_count;
    collecting->part = NONE_INDEX;
}

static void collect_day_statement(struct collecting *collecting, const struct node *node)
{
    if (node->kind == NODE_MEAL)
        collect_meal(collecting, node);
    else if (node->kind == NODE_LIMIT || node->kind == NODE_GOAL)
        take_bound(collecting, node);
    else if (!take_eats(collecting, node) && !collect_claim_in_day(collecting->gathering, node) && !collect_shared_statement(collecting, node)) {
        collect_misplaced(collecting->gathering, node, "day");
        collect_broken_line(collecting, node->span);
    }
}

void collect_day(struct gathering *gathering, const struct node *node)
{
    struct collecting collecting = { gathering, gathering->recipes_count, NONE_INDEX, false, false };
    struct span title;
    struct text name = collect_title_of_person(gathering, node, &title);
    if (!collect_begin(&collecting, node, name, title))
        return;
    collect_recipe_of(&collecting)->is_day = true;
    collect_recipe_of(&collecting)->eater = collect_eater(gathering, node);
    if (node->phrases.first) {                          /* behind the block: it may have been meant for the food */
        collect_refuse_phrase(gathering, node->phrases.first, "day");
        collect_broken_line(&collecting, node->phrases.first->span);
    }
    for (const struct node *at = node->body; at; at = at->next)
        collect_day_statement(&collecting, at);
    collect_need_food(&collecting, node, collect_recipe_of(&collecting)->first_line);
    collect_end(&collecting);
}

/* ---- weeks -------------------------------------------------------------------------------------------------------- */

/* `day "Name"` names one that is declared elsewhere; with a block it is declared here. */
static void add_week_day(struct gathering *gathering, const struct node *node, uint32_t week)
{
    const struct item *first = node->items.first;
    if (node->has_body) {
        uint32_t number = gathering->recipes_count;
        collect_day(gathering, node);
        if (gathering->recipes_count == number)
            return;
        const struct recipe *day = &gathering->recipes[number];
        struct follow *inner = day->name.length ? ADD_RECORD(gathering, week_days) : NULL;
        if (inner)
            *inner = (struct follow){ day->name, collect_place(gathering, day->title) };
    } else {
        struct span title;
        struct text name = collect_title(gathering, node, &title);
        struct follow *named = first && name.length ? ADD_RECORD(gathering, week_days) : NULL;
        if (named)
            *named = (struct follow){ name, collect_place(gathering, title) };
    }
    gathering->weeks[week].day_count = gathering->week_days_count - gathering->weeks[week].first_day;
}

/* What the week itself is held to, behind all of its days, so that it lies together. */
static void add_week_bounds(struct gathering *gathering, const struct node *node, uint32_t number)
{
    uint32_t first_bound = gathering->bounds_count, first_follow = gathering->follows_count;
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_LIMIT || at->kind == NODE_GOAL)
            collect_bound(gathering, at, BOUND_OF_WEEK, NONE_INDEX);
        else if (at->kind == NODE_FOLLOW)
            collect_follow(gathering, at);
    }
    struct week *week = &gathering->weeks[number];
    week->first_bound = first_bound;
    week->bound_count = gathering->bounds_count - first_bound;
    week->first_follow = first_follow;
    week->follow_count = gathering->follows_count - first_follow;
}

static bool is_of_week(const struct node *node)
{
    return node->kind == NODE_NOTE || node->kind == NODE_SOURCE || node->kind == NODE_LIMIT || node->kind == NODE_GOAL
        || node->kind == NODE_FOLLOW;
}

void collect_week(struct gathering *gathering, const struct node *node)
{
    struct span title;
    struct text name = collect_title(gathering, node, &title);
    uint32_t number = gathering->weeks_count;
    struct week *week = ADD_RECORD(gathering, weeks);
    if (!week)
        return;
    *week = (struct week){ .name = name, .file = gathering->file, .title = title, .whole = node->span,
                           .first_day = gathering->week_days_count };
    collect_need_block(gathering, node);
    if (node->phrases.first || node->names.first)
        collect_refuse_phrase(gathering, node->phrases.first ? node->phrases.first : node->names.first, "week");
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_DAY)
            add_week_day(gathering, at, number);
        else if (!is_of_week(at))
            collect_misplaced(gathering, at, "week");
    }
    add_week_bounds(gathering, node, number);
    if (node->has_body && gathering->weeks[number].day_count == 0)
        finding_add(&gathering->findings, FINDING_WEEK_WITHOUT_DAYS, collect_place(gathering, node->keyword), NO_GAPS);
}
