/* The pass between scanner and parser works on one stretch of the file at a time (whole statements at the top), so
 * that a file of any size needs little memory. It gives out the line ends and closing braces that are missing, and
 * turns what a finding has spoken of into an error token, so that the parser recovers without a second finding. */
#include <string.h>

#include "text/scan.h"
#include "quern.tab.h"

#define STRETCH_TOKENS 256          /* statements are gathered until there are so many */


static struct text token_text(struct parse *parse, const struct token *token)
{
    return (struct text){ parse->text.bytes + token->start, token->length };
}

/* ---- the token array -------------------------------------------------------------------------------- */

/* Where the next token is written, field by field: a token that was put together elsewhere and is then copied as a
 * whole makes the processor wait until its fields have reached memory. NULL when memory failed. */
static struct token *next_token(struct parse *parse)
{
    struct tokens *tokens = &parse->tokens;
    if (tokens->count == tokens->capacity
        && !array_grow(&tokens->allocator, &tokens->at, tokens->count, &tokens->capacity, sizeof *tokens->at)) {
        tokens->failed = true;
        return NULL;
    }
    return &tokens->at[tokens->count];
}

static bool append(struct parse *parse, int kind, struct span span, bool made)
{
    struct token *token = next_token(parse);
    if (!token)
        return false;
    *token = (struct token){ .start = span.start, .length = span.end - span.start, .kind = (int16_t)kind, .made = made };
    parse->tokens.count++;
    return true;
}

static bool append_made(struct parse *parse, int kind, uint32_t offset)
{
    return append(parse, kind, (struct span){ offset, offset }, true);
}

static struct span token_span(const struct token *token)
{
    return (struct span){ token->start, token->start + token->length };
}

static struct place token_place(struct parse *parse, const struct token *token)
{
    return (struct place){ parse->file, token_span(token) };
}

/* Moves what stands from `index` on and puts `count` made closings with their line ends before it. */
static void insert_closings(struct parse *parse, uint32_t index, uint32_t count)
{
    struct tokens *tokens = &parse->tokens;
    uint32_t offset = token_at(parse, index)->start, moved = tokens->count - index;
    for (uint32_t i = 0; i < 2 * count; i++) {
        if (!append_made(parse, TOK_NEWLINE, offset))
            return;
    }
    memmove(tokens->at + index + 2 * count, tokens->at + index, moved * sizeof *tokens->at);
    for (uint32_t i = 0; i < 2 * count; i++) {
        tokens->at[index + i] = (struct token){ .start = offset, .made = true,
                                                .kind = i % 2 ? TOK_NEWLINE : TOK_CLOSE };
    }
    parse->statement += 2 * count;
}

/* ---- what is open ------------------------------------------------------------------------------------ */

/* Parentheses inside parentheses are few; an attacker's thousands would fill bison's stack. */
static void open_parenthesis(struct parse *parse)
{
    struct token *token = token_at(parse, parse->tokens.count - 1);
    if (parse->parenthesis == TABLE_NONE) {
        parse->parenthesis = parse->tokens.count - 1;
        parse->parentheses = 0;
    }
    if (++parse->parentheses == LIMIT_NESTING)
        finding_add(parse->findings, FINDING_TOO_DEEP_PARENTHESES, token_place(parse, token), NO_GAPS);
    if (parse->parentheses >= LIMIT_NESTING)
        token->kind = parse->parentheses == LIMIT_NESTING ? TOK_GRAMMAR_error : TOKEN_GAP;
}

static void close_parenthesis(struct parse *parse)
{
    struct token *token = token_at(parse, parse->tokens.count - 1);
    if (parse->parenthesis != TABLE_NONE) {
        parse->parentheses--;
        if (parse->parentheses == 0)
            parse->parenthesis = TABLE_NONE;
        return;
    }
    bool first = !parse->told_parenthesis;          /* one finding a line */
    if (first)
        finding_add(parse->findings, FINDING_EXTRA_PARENTHESIS, token_place(parse, token), NO_GAPS);
    parse->told_parenthesis = true;
    token->kind = first ? TOK_GRAMMAR_error : TOKEN_GAP;
}

/* A line ends: a parenthesis that is still open spoils it, with one finding. */
static void end_parenthesis(struct parse *parse)
{
    if (parse->parenthesis == TABLE_NONE)
        return;
    struct token *token = token_at(parse, parse->parenthesis);
    finding_add(parse->findings, FINDING_MISSING_PARENTHESIS, token_place(parse, token), NO_GAPS);
    token->kind = TOK_GRAMMAR_error;
    parse->parenthesis = TABLE_NONE;
}

static bool statement_is_empty(struct parse *parse)
{
    return settle_skip_comments(parse, parse->statement) >= parse->tokens.count;
}

static void begin_statement(struct parse *parse)
{
    parse->statement = parse->tokens.count;
    parse->after_close = parse->told_parenthesis = false;
}

static void end_statement(struct parse *parse)
{
    end_parenthesis(parse);
    settle_statement(parse, false);
}

/* Says once that blocks were left open: at the innermost one, with labels at those around it. */
static void report_open_blocks(struct parse *parse, struct place noticed, enum words_code where)
{
    struct place opener = { parse->file, { parse->openers[parse->depth - 1], parse->openers[parse->depth - 1] + 1 } };
    struct finding *finding = finding_add(parse->findings, FINDING_MISSING_BRACE, opener, NO_GAPS);
    for (uint32_t i = parse->depth - 1; i-- > 0;) {
        struct place outer = { parse->file, { parse->openers[i], parse->openers[i] + 1 } };
        finding_label(parse->findings, finding, outer, WORDS_ALSO_OPEN, NO_GAPS);
    }
    finding_label(parse->findings, finding, noticed, where, NO_GAPS);
}

/* `recipe "Next" {` at the start of a line while a block is open: the block ends before it. */
static void close_before_declaration(struct parse *parse, uint32_t start)
{
    const struct token *token = token_at(parse, start);
    uint32_t before = token->start;
    while (before > 0 && (parse->text.bytes[before - 1] == ' ' || parse->text.bytes[before - 1] == '\t'))
        before--;
    bool at_line_start = before == 0 || parse->text.bytes[before - 1] == '\n' || parse->text.bytes[before - 1] == '\r';
    bool in_week = parse->depth > 0 && parse->weeks >> (parse->depth - 1) & 1;
    if (parse->depth == 0 || !at_line_start || !settle_begins_declaration(parse, start, in_week))
        return;
    report_open_blocks(parse, token_place(parse, token), WORDS_NEXT_DECLARATION);
    uint32_t blocks = 0;
    for (uint32_t i = 0; i < parse->depth; i++)
        blocks += !(parse->headless >> i & 1);
    insert_closings(parse, start, blocks);
    parse->depth = 0;
}

/* A block may open on the line after its head: that line end ends nothing. */
static void join_head(struct parse *parse)
{
    uint32_t last = parse->tokens.count;
    while (last > 0 && token_at(parse, last - 1)->kind < 0)
        last--;
    if (last == 0 || token_at(parse, last - 1)->kind != TOK_NEWLINE || token_at(parse, last - 1)->made)
        return;
    token_at(parse, last - 1)->kind = TOKEN_GAP;
    uint32_t start = last - 1;
    while (start > 0) {
        int kind = token_at(parse, start - 1)->kind;
        if (kind == TOK_NEWLINE || kind == TOK_OPEN || kind == TOK_CLOSE)
            break;
        start--;
    }
    parse->statement = start;
}

/* A brace with nothing before it: its lines belong to the block around it. Said once a file. */
static void take_headless(struct parse *parse, struct span brace)
{
    if (parse->first_headless.end == 0)
        parse->first_headless = brace;
    parse->headless |= (uint64_t)1 << parse->depth;
}

/* False when blocks are nested deeper than anyone writes: the rest of the file is left alone. */
static bool open_block(struct parse *parse, struct span brace)
{
    if (statement_is_empty(parse))
        join_head(parse);
    end_parenthesis(parse);
    if (!statement_is_empty(parse))
        close_before_declaration(parse, settle_skip_comments(parse, parse->statement));
    settle_statement(parse, true);
    if (parse->depth == LIMIT_NESTING) {
        finding_add(parse->findings, FINDING_TOO_DEEP, (struct place){ parse->file, brace }, NO_GAPS);
        parse->too_deep = true;
        return false;
    }
    parse->headless &= ~((uint64_t)1 << parse->depth);
    parse->weeks &= ~((uint64_t)1 << parse->depth);
    bool headless = statement_is_empty(parse);
    if (!headless && token_at(parse, settle_skip_comments(parse, parse->statement))->kind == TOK_WEEK)
        parse->weeks |= (uint64_t)1 << parse->depth;
    if (headless)
        take_headless(parse, brace);
    parse->openers[parse->depth++] = brace.start;
    append(parse, headless ? TOKEN_GAP : TOK_OPEN, brace, false);
    begin_statement(parse);
    return true;
}

static void close_block(struct parse *parse, struct span brace)
{
    if (!statement_is_empty(parse) || parse->after_close) {
        end_statement(parse);
        append_made(parse, TOK_NEWLINE, brace.start);
    }
    begin_statement(parse);
    if (parse->depth == 0) {
        finding_add(parse->findings, FINDING_EXTRA_BRACE, (struct place){ parse->file, brace }, NO_GAPS);
        append(parse, TOKEN_GAP, brace, false);
        begin_statement(parse);
        return;
    }
    parse->depth--;
    bool headless = parse->headless >> parse->depth & 1;
    append(parse, headless ? TOKEN_GAP : TOK_CLOSE, brace, false);
    begin_statement(parse);
    parse->after_close = !headless;
}

static void end_line(struct parse *parse, struct span feed)
{
    bool ends_nothing = statement_is_empty(parse) && !parse->after_close;
    if (!ends_nothing)
        end_statement(parse);
    append(parse, ends_nothing ? TOKEN_GAP : TOK_NEWLINE, feed, false);
    begin_statement(parse);
}

static void end_file(struct parse *parse, uint32_t offset)
{
    parse->ended = true;
    if (parse->first_headless.end && !parse->too_deep)
        finding_add(parse->findings, FINDING_HEADLESS_BLOCK, (struct place){ parse->file, parse->first_headless }, NO_GAPS);
    if (!statement_is_empty(parse) || parse->after_close) {
        end_statement(parse);
        append_made(parse, TOK_NEWLINE, offset);
    }
    for (; parse->depth > 0; parse->depth--) {
        if (parse->headless >> (parse->depth - 1) & 1)
            continue;
        append_made(parse, TOK_CLOSE, offset);
        append_made(parse, TOK_NEWLINE, offset);
    }
    begin_statement(parse);
}

/* A word stands behind a block that was closed: a line end is missing between them. */
static void part_from_block(struct parse *parse)
{
    struct token word = *token_at(parse, parse->tokens.count);
    append_made(parse, TOK_NEWLINE, word.start);
    begin_statement(parse);
    struct token *moved = next_token(parse);
    if (moved)
        *moved = word;
}

/* The token that was scanned stands behind the others. */
static void add_to_statement(struct parse *parse)
{
    int kind = token_at(parse, parse->tokens.count)->kind;
    if (parse->after_close && kind != TOK_COMMA)
        part_from_block(parse);
    parse->after_close = false;
    if (parse->tokens.failed)
        return;
    const struct token *token = token_at(parse, parse->tokens.count++);
    if (kind == TOK_OPEN_PARENTHESIS)
        open_parenthesis(parse);
    else if (kind == TOK_CLOSE_PARENTHESIS)
        close_parenthesis(parse);
    else if (kind == RAW_OPEN_STRING)
        finding_add(parse->findings, FINDING_MISSING_QUOTE, token_place(parse, token), GAPS(token_text(parse, token)));
}

/* Says what is open, ends all of it and stops reading. */
static void stop_reading(struct parse *parse, uint32_t offset)
{
    parse->scanned = parse->text.length;
    end_file(parse, offset);
}

static void take_token(struct parse *parse)
{
    struct span span = token_span(token_at(parse, parse->tokens.count));
    switch (token_at(parse, parse->tokens.count)->kind) {
    case TOKEN_COMMENT:
    case TOKEN_DOCUMENT:
        parse->tokens.count++;
        return;
    case TOK_NEWLINE:
        end_line(parse, span);
        return;
    case TOK_OPEN:
        if (!open_block(parse, span))
            stop_reading(parse, span.start);
        return;
    case TOK_CLOSE:
        close_block(parse, span);
        return;
    case TOK_YYEOF:
        if (parse->depth > 0)
            report_open_blocks(parse, (struct place){ parse->file, { span.start, span.start } }, WORDS_END_OF_FILE);
        end_file(parse, span.start);
        return;
    default:
        add_to_statement(parse);
    }
}

static bool stretch_is_done(struct parse *parse)
{
    return parse->depth == 0 && !parse->after_close && parse->tokens.count >= STRETCH_TOKENS
        && statement_is_empty(parse);
}

/* The line that begins at `start`, from its first word to its last, when it begins with a digit as amounts do. */
static struct span line_ahead(const struct parse *parse, uint32_t start)
{
    const char *bytes = parse->text.bytes;
    struct span span = { start, start };
    while (bytes[span.start] == ' ' || bytes[span.start] == '\t')
        span.start++;
    if (bytes[span.start] < '0' || bytes[span.start] > '9')
        return (struct span){ 0, 0 };
    const char *feed = memchr(bytes + span.start, '\n', parse->text.length - span.start);
    span.end = feed ? (uint32_t)(feed - bytes) : parse->text.length;
    while (bytes[span.end - 1] == ' ' || bytes[span.end - 1] == '\t' || bytes[span.end - 1] == '\r')
        span.end--;
    return span;
}

/* Looks the line at `start` up and notes it; returns where it ends, or 0 when it was not parsed before. */
static uint32_t recall(struct parse *parse, uint32_t start)
{
    struct span span = line_ahead(parse, start);
    uint32_t number = span.end ? line_memory_find(parse->memory, span_text(parse->text, span)) : TABLE_NONE;
    if (number == TABLE_NONE)
        return 0;
    if (!array_grow(&parse->tokens.allocator, &parse->recalled, parse->recalled_count, &parse->recalled_capacity,
                    sizeof *parse->recalled)) {
        parse->tokens.failed = true;
        return 0;
    }
    parse->recalled[parse->recalled_count++] = (struct recalled_line){ span, number, false };
    return span.end;
}

/* Where the line behind this one begins, whose words end at `end`. */
static uint32_t next_line(const struct parse *parse, uint32_t end)
{
    while (end < parse->text.length && parse->text.bytes[end] != '\n')
        end++;
    return end + (end < parse->text.length);
}

/* Behind the end of a line the parser has nothing to mend, and takes lines one by one or all at once in the same way. */
static bool may_take_run(struct parse *parse)
{
    return parse->tokens.count > 0 && token_at(parse, parse->tokens.count - 1)->kind == TOK_NEWLINE;
}

static void append_recalled(struct parse *parse, uint32_t first, uint32_t last)
{
    struct recalled_line *lines = parse->recalled;
    lines[last].is_last = true;
    if (append(parse, TOK_LINE, (struct span){ lines[first].span.start, lines[last].span.end }, false))
        token_at(parse, parse->tokens.count - 1)->value = first;
}

/* Lines of a block that were parsed before come as one token. The last of them has one of its own, since a brace on the
 * line behind it would make it the head of a block. */
static bool take_remembered(struct parse *parse)
{
    if (!parse->memory || parse->depth == 0 || parse->after_close || parse->statement != parse->tokens.count)
        return false;
    scan_restore(parse->scanner);
    uint32_t first = parse->recalled_count, end = recall(parse, parse->scanned), further = end;
    if (!end)
        return false;
    while (further && may_take_run(parse)) {
        end = further;
        further = recall(parse, next_line(parse, end));
    }
    scan_skip(parse->scanner, end - parse->scanned);
    parse->scanned = end;
    uint32_t last = parse->recalled_count - 1;
    if (last > first) {
        uint32_t before = next_line(parse, parse->recalled[last - 1].span.end);
        append_recalled(parse, first, last - 1);
        end_line(parse, (struct span){ before - 1, before });
    }
    append_recalled(parse, last, last);
    return true;
}

enum status settle_stretch(struct parse *parse)
{
    parse->tokens.count = parse->recalled_count = 0;
    parse->cursor = 0;
    parse->parenthesis = TABLE_NONE;
    begin_statement(parse);
    while (!parse->ended && !parse->tokens.failed && !stretch_is_done(parse)) {
        struct token *token = take_remembered(parse) ? NULL : next_token(parse);
        if (!token)
            continue;
        scan_next(parse, token);
        take_token(parse);
    }
    return parse->tokens.failed ? STATUS_NO_MEMORY : STATUS_OK;
}

/* ---- the scanner's helpers ------------------------------------------------------------------------------ */

void *scan_memory(struct parse *parse, size_t size)
{
    uint32_t rounded = (uint32_t)((size + 15) & ~(size_t)15);
    if (!parse || rounded > SCANNER_MEMORY_BYTES - parse->scanner_used)
        return NULL;
    void *taken = parse->scanner_memory + parse->scanner_used;
    parse->scanner_used += rounded;
    return taken;
}

uint32_t scan_cut_open_string(struct parse *parse, const char *text, uint32_t length)
{
    for (uint32_t at = 1; at < length; at++) {
        uint32_t after = at + 1;
        while (after < length && (text[after] == ' ' || text[after] == '\t'))
            after++;
        if (text[at] == '{' && (after == length || text[after] == '#'))
            length = at;
    }
    parse->scanned = parse->token_start + length;
    return length;
}

bool scan_next(struct parse *parse, struct token *token)
{
    uint32_t before = parse->scanned;
    int kind = scan_lex(parse->scanner);
    bool end = kind == TOK_YYEOF;
    *token = (struct token){ .kind = (int16_t)kind, .start = end ? parse->text.length : parse->token_start };
    token->length = end ? 0 : parse->scanned - parse->token_start;
    token->touches = token->start == before && before > 0;
    if (kind == TOK_NUMBER || kind == TOK_PERCENT)
        token->value = number_value(parse, token->start, token->length);
    return true;
}
