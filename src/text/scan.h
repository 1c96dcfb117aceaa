/* What the scanner and the settling pass share; nobody else includes it. */
#ifndef QUERN_TEXT_SCAN_H
#define QUERN_TEXT_SCAN_H

#include <stdlib.h>

#include "text/text.h"

#ifndef YY_TYPEDEF_YY_SCANNER_T
#define YY_TYPEDEF_YY_SCANNER_T
typedef void *yyscan_t;
#endif

struct yy_buffer_state;

/* flex's own functions that are called here. */
int scan_lex(yyscan_t scanner);
int scan_lex_init_extra(struct parse *parse, yyscan_t *scanner);
struct parse *scan_get_extra(yyscan_t scanner);
struct yy_buffer_state *scan__scan_buffer(char *bytes, size_t size, yyscan_t scanner);

/* Memory of the parse for flex, or NULL: then flex would exit, so SCANNER_MEMORY_BYTES is tested to suffice. */
void *scan_memory(struct parse *parse, size_t size);

static inline void scan_advance(struct parse *parse, uint32_t length)
{
    parse->token_start = parse->scanned;
    parse->scanned += length;
}

/* Never reached: it stands where flex would print and exit. */
static inline void scan_fatal(const char *message)
{
    (void)message;
    abort();
}

/* Puts back the byte behind the newest token, which flex has replaced by a NUL until it goes on. */
void scan_restore(yyscan_t scanner);

/* Goes on `length` bytes further than where the newest token ended. */
void scan_skip(yyscan_t scanner, uint32_t length);

/* `1 80/20` is no mixed number: how much of the text is the number. Sets the scanner's place back. */
uint32_t scan_mixed_length(struct parse *parse, const char *text, uint32_t length);

/* A quote without its partner ends before a `{` at the end of its line. Sets the scanner's place back. */
uint32_t scan_cut_open_string(struct parse *parse, const char *text, uint32_t length);

/* The next token of the file, with its value. False when memory failed. */
bool scan_next(struct parse *parse, struct token *token);

/* ---- settle.c */

static inline struct token *token_at(struct parse *parse, uint32_t index)
{
    return &parse->tokens.at[index];
}

/* The first token at or behind `index` that is no gap and no comment. */
uint32_t settle_skip_comments(struct parse *parse, uint32_t index);

/* Settles the statement that has just ended; `block` says that an opening brace ends it. */
void settle_statement(struct parse *parse, bool block);

/* Whether the statement whose first token is `start` is a declaration that closes what is still open; in a week a day is
 * none. */
bool settle_begins_declaration(struct parse *parse, uint32_t start, bool in_week);

#endif
