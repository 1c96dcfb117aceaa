/* The pass between scanner and parser. It works on one stretch of the file at a time (whole statements at the
 * top), so that a file of any size needs little memory. It decides by neighbours what a word is, gives out the
 * line ends and closing braces that are missing, and turns what a finding has spoken of into an error token, so
 * that the parser recovers without a second finding. */
#include <math.h>
#include <string.h>

#include "text/scan.h"
#include "quern.tab.h"

#define STRETCH_TOKENS 256          /* statements are gathered until there are so many */

enum needs { NEEDS_TITLE, NEEDS_WORDS, NEEDS_AMOUNT, NEEDS_BLOCK };

struct keyword {
    const char *word;
    uint32_t length;
    enum needs needs;
    bool opens;
    int16_t kind;
};

static const struct keyword keywords[] = {
#define KEYWORD(symbol, word, needs, opens) { word, sizeof word - 1, needs, opens, TOK_##symbol },
#include "text/keywords.def"
#undef KEYWORD
};

/* ---- small looks ---------------------------------------------------------------------------------- */

static struct token *token_at(struct parse *parse, uint32_t index)
{
    return &parse->tokens.at[index];
}

static bool is_amount(int kind)
{
    return kind == TOK_NUMBER || kind == TOK_PERCENT || kind == TOK_UP_TO || kind == TOK_SOME || kind == TOK_BLANK;
}

static bool is_figure(int kind)
{
    return kind == TOK_NUMBER || kind == TOK_PERCENT;
}

static bool is_word(int kind)
{
    return kind == TOK_WORD || kind >= RAW_TO;
}

static bool token_is(struct parse *parse, const struct token *token, const char *word, uint32_t length)
{
    if (token->length != length)
        return false;
    for (uint32_t i = 0; i < length; i++) {
        if ((parse->text.bytes[token->start + i] | 0x20) != word[i])
            return false;
    }
    return true;
}

/* Kind of the next token of the statement that is not a gap or comment; TOK_NEWLINE past the end. */
static int next_kind(struct parse *parse, uint32_t index, uint32_t end)
{
    for (index++; index < end; index++) {
        if (token_at(parse, index)->kind >= 0)
            return token_at(parse, index)->kind;
    }
    return TOK_NEWLINE;
}

static struct place token_place(struct parse *parse, const struct token *token)
{
    return (struct place){ parse->file, { token->start, token->start + token->length } };
}

static struct text token_text(struct parse *parse, const struct token *token)
{
    return (struct text){ parse->text.bytes + token->start, token->length };
}

/* ---- the token array -------------------------------------------------------------------------------- */

static bool append(struct parse *parse, struct token token)
{
    struct tokens *tokens = &parse->tokens;
    if (tokens->count == tokens->capacity
        && !array_grow(&tokens->allocator, &tokens->at, tokens->count, &tokens->capacity, sizeof token)) {
        tokens->failed = true;
        return false;
    }
    tokens->at[tokens->count++] = token;
    return true;
}

static bool append_made(struct parse *parse, int kind, uint32_t offset)
{
    return append(parse, (struct token){ .start = offset, .kind = (int16_t)kind, .made = true });
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

/* ---- words by their neighbours ---------------------------------------------------------------------- */

static bool keyword_fits(const struct keyword *keyword, struct parse *parse, uint32_t start, uint32_t end, bool block)
{
    int next = next_kind(parse, start, end);
    switch (keyword->needs) {
    case NEEDS_TITLE:
        return next == TOK_STRING || next == RAW_OPEN_STRING || block;
    case NEEDS_WORDS:
        return is_word(next) || next == TOK_STRING || next == RAW_OPEN_STRING || is_figure(next) || block;
    case NEEDS_AMOUNT:
        return is_amount(next) || next == RAW_UP || next == RAW_DASH || next == TOK_NEWLINE || is_word(next);
    case NEEDS_BLOCK:
        return block && next == TOK_NEWLINE;
    }
    return false;
}

static const struct keyword *find_keyword(struct parse *parse, uint32_t start, uint32_t end, bool block)
{
    const struct token *token = token_at(parse, start);
    for (uint32_t i = 0; token->kind == TOK_WORD && i < COUNT_OF(keywords); i++) {
        if (token_is(parse, token, keywords[i].word, keywords[i].length))
            return keyword_fits(&keywords[i], parse, start, end, block) ? &keywords[i] : NULL;
    }
    return NULL;
}

struct settling {
    uint32_t start, end;
    int first;                      /* kind of the first token */
    bool bound, compared, comma, alternatives;
    int previous;
};

static void take_following(struct parse *parse, uint32_t index, uint32_t end, int kind)
{
    for (uint32_t next = index + 1; next < end; next++) {
        struct token *following = token_at(parse, next);
        if (following->kind == TOKEN_GAP || following->kind == TOKEN_COMMENT)
            continue;
        struct token *token = token_at(parse, index);
        token->length = following->start + following->length - token->start;
        token->kind = (int16_t)kind;
        following->kind = TOKEN_GAP;
        return;
    }
}

static const struct token *following_token(struct parse *parse, uint32_t index, uint32_t end)
{
    for (index++; index < end; index++) {
        if (token_at(parse, index)->kind >= 0)
            return token_at(parse, index);
    }
    return NULL;
}

/* `serves -2`: the sign belongs to the number, so that the finding speaks of servings. */
static int take_sign(struct parse *parse, uint32_t index, uint32_t end)
{
    struct token *sign = token_at(parse, index);
    for (uint32_t next = index + 1; next < end; next++) {
        struct token *number = token_at(parse, next);
        if (number->kind != TOK_NUMBER)
            continue;
        number->value = -number->value;
        number->length += number->start - sign->start;
        number->start = sign->start;
        return TOKEN_GAP;
    }
    return TOK_WORD;
}

static int settle_at(struct parse *parse, const struct settling *settling, uint32_t index)
{
    const struct token *next = following_token(parse, index, settling->end);
    int kind = TOK_WORD;
    if (settling->bound && !settling->compared && next && token_is(parse, next, "most", 4))
        kind = TOK_AT_MOST;
    else if (settling->bound && !settling->compared && next && token_is(parse, next, "least", 5))
        kind = TOK_AT_LEAST;
    if (kind != TOK_WORD)
        take_following(parse, index, settling->end, kind);
    return kind;
}

static int settle_up(struct parse *parse, const struct settling *settling, uint32_t index)
{
    uint32_t to = index + 1;
    if (to + 1 >= settling->end || token_at(parse, to)->kind != RAW_TO
        || !is_figure(next_kind(parse, to, settling->end)))
        return TOK_WORD;
    take_following(parse, index, settling->end, TOK_UP_TO);
    return TOK_UP_TO;
}

static int settle_and(const struct settling *settling, int next)
{
    bool amount = is_amount(next) || next == RAW_SOME || next == RAW_UP;
    if (settling->bound)
        return settling->compared && amount ? TOK_AND : TOK_WORD;
    if (settling->alternatives && amount)
        return TOK_AND;
    return settling->comma && !amount ? TOK_COMMA : TOK_WORD;
}

static int settle_raw(struct parse *parse, struct settling *settling, uint32_t index, int raw)
{
    int next = next_kind(parse, index, settling->end);
    bool starts = index == settling->start || settling->previous == TOK_OR || settling->previous == TOK_AND;
    bool compares = settling->bound && !settling->compared && is_figure(next);
    switch (raw) {
    case RAW_DASH:
        if (settling->previous == TOK_SERVES || settling->previous == TOK_MAKES)
            return take_sign(parse, index, settling->end);
        return is_figure(settling->previous) && is_figure(next) ? TOK_RANGE_TO : TOK_WORD;
    case RAW_TO:
        return is_figure(settling->previous) && is_figure(next) ? TOK_RANGE_TO : TOK_WORD;
    case RAW_AND: return settle_and(settling, next);
    case RAW_OR: return index == settling->start ? TOK_OR : TOK_WORD;
    case RAW_IN: return settling->comma && next == TOK_STRING ? TOK_IN_BATH : TOK_WORD;
    case RAW_AT: return settle_at(parse, settling, index);
    case RAW_UP: return settle_up(parse, settling, index);
    case RAW_SOME: return starts ? TOK_SOME : TOK_WORD;
    case RAW_PER: return index == settling->start || settling->compared ? TOK_PER : TOK_WORD;
    case RAW_BETWEEN: return compares ? TOK_BETWEEN : TOK_WORD;
    case RAW_UNDER: return compares ? TOK_UNDER : TOK_WORD;
    case RAW_OVER: return compares ? TOK_OVER : TOK_WORD;
    }
    return raw;
}

static bool is_comparison(int kind)
{
    return kind == TOK_AT_MOST || kind == TOK_AT_LEAST || kind == TOK_UNDER || kind == TOK_OVER || kind == TOK_BETWEEN;
}

/* A quote that nobody closed keeps its title; elsewhere its line is left to the finding. */
static int settle_open_string(const struct settling *settling, uint32_t index)
{
    bool title = index == settling->start + 1 && settling->first != TOK_NUMBER && settling->first != TOK_SOME
              && settling->first != TOK_WORD;
    return title ? TOK_STRING : TOK_GRAMMAR_error;
}

static void settle_tokens(struct parse *parse, struct settling *settling)
{
    for (uint32_t index = settling->start; index < settling->end; index++) {
        struct token *token = token_at(parse, index);
        if (token->kind < 0)
            continue;
        if (token->kind == RAW_OPEN_STRING)
            token->kind = (int16_t)settle_open_string(settling, index);
        else if (token->kind >= RAW_TO)
            token->kind = (int16_t)settle_raw(parse, settling, index, token->kind);
        settling->compared = settling->compared || is_comparison(token->kind);
        settling->comma = settling->comma || token->kind == TOK_COMMA || token->kind == TOK_CLOSE;
        if (index == settling->start) {
            settling->first = token->kind;
            settling->alternatives = token->kind == TOK_OR;
        }
        settling->previous = token->kind;
    }
}

static uint32_t skip_comments(struct parse *parse, uint32_t index)
{
    while (index < parse->tokens.count && token_at(parse, index)->kind < 0)
        index++;
    return index;
}

/* Settles the statement that has just ended; `block` says that an opening brace ends it. */
static void settle_statement(struct parse *parse, bool block)
{
    struct settling settling = { .start = skip_comments(parse, parse->statement), .end = parse->tokens.count };
    if (settling.start >= settling.end)
        return;
    const struct keyword *keyword = find_keyword(parse, settling.start, settling.end, block);
    if (keyword) {
        token_at(parse, settling.start)->kind = keyword->kind;
        settling.bound = keyword->kind == TOK_LIMIT || keyword->kind == TOK_AIM;
    }
    settle_tokens(parse, &settling);
}

/* ---- what is open ------------------------------------------------------------------------------------ */

static void open_parenthesis(struct parse *parse)
{
    if (parse->parenthesis == TABLE_NONE)
        parse->parenthesis = parse->tokens.count - 1;
}

static void close_parenthesis(struct parse *parse)
{
    struct token *token = token_at(parse, parse->tokens.count - 1);
    if (parse->parenthesis == TABLE_NONE) {
        finding_add(parse->findings, FINDING_EXTRA_PARENTHESIS, token_place(parse, token), NO_GAPS);
        token->kind = TOK_GRAMMAR_error;
    }
    parse->parenthesis = TABLE_NONE;
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
    return skip_comments(parse, parse->statement) >= parse->tokens.count;
}

static void begin_statement(struct parse *parse)
{
    parse->statement = parse->tokens.count;
    parse->after_close = false;
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
    const struct keyword *keyword = find_keyword(parse, start, parse->tokens.count, true);
    if (parse->depth == 0 || !at_line_start || !keyword || !keyword->opens)
        return;
    report_open_blocks(parse, token_place(parse, token), WORDS_NEXT_DECLARATION);
    insert_closings(parse, start, parse->depth);
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

/* False when blocks are nested deeper than anyone writes: the rest of the file is left alone. */
static bool open_block(struct parse *parse, struct token token)
{
    if (statement_is_empty(parse))
        join_head(parse);
    end_parenthesis(parse);
    if (!statement_is_empty(parse))
        close_before_declaration(parse, skip_comments(parse, parse->statement));
    settle_statement(parse, true);
    if (parse->depth == LIMIT_NESTING) {
        finding_add(parse->findings, FINDING_TOO_DEEP, token_place(parse, &token), NO_GAPS);
        return false;
    }
    parse->openers[parse->depth++] = token.start;
    append(parse, token);
    begin_statement(parse);
    return true;
}

static void close_block(struct parse *parse, struct token token)
{
    if (!statement_is_empty(parse) || parse->after_close) {
        end_statement(parse);
        append_made(parse, TOK_NEWLINE, token.start);
    }
    begin_statement(parse);
    if (parse->depth == 0) {
        finding_add(parse->findings, FINDING_EXTRA_BRACE, token_place(parse, &token), NO_GAPS);
        token.kind = TOKEN_GAP;
        append(parse, token);
        begin_statement(parse);
        return;
    }
    parse->depth--;
    append(parse, token);
    begin_statement(parse);
    parse->after_close = true;
}

static void end_line(struct parse *parse, struct token token)
{
    if (statement_is_empty(parse) && !parse->after_close)
        token.kind = TOKEN_GAP;
    else
        end_statement(parse);
    append(parse, token);
    begin_statement(parse);
}

static void end_file(struct parse *parse, uint32_t offset)
{
    parse->ended = true;
    if (!statement_is_empty(parse) || parse->after_close) {
        end_statement(parse);
        append_made(parse, TOK_NEWLINE, offset);
    }
    for (; parse->depth > 0; parse->depth--) {
        append_made(parse, TOK_CLOSE, offset);
        append_made(parse, TOK_NEWLINE, offset);
    }
    begin_statement(parse);
}

static void add_to_statement(struct parse *parse, struct token token)
{
    if (parse->after_close && token.kind != TOK_COMMA) {
        append_made(parse, TOK_NEWLINE, token.start);
        begin_statement(parse);
    }
    parse->after_close = false;
    if (!append(parse, token))
        return;
    if (token.kind == TOK_OPEN_PARENTHESIS)
        open_parenthesis(parse);
    else if (token.kind == TOK_CLOSE_PARENTHESIS)
        close_parenthesis(parse);
    else if (token.kind == RAW_OPEN_STRING)
        finding_add(parse->findings, FINDING_MISSING_QUOTE, token_place(parse, &token), GAPS(token_text(parse, &token)));
}

/* Says what is open, ends all of it and stops reading. */
static void stop_reading(struct parse *parse, uint32_t offset)
{
    parse->scanned = parse->text.length;
    end_file(parse, offset);
}

static void take_token(struct parse *parse, struct token token)
{
    switch (token.kind) {
    case TOKEN_COMMENT:
    case TOKEN_DOCUMENT:
        append(parse, token);
        return;
    case TOK_NEWLINE:
        end_line(parse, token);
        return;
    case TOK_OPEN:
        if (!open_block(parse, token))
            stop_reading(parse, token.start);
        return;
    case TOK_CLOSE:
        close_block(parse, token);
        return;
    case TOK_YYEOF:
        if (parse->depth > 0)
            report_open_blocks(parse, (struct place){ parse->file, { token.start, token.start } }, WORDS_END_OF_FILE);
        end_file(parse, token.start);
        return;
    default:
        add_to_statement(parse, token);
    }
}

static bool stretch_is_done(struct parse *parse)
{
    return parse->depth == 0 && !parse->after_close && parse->tokens.count >= STRETCH_TOKENS
        && statement_is_empty(parse);
}

enum status settle_stretch(struct parse *parse)
{
    parse->tokens.count = 0;
    parse->cursor = 0;
    parse->parenthesis = TABLE_NONE;
    begin_statement(parse);
    while (!parse->ended && !parse->tokens.failed && !stretch_is_done(parse)) {
        struct token token;
        scan_next(parse, &token);
        take_token(parse, token);
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
    if (is_figure(kind))
        token->value = number_value(parse, token->start, token->length);
    return true;
}
