/* The language, and nothing but the language: no unit and no food is known here. A line is flat (an amount,
 * items, phrases after commas); src/model tells a unit from a name. Knowledge has one statement form:
 * words [amount …] [block]. What may stand where is checked when declarations are collected. */
%require "3.8"
%code requires {
  #include "text/text.h"
}
%code top {
  #define YYINITDEPTH LIMIT_PARSE_DEPTH      /* fixed stacks: bison never allocates */
  #define YYMAXDEPTH  LIMIT_PARSE_DEPTH
}
%code {
  #include "text/tree.h"

  static int yylex(YYSTYPE *value, struct span *location, struct parse *parse);
  static void yyerror(const struct span *location, struct parse *parse, const char *message);
}
%define api.pure full
%define api.prefix {grammar_}
%define api.token.prefix {TOK_}
%define api.value.type union
%define api.location.type {struct span}
%define parse.error custom
%define parse.lac full
%define parse.lac.es-capacity-initial {LIMIT_PARSE_DEPTH}
%locations
%expect 0
%param {struct parse *parse}

%code {
  /* Empty leading symbols do not widen a place: underlines begin at words. */
  #define YYLLOC_DEFAULT(current, rhs, count)  tree_join_span(&(current), &YYRHSLOC(rhs, 0), (count))
}

%token NEWLINE "the end of the line" OPEN "`{`" CLOSE "`}`" OPEN_PARENTHESIS "`(`" CLOSE_PARENTHESIS "`)`"
%token COMMA "a comma" EQUALS "`=`" RANGE_TO "`to`" UP_TO "`up to`" SOME "`some`" BLANK "`?`"
%token AND "`and`" OR "`or`" IN_BATH "`in`" PER "`per`"
%token AT_MOST "`at most`" AT_LEAST "`at least`" UNDER "`under`" OVER "`over`" BETWEEN "`between`"
%token <const struct token *> LINE "an ingredient"
%token <const struct token *> NUMBER "a number" PERCENT "a percentage" WORD "a word" STRING "a quoted name"
%token RECIPE "`recipe`" DAY "`day`" WEEK "`week`" MEAL "`meal`" LABEL "`label`" POLICY "`policy`" TAPER "`taper`" PART "`part`"
%token BATH "`bath`" METHOD "`method`" FOOD "`food`" TREATMENT "`treatment`" UNIT "`unit`" KITCHEN "`kitchen`"
%token FOLLOW "`follow`" USE "`use`" CLAIM "`claim`" NOTE "`note`" SERVES "`serves`" MAKES "`makes`" LIMIT "`limit`"
%token GOAL "`goal`" REPLACE "`replace`" WITH "`with`" ALSO "`also`" GROUP "`group`" SOURCE "`source`"

%nterm <struct node *> statement line knowledge bound alternative
%nterm <struct nodes> lines body alternatives
%nterm <struct items> items head words tail
%nterm <struct item *> item named group
%nterm <struct phrases> phrases
%nterm <struct quantity> quantity
%nterm <enum node_kind> block_word line_word bound_word
%nterm <enum comparison> comparison

%%

file: %empty
  |   file NEWLINE
  |   file statement NEWLINE                { tree_finish_declaration(parse, $statement); }
  |   file error NEWLINE                    { tree_finish_declaration(parse, NULL); yyerrok; };

body: OPEN lines CLOSE                      { $$ = $lines; };

lines: %empty                               { $$ = (struct nodes){ NULL, NULL }; }
  |   lines[before] NEWLINE                 { $$ = $before; }
  |   lines[before] statement NEWLINE       { $$ = tree_add_node($before, $statement); }
  |   lines[before] error NEWLINE           { $$ = tree_add_broken(parse, $before, @2); yyerrok; };

statement: line | knowledge | bound
  |   LINE                                  { $$ = tree_remembered(parse, $1); }
  |   block_word head phrases[names]        { $$ = tree_head(parse, $block_word, @1, @$, $head, $names); }
  |   block_word head phrases[names] body phrases[after]
                                            { $$ = tree_block(parse, $block_word, @1, @$, $head, $names, $body, $after); }
  |   block_word error body phrases[after]  { $$ = tree_broken_block(parse, $block_word, @1, @$, $body, $after); }
  |   line_word head phrases[names]         { $$ = tree_head(parse, $line_word, @1, @$, $head, $names); }
  |   REPLACE items[what] WITH items[by] phrases
                                            { $$ = tree_replacement(parse, @1, @$, $what, $by, $phrases); }
  |   SERVES quantity tail                  { $$ = tree_figure(parse, NODE_SERVES, @1, @$, $quantity, $tail); }
  |   MAKES quantity tail                   { $$ = tree_figure(parse, NODE_MAKES, @1, @$, $quantity, $tail); }
  |   PER quantity tail body                { $$ = tree_per(parse, @1, @$, $quantity, $tail, $body); }
  |   OR alternatives                       { $$ = tree_alternatives(parse, @$, $alternatives); };

block_word: RECIPE { $$ = NODE_RECIPE; } | DAY { $$ = NODE_DAY; } | WEEK { $$ = NODE_WEEK; } | MEAL { $$ = NODE_MEAL; }
  |   LABEL { $$ = NODE_LABEL; } | POLICY { $$ = NODE_POLICY; } | TAPER { $$ = NODE_TAPER; }
  |   PART { $$ = NODE_PART; } | BATH { $$ = NODE_BATH; } | METHOD { $$ = NODE_METHOD; }
  |   FOOD { $$ = NODE_FOOD; } | TREATMENT { $$ = NODE_TREATMENT; } | UNIT { $$ = NODE_UNIT; }
  |   GROUP { $$ = NODE_GROUP; } | CLAIM { $$ = NODE_CLAIM; };

line_word: KITCHEN { $$ = NODE_KITCHEN; } | FOLLOW { $$ = NODE_FOLLOW; } | USE { $$ = NODE_USE; }
  |   NOTE { $$ = NODE_NOTE; } | ALSO { $$ = NODE_ALSO; }
  |   SOURCE { $$ = NODE_SOURCE; };

bound_word: LIMIT { $$ = NODE_LIMIT; } | GOAL { $$ = NODE_GOAL; };

/* One line of a recipe, flat; with `=` it is a portion. */
line: quantity items phrases                { $$ = tree_ingredient(parse, @$, $quantity, $items, $phrases); }
  |   quantity[of] items EQUALS quantity[is] tail
                                            { $$ = tree_portion(parse, @$, $of, $items, $is, $tail); };

alternatives: alternative                   { $$ = tree_add_node((struct nodes){ NULL, NULL }, $alternative); }
  |   alternatives[before] AND alternative  { $$ = tree_add_node($before, $alternative); };
alternative: quantity items phrases         { $$ = tree_ingredient(parse, @$, $quantity, $items, $phrases); };

bound: bound_word items                     { $$ = tree_bound(parse, $bound_word, @1, @$, $items, COMPARE_NONE, (struct quantity){ 0 }, (struct items){ 0 }); }
  |   bound_word items comparison quantity tail
                                            { $$ = tree_bound(parse, $bound_word, @1, @$, $items, $comparison, $quantity, $tail); }
  |   bound_word items comparison quantity tail PER head
                                            { $$ = tree_bound(parse, $bound_word, @1, @$, $items, $comparison, $quantity, $tail);
                                              tree_bound_per($$, $head); }
  |   bound_word items BETWEEN quantity[low] tail[low_unit] AND quantity[high] tail[high_unit]
                                            { $$ = tree_between(parse, $bound_word, @1, @$, $items, $low, $low_unit, $high, $high_unit); }
  |   bound_word items BETWEEN quantity[low] tail[low_unit] AND quantity[high] tail[high_unit] PER head
                                            { $$ = tree_between(parse, $bound_word, @1, @$, $items, $low, $low_unit, $high, $high_unit);
                                              tree_bound_per($$, $head); };

comparison: AT_MOST { $$ = COMPARE_AT_MOST; } | AT_LEAST { $$ = COMPARE_AT_LEAST; }
  |   UNDER { $$ = COMPARE_UNDER; } | OVER { $$ = COMPARE_OVER; };

knowledge: words phrases                    { $$ = tree_knowledge(parse, @$, $words, (struct quantity){ 0 }, (struct items){ 0 }, $phrases); }
  |   words phrases body                    { $$ = tree_knowledge(parse, @$, $words, (struct quantity){ 0 }, (struct items){ 0 }, $phrases);
                                              tree_give_body($$, $body); }
  |   words quantity tail phrases           { $$ = tree_knowledge(parse, @$, $words, $quantity, $tail, $phrases); }
  |   words quantity tail phrases body      { $$ = tree_knowledge(parse, @$, $words, $quantity, $tail, $phrases);
                                              tree_give_body($$, $body); };

knowledge: words quantity[of] tail[of_unit] EQUALS quantity[is] tail[is_unit]
                                            { $$ = tree_knowledge(parse, @$, $words, $of, $of_unit, (struct phrases){ 0 });
                                              tree_give_second($$, $is, $is_unit); };

/* A plain word goes straight into its list: it is what files are made of. */
words: WORD                                 { $$ = tree_first_item(tree_item(parse, ITEM_WORD, @$, $1)); }
  |   named                                 { $$ = tree_first_item($named); }
  |   words[before] WORD[word]              { $$ = tree_add_item($before, tree_item(parse, ITEM_WORD, @word, $word)); }
  |   words[before] named                   { $$ = tree_add_item($before, $named); };
named: STRING                               { $$ = tree_string(parse, @$, $1); }
  |   group;

head: %empty                                { $$ = (struct items){ NULL, NULL }; }
  |   items;
tail: %empty                                { $$ = (struct items){ NULL, NULL }; }
  |   items;

items: WORD                                 { $$ = tree_first_item(tree_item(parse, ITEM_WORD, @$, $1)); }
  |   item                                  { $$ = tree_first_item($item); }
  |   items[before] WORD[word]              { $$ = tree_add_item($before, tree_item(parse, ITEM_WORD, @word, $word)); }
  |   items[before] item                    { $$ = tree_add_item($before, $item); };
item: named
  |   NUMBER                                { $$ = tree_item(parse, ITEM_NUMBER, @$, $1); }
  |   PERCENT                               { $$ = tree_item(parse, ITEM_NUMBER, @$, $1); }
  |   NUMBER[low] RANGE_TO NUMBER[high]     { $$ = tree_range_item(parse, @$, $low, $high, false); }
  |   PERCENT[low] RANGE_TO PERCENT[high]   { $$ = tree_range_item(parse, @$, $low, $high, true); }
  |   NUMBER[low] RANGE_TO PERCENT[high]    { $$ = tree_range_item(parse, @$, $low, $high, true); }
  |   UP_TO NUMBER                          { $$ = tree_range_item(parse, @$, NULL, $2, false); }
  |   UP_TO PERCENT                         { $$ = tree_range_item(parse, @$, NULL, $2, true); }
  |   IN_BATH STRING                        { $$ = tree_bath(parse, @$, @2, $2); };

group: OPEN_PARENTHESIS group_items CLOSE_PARENTHESIS   { $$ = tree_group(parse, @$, $group_items); };
%nterm <struct items> group_items;
group_items: items
  |   COMMA                                 { $$ = (struct items){ NULL, NULL }; }
  |   group_items[before] COMMA             { $$ = $before; }
  |   group_items[before] COMMA items       { $$ = tree_join_items($before, $items); };

phrases: %empty                             { $$ = (struct phrases){ NULL, NULL }; }
  |   phrases[before] COMMA items           { $$ = tree_add_phrase(parse, $before, $items); };

quantity: NUMBER                            { $$ = tree_number(@$, $1, $1, false); }
  |   NUMBER[low] RANGE_TO NUMBER[high]     { $$ = tree_range(parse, @$, $low, $high, false); }
  |   PERCENT                               { $$ = tree_number(@$, $1, $1, true); }
  |   PERCENT[low] RANGE_TO PERCENT[high]   { $$ = tree_range(parse, @$, $low, $high, true); }
  |   NUMBER[low] RANGE_TO PERCENT[high]    { $$ = tree_range(parse, @$, $low, $high, true); }
  |   UP_TO NUMBER                          { $$ = tree_range(parse, @$, NULL, $2, false); }
  |   UP_TO PERCENT                         { $$ = tree_range(parse, @$, NULL, $2, true); }
  |   SOME                                  { $$ = (struct quantity){ .kind = QUANTITY_SOME, .span = @$ }; }
  |   BLANK                                 { $$ = (struct quantity){ .kind = QUANTITY_BLANK, .span = @$ }; };

%%

/* The next token of the stretch; a new stretch is settled when this one is used up. */
static int yylex(YYSTYPE *value, struct span *location, struct parse *parse)
{
    const struct token *token = tree_next_token(parse);
    if (!token)
        return TOK_YYEOF;
    value->TOK_NUMBER = token;
    *location = (struct span){ token->start, token->start + token->length };
    return token->kind;
}

/* bison speaks here only when its fixed stack is full, which nesting cannot bring about: LIMIT_NESTING is met first. */
static void yyerror(const struct span *location, struct parse *parse, const char *message)
{
    (void)message;
    finding_add(parse->findings, FINDING_TOO_DEEP, (struct place){ parse->file, *location }, NO_GAPS);
}

#define EXPECTED_MAX 4

static int yyreport_syntax_error(const yypcontext_t *context, struct parse *parse)
{
    yysymbol_kind_t expected[EXPECTED_MAX];
    const char *names[EXPECTED_MAX];
    if (yypcontext_token(context) == YYSYMBOL_YYEMPTY)
        return 0;
    int count = yypcontext_expected_tokens(context, expected, EXPECTED_MAX);
    for (int i = 0; i < count; i++)
        names[i] = yysymbol_name(expected[i]);
    tree_syntax_finding(parse, *yypcontext_location(context), names, count < 0 ? 0 : (uint32_t)count);
    return 0;
}
