/* The parse of one file: scanner, settling pass and bison work together over a token array; each declaration at the
 * top goes to the receiver, and its tree is dropped unless the receiver keeps it. */
#include <string.h>

#include "text/tree.h"
#include "text/scan.h"

/* A documentation comment belongs to the declaration that comes next; several lines of it are one. */
static void take_document(struct parse *parse, const struct token *token)
{
    if (parse->document.end == 0)
        parse->document.start = token->start;
    parse->document.end = token->start + token->length;
}

const struct token *tree_next_token(struct parse *parse)
{
    for (;;) {
        while (parse->cursor < parse->tokens.count) {
            const struct token *token = &parse->tokens.at[parse->cursor++];
            if (token->kind == TOKEN_DOCUMENT && !parse->in_declaration)
                take_document(parse, token);
            if (token->kind < 0)
                continue;
            parse->in_declaration = parse->in_declaration || token->length > 0;
            return token;
        }
        if (parse->ended || settle_stretch(parse) != STATUS_OK)
            return NULL;
    }
}

/* ---- the parse ------------------------------------------------------------------------------------------------------ */

void tree_finish_declaration(struct parse *parse, struct node *node)
{
    bool keep = false;
    if (node) {
        node->document = parse->document;
        scan_restore(parse->scanner);           /* who keeps the text finds it whole */
        keep = parse->receive(parse->context, node);
    }
    parse->document = (struct span){ 0, 0 };
    parse->in_declaration = false;
    if (keep)
        parse->mark = arena_mark(parse->arena);
    else
        arena_rewind(parse->arena, parse->mark);
}

void parse_open(struct parse *parse, struct allocator allocator, struct arena *arena, struct findings *findings,
                declaration_receiver *receive, void *context)
{
    *parse = (struct parse){ .arena = arena, .findings = findings, .receive = receive, .context = context };
    parse->tokens.allocator = allocator;
}

void parse_close(struct parse *parse)
{
    struct allocator *allocator = &parse->tokens.allocator;
    if (parse->tokens.at)
        allocator->resize(allocator->context, parse->tokens.at, 0);
    if (parse->recalled)
        allocator->resize(allocator->context, parse->recalled, 0);
    parse->tokens.at = NULL;
    parse->recalled = NULL;
}

static void start_file(struct parse *parse, uint32_t file, struct text text)
{
    parse->text = text;
    parse->file = file;
    parse->scanner_used = 0;
    parse->scanned = parse->token_start = 0;
    parse->tokens.count = parse->cursor = 0;
    parse->statement = parse->depth = 0;
    parse->headless = parse->weeks = 0;
    parse->first_headless = (struct span){ 0, 0 };
    parse->too_deep = false;
    parse->document = (struct span){ 0, 0 };
    parse->after_close = parse->ended = parse->in_declaration = false;
    parse->mark = arena_mark(parse->arena);
}

enum status parse_start(struct parse *parse, uint32_t file, char *bytes, uint32_t length)
{
    start_file(parse, file, (struct text){ bytes, length });
    text_check(parse, bytes, length);
    bool good = scan_lex_init_extra(parse, &parse->scanner) == 0 && scan__scan_buffer(bytes, length + 2, parse->scanner);
    return good ? STATUS_OK : STATUS_NO_MEMORY;
}

enum status parse_text(struct parse *parse, uint32_t file, char *bytes, uint32_t length)
{
    if (parse_start(parse, file, bytes, length) != STATUS_OK)
        return STATUS_NO_MEMORY;
    int result = grammar_parse(parse);
    arena_rewind(parse->arena, parse->mark);
    bool failed = parse->tokens.failed || parse->arena->failed || parse->findings->failed || result == 2;
    return failed ? STATUS_NO_MEMORY : STATUS_OK;
}

/* ---- copies ------------------------------------------------------------------------------------------------------------ */

static struct span shift_span(struct span span, uint32_t shift)
{
    return (struct span){ span.start - shift, span.end - shift };
}

static const struct quantity *copy_quantity(struct arena *arena, const struct quantity *quantity, uint32_t shift)
{
    struct quantity *copy = quantity ? arena_take(arena, sizeof *copy) : NULL;
    if (!copy)
        return NULL;
    *copy = *quantity;
    copy->span = shift_span(quantity->span, shift);
    return copy;
}

struct item *items_copy(struct arena *arena, const struct item *items, uint32_t shift)
{
    struct item *first = NULL, **end = &first;
    for (; items; items = items->next) {
        struct item *copy = arena_take(arena, sizeof *copy);
        if (!copy)
            return first;
        *copy = *items;
        copy->next = NULL;
        copy->span = shift_span(items->span, shift);
        copy->quantity = copy_quantity(arena, items->quantity, shift);
        copy->inside = items_copy(arena, items->inside, shift);
        *end = copy;
        end = &copy->next;
    }
    return first;
}

struct phrase *phrases_copy(struct arena *arena, const struct phrase *phrases, uint32_t shift)
{
    struct phrase *first = NULL, **end = &first;
    for (; phrases; phrases = phrases->next) {
        struct phrase *copy = arena_take(arena, sizeof *copy);
        if (!copy)
            return first;
        *copy = *phrases;
        copy->next = NULL;
        copy->span = shift_span(phrases->span, shift);
        copy->items = items_copy(arena, phrases->items, shift);
        *end = copy;
        end = &copy->next;
    }
    return first;
}
