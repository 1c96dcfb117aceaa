/* Makers of the syntax tree: what the grammar's actions call. One call an action; NULL where memory failed, and
 * every function takes such a NULL. Nobody but grammar/quern.y and tree.c includes it. */
#ifndef QUERN_TEXT_TREE_H
#define QUERN_TEXT_TREE_H

#include "text/text.h"

/* bison's parser: 0 when it reached the end, 2 when its stack was full. */
int grammar_parse(struct parse *parse);

/* What the parser needs besides nodes: joined places, the next token, the end of a declaration, syntax findings. */
void tree_join_span(struct span *joined, const struct span *right, int count);
const struct token *tree_next_token(struct parse *parse);
void tree_finish_declaration(struct parse *parse, struct node *node);
void tree_syntax_finding(struct parse *parse, struct span span, const char *const *expected, uint32_t count);

/* Items and phrases. */
struct item *tree_item(struct parse *parse, enum item_kind kind, struct span span, const struct token *token);
struct item *tree_string(struct parse *parse, struct span span, const struct token *token);
struct item *tree_bath(struct parse *parse, struct span span, struct span name, const struct token *token);
struct item *tree_group(struct parse *parse, struct span span, struct items inside);
struct item *tree_range_item(struct parse *parse, struct span span, const struct token *low,
                             const struct token *high, bool is_percent);
struct items tree_first_item(struct item *item);
struct items tree_add_item(struct items items, struct item *item);
struct items tree_join_items(struct items items, struct items more);
struct phrases tree_add_phrase(struct parse *parse, struct phrases phrases, struct items items);

/* Written amounts; a range that runs backwards is a finding. `low` may be NULL: up to. */
struct quantity tree_number(struct span span, const struct token *low, const struct token *high, bool is_percent);
struct quantity tree_range(struct parse *parse, struct span span, const struct token *low, const struct token *high,
                           bool is_percent);

/* Statements, each from the parts that its rule names. */
struct nodes tree_add_node(struct nodes nodes, struct node *node);         /* and those behind it */
struct nodes tree_add_broken(struct parse *parse, struct nodes nodes, struct span span);
struct node *tree_head(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                       struct items head, struct phrases names);
struct node *tree_block(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                        struct items head, struct phrases names, struct nodes body, struct phrases after);
struct node *tree_broken_block(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                               struct nodes body, struct phrases after);
struct node *tree_replacement(struct parse *parse, struct span keyword, struct span span, struct items what, struct items by,
                              struct phrases phrases);
struct node *tree_figure(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                         struct quantity quantity, struct items unit);
struct node *tree_per(struct parse *parse, struct span keyword, struct span span, struct quantity quantity,
                      struct items unit, struct nodes body);
struct node *tree_alternatives(struct parse *parse, struct span span, struct nodes alternatives);
struct node *tree_ingredient(struct parse *parse, struct span span, struct quantity quantity, struct items items,
                             struct phrases phrases);

/* One node for each remembered line of the token, one behind the other. */
struct node *tree_remembered(struct parse *parse, const struct token *token);
struct node *tree_portion(struct parse *parse, struct span span, struct quantity of, struct items items,
                          struct quantity is, struct items unit);
struct node *tree_bound(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                        struct items items, enum comparison comparison, struct quantity quantity, struct items unit);
struct node *tree_between(struct parse *parse, enum node_kind kind, struct span keyword, struct span span,
                          struct items items, struct quantity low, struct items low_unit, struct quantity high,
                          struct items high_unit);
void tree_bound_per(struct node *node, struct items per);
struct node *tree_knowledge(struct parse *parse, struct span span, struct items words, struct quantity quantity,
                            struct items unit, struct phrases phrases);
void tree_give_body(struct node *node, struct nodes body);
void tree_give_second(struct node *node, struct quantity quantity, struct items unit);

#endif
