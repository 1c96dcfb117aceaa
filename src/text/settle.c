/* Words by their neighbours: one statement at a time is settled, so that the parser meets only tokens that mean one
 * thing. It knows the language, never the kitchen. stretch.c gathers the statements. */
#include <math.h>
#include <string.h>

#include "text/scan.h"
#include "quern.tab.h"

enum needs { NEEDS_TITLE, NEEDS_WORDS, NEEDS_AMOUNT, NEEDS_BLOCK };

struct keyword {
    const char *word;
    uint32_t length;
    enum needs needs;
    bool opens;
    int16_t kind;
    const char *now;                /* of a word that was a keyword before: the one that took its place */
};

static const struct keyword keywords[] = {
#define KEYWORD(symbol, word, needs, opens) { word, sizeof word - 1, needs, opens, TOK_##symbol, NULL },
#include "text/keywords.def"
#undef KEYWORD
    { "aim", 3, NEEDS_WORDS, false, TOK_GOAL, "goal" },
    { "swap", 4, NEEDS_WORDS, false, TOK_REPLACE, "replace" },
};

/* ---- small looks ---------------------------------------------------------------------------------- */

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
    bool bound, compared, comma, alternatives, replacing;
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

static bool is_amount_ahead(int next)
{
    return is_amount(next) || next == RAW_SOME || next == RAW_UP;
}

static bool following_touches(struct parse *parse, uint32_t index, uint32_t end)
{
    const struct token *next = following_token(parse, index, end);
    return next && next->touches;
}

/* `-2`: the sign belongs to the number. Of servings another finding speaks; elsewhere nothing is below zero. */
static int take_sign(struct parse *parse, const struct settling *settling, uint32_t index)
{
    const struct token *sign = token_at(parse, index);
    uint32_t next = index + 1;
    while (next < settling->end && token_at(parse, next)->kind < 0)
        next++;
    struct token *number = token_at(parse, next);
    number->length += number->start - sign->start;
    number->start = sign->start;
    bool servings = settling->previous == TOK_SERVES || settling->previous == TOK_MAKES;
    if (!servings)
        finding_add(parse->findings, FINDING_NEGATIVE,
                    (struct place){ parse->file, { number->start, number->start + number->length } }, NO_GAPS);
    number->value = servings ? -number->value : NAN;
    return TOKEN_GAP;
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
    if (settling->comma && !amount)
        return settling->previous == TOK_COMMA ? TOKEN_GAP : TOK_COMMA;     /* `peeled, seeded, and diced` */
    return TOK_WORD;
}

static int settle_raw(struct parse *parse, struct settling *settling, uint32_t index, int raw)
{
    int next = next_kind(parse, index, settling->end);
    bool starts = index == settling->start || settling->previous == TOK_OR || settling->previous == TOK_AND;
    bool compares = settling->bound && !settling->compared && is_figure(next);
    switch (raw) {
    case RAW_DASH:
        if (is_figure(settling->previous) && is_figure(next))
            return TOK_RANGE_TO;
        if (index == settling->start && is_amount_ahead(next) && !following_touches(parse, index, settling->end))
            return TOKEN_GAP;                       /* a bullet */
        return is_figure(next) ? take_sign(parse, settling, index) : TOK_WORD;
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

/* `2026-02-01`, without blanks, is one word: whoever reads it tells whether it is a day of the calendar. */
static void take_date(struct parse *parse, const struct settling *settling, uint32_t index)
{
    struct token *token = token_at(parse, index);
    if (token->length != 4 || settling->end - index < 5)
        return;
    for (uint32_t i = 1; i < 5; i++) {
        const struct token *part = token_at(parse, index + i);
        bool fits = i % 2 ? part->kind == RAW_DASH && part->length == 1 : part->kind == TOK_NUMBER && part->length <= 2;
        if (!fits || !part->touches)
            return;
    }
    const struct token *last = token_at(parse, index + 4);
    token->length = last->start + last->length - token->start;
    token->kind = TOK_WORD;
    for (uint32_t i = 1; i < 5; i++)
        token_at(parse, index + i)->kind = TOKEN_GAP;
}

static void settle_tokens(struct parse *parse, struct settling *settling)
{
    for (uint32_t index = settling->start; index < settling->end; index++) {
        struct token *token = token_at(parse, index);
        if (token->kind < 0)
            continue;
        if (token->kind == TOK_NUMBER)
            take_date(parse, settling, index);
        if (token->kind == RAW_OPEN_STRING)
            token->kind = (int16_t)settle_open_string(settling, index);
        else if (token->kind >= RAW_TO)
            token->kind = (int16_t)settle_raw(parse, settling, index, token->kind);
        if (token->kind == TOKEN_GAP) {             /* a sign or a bullet: the statement begins behind it */
            settling->start += index == settling->start;
            continue;
        }
        if (settling->replacing && index > settling->start && token->kind == TOK_WORD && token_is(parse, token, "with", 4)) {
            token->kind = TOK_WITH;                 /* the first one; a name with this word in it goes into quotes */
            settling->replacing = false;
        }
        settling->compared = settling->compared || is_comparison(token->kind);
        settling->comma = settling->comma || token->kind == TOK_COMMA || token->kind == TOK_CLOSE;
        if (index == settling->start) {
            settling->first = token->kind;
            settling->alternatives = token->kind == TOK_OR;
        }
        settling->previous = token->kind;
    }
}

uint32_t settle_skip_comments(struct parse *parse, uint32_t index)
{
    while (index < parse->tokens.count && token_at(parse, index)->kind < 0)
        index++;
    return index;
}

/* The statement is read on as if the word of today stood there, so that one slip is one finding. */
static void report_former(struct parse *parse, const struct token *token, const char *now)
{
    struct span span = { token->start, token->start + token->length };
    finding_former_word(parse->findings, (struct place){ parse->file, span }, span_text(parse->text, span), now);
}

/* Settles the statement that has just ended; `block` says that an opening brace ends it. */
void settle_statement(struct parse *parse, bool block)
{
    struct settling settling = { .start = settle_skip_comments(parse, parse->statement), .end = parse->tokens.count };
    if (settling.start >= settling.end)
        return;
    const struct keyword *keyword = find_keyword(parse, settling.start, settling.end, block);
    if (keyword) {
        token_at(parse, settling.start)->kind = keyword->kind;
        settling.bound = keyword->kind == TOK_LIMIT || keyword->kind == TOK_GOAL;
        settling.replacing = keyword->kind == TOK_REPLACE;
        if (keyword->now)
            report_former(parse, token_at(parse, settling.start), keyword->now);
    }
    settle_tokens(parse, &settling);
}

bool settle_begins_declaration(struct parse *parse, uint32_t start, bool in_week)
{
    const struct keyword *keyword = find_keyword(parse, start, parse->tokens.count, true);
    return keyword && keyword->opens && !(in_week && keyword->kind == TOK_DAY);
}
