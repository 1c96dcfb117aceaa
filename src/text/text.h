/* text: from bytes to a syntax tree. A file is looked over once (check.c), cut into tokens by the scanner
 * (grammar/quern.l), settled by neighbours (settle.c), and parsed (grammar/quern.y).
 *
 * Spans are byte offsets into the file. A tree lives in the parse's arena, which is rewound after each
 * declaration at the top of a file unless its receiver keeps it. */
#ifndef QUERN_TEXT_H
#define QUERN_TEXT_H

#include "base/base.h"
#include "finding/finding.h"

/* ---- tree ---------------------------------------------------------------------------------------- */

enum quantity_kind {
    QUANTITY_NONE,
    QUANTITY_NUMBER,        /* 2 */
    QUANTITY_RANGE,         /* 2 to 3, up to 1/4 */
    QUANTITY_SOME,          /* unmeasured */
    QUANTITY_BLANK,         /* ?: the compiler is asked */
    QUANTITY_BAD,           /* a number that a finding speaks of */
};

struct quantity {
    enum quantity_kind kind;
    bool is_percent;        /* then low and high are shares: 54% is 0.54 */
    double low, high;
    struct span span;
};

enum item_kind {
    ITEM_WORD,
    ITEM_STRING,            /* the span is what stands between the quotes */
    ITEM_NUMBER,            /* a number or percent inside a name or a phrase */
    ITEM_RANGE,             /* 20 to 25 inside a phrase */
    ITEM_GROUP,             /* ( … ) */
    ITEM_BATH,              /* in "bath" */
};

struct item {
    struct item *next;
    struct item *inside;    /* of a group or a bath */
    const struct quantity *quantity;    /* of a number or a range, else NULL */
    struct span span;
    enum item_kind kind;
    bool touches;           /* no blank before it: `15oz` */
};

struct items {
    struct item *first, *last;
};

/* What stands between two commas. */
struct phrase {
    struct span span;
    struct item *items;
    struct phrase *next;
};

struct phrases {
    struct phrase *first, *last;
};

enum comparison {
    COMPARE_NONE,
    COMPARE_AT_MOST,
    COMPARE_AT_LEAST,
    COMPARE_UNDER,
    COMPARE_OVER,
    COMPARE_BETWEEN,
};

enum node_kind {
    NODE_INGREDIENT,        /* quantity items, phrases */
    NODE_PORTION,           /* quantity items = quantity items */
    NODE_ALTERNATIVE,       /* or … */
    NODE_BOUND,             /* limit or goal */
    NODE_PER,               /* per 100 g { … } */
    NODE_KNOWLEDGE,         /* words [amount [(range)]] ["string"] [{ … }] */
    NODE_BROKEN,            /* a statement that a finding speaks of */
#define KEYWORD(symbol, word, needs, opens) NODE_##symbol,
#include "text/keywords.def"
#undef KEYWORD
    NODE_COUNT
};

/* One statement. What it uses depends on its kind; see grammar/quern.y. */
struct node {
    enum node_kind kind;
    bool has_body;
    enum comparison comparison;
    struct span span, keyword;
    struct span document;           /* the ## comments before it */
    struct items items;             /* head or name */
    struct quantity quantity, second;
    struct items unit;              /* words after the quantity of knowledge, or right of = */
    struct items per;               /* after a bound: per serving, by mass */
    struct phrases names;           /* further names in the head, after commas */
    struct phrases phrases;         /* after the items or the block */
    struct node *body, *next;
    uint32_t remembered;            /* 1 + its owner's number of a line that was parsed before: it has no items */
};

struct nodes {
    struct node *first, *last;
};

/* ---- tokens -------------------------------------------------------------------------------------- */

/* Blanks are the gaps between tokens; comments are tokens. So the tokens and the gaps joined are the file. */
struct token {
    uint32_t start, length;
    int16_t kind;                   /* a TOK_ of the grammar, TOKEN_COMMENT or TOKEN_DOCUMENT */
    bool touches;                   /* no blank before it */
    bool made;                      /* stands nowhere in the file: a closing brace given out */
    double value;                   /* of numbers and percents (as a share); of a TOK_LINE its first in `recalled` */
};

enum {
    TOKEN_COMMENT = -2,
    TOKEN_DOCUMENT = -3,
    TOKEN_GAP = -4,                 /* taken into its neighbour, or a line end that ends nothing */
};

/* What the scanner cannot tell alone; settle.c makes a token of the grammar or a plain word of each. */
enum {
    RAW_TO = 1000, RAW_AND, RAW_OR, RAW_IN, RAW_AT, RAW_UP, RAW_SOME, RAW_PER, RAW_BETWEEN, RAW_UNDER, RAW_OVER,
    RAW_DASH, RAW_OPEN_STRING,
};

struct tokens {
    struct allocator allocator;
    struct token *at;
    uint32_t count, capacity;
    bool failed;
};

/* ---- remembered lines: memory.c -------------------------------------------------------------------- */

/* Cooks write the same lines again and again. An ingredient line that was parsed and collected once is found by its
 * bytes, and its owner's number for what it says is used again without scanning and parsing. */
struct remembered {
    uint32_t number;                /* the owner's number */
    uint32_t length;
    char bytes[];                   /* right behind, since a line is looked up far more often than it is new */
};

/* One of the remembered lines behind a TOK_LINE. */
struct recalled_line {
    struct span span;
    uint32_t number;                /* the owner's */
    bool is_last;                   /* of its token */
};

struct line_memory {
    struct buffer records;          /* one behind the other, aligned */
    uint32_t count;
    struct table table;             /* to where in the buffer */
};

/* An empty memory, and its end. */
void line_memory_open(struct line_memory *memory, struct allocator allocator);
void line_memory_close(struct line_memory *memory);

/* The owner's number of the line with these bytes, or TABLE_NONE. */
uint32_t line_memory_find(const struct line_memory *memory, struct text text);

/* Remembers a line that is not there yet. Where memory is short it is simply not remembered. */
void line_memory_add(struct line_memory *memory, struct text text, uint32_t number);

/* ---- parse --------------------------------------------------------------------------------------- */

#define SCANNER_MEMORY_BYTES 1024   /* what flex asks for; it never has to ask the system */

/* Takes each declaration at the top of a file; true to keep its tree. */
typedef bool declaration_receiver(void *context, struct node *node);

struct parse {
    struct text text;
    uint32_t file;                  /* for the places of findings */
    struct arena *arena;            /* trees */
    struct findings *findings;
    declaration_receiver *receive;
    void *context;
    struct line_memory *memory;     /* or NULL: every line is parsed */

    void *scanner;                  /* flex's, in scanner_memory */
    uint32_t scanner_used;
    uint32_t scanned;               /* bytes that the scanner has read */
    uint32_t token_start;           /* where the newest token begins */
    struct tokens tokens;           /* one stretch of the file: whole statements at the top */
    struct recalled_line *recalled; /* of the same stretch */
    uint32_t recalled_count, recalled_capacity;
    uint32_t cursor;                /* next token to parse */
    uint32_t statement;             /* first token of the statement being settled */
    uint32_t depth;                 /* open blocks in the settled part */
    uint32_t openers[LIMIT_NESTING];/* their places */
    uint64_t headless;              /* a bit for each open block that has no head: a finding speaks of it */
    uint64_t weeks;                 /* a bit for each open block that is a week: days may be declared in it */
    struct span first_headless;
    bool too_deep;                  /* the rest of the file was not read */
    uint32_t parenthesis;           /* token of the outermost open parenthesis, or TABLE_NONE */
    uint32_t parentheses;           /* how many are open */
    bool told_parenthesis;          /* a finding speaks of one that closes nothing */
    struct span document;           /* ## comments waiting for their declaration */
    struct arena_mark mark;
    struct span last_token;
    bool after_close;               /* a block was closed and its statement has not ended */
    bool in_declaration;            /* the parser has met its first word: ## belongs to no other */
    bool ended;                     /* the scanner has met the end of the file */
    _Alignas(16) unsigned char scanner_memory[SCANNER_MEMORY_BYTES];
};

/* Opens a parse that is used for file after file; `allocator` serves the token array and the scanner. */
void parse_open(struct parse *parse, struct allocator allocator, struct arena *arena, struct findings *findings,
                declaration_receiver *receive, void *context);
void parse_close(struct parse *parse);

/* Gets ready for one text without parsing it: settle_stretch may then be called by hand. */
enum status parse_start(struct parse *parse, uint32_t file, char *bytes, uint32_t length);

/* Reads one text. Findings are added; each declaration goes to the receiver. `bytes` must have two NULs behind
 * `length` and may be changed by the scanner while it works. STATUS_NO_MEMORY or STATUS_OK. */
enum status parse_text(struct parse *parse, uint32_t file, char *bytes, uint32_t length);

/* ---- check.c: invalid UTF-8, NUL and control characters become findings, and blanks in the text. */
void text_check(struct parse *parse, char *bytes, uint32_t length);

/* ---- settle.c: the pass between scanner and parser. Appends scanned tokens until whole statements stand at
 * the top of a file, tells words by their neighbours, and gives out what the file leaves open. */
enum status settle_stretch(struct parse *parse);

/* ---- number.c: the value of a written number; adds a finding and gives 0 for one that has none. */
double number_value(struct parse *parse, uint32_t start, uint32_t length);

/* ---- items.c: among items whose spans count from the start of the text */

/* The first item that is written as this word, or NULL. */
const struct item *items_find_word(struct text text, const struct item *items, const char *word);

/* What is written from `first` up to, not including, `end`, which may be NULL. */
struct text items_between(struct text text, const struct item *first, const struct item *end);

/* ---- lines.c */

/* Where the lines of a text begin. */
struct line_index {
    struct allocator allocator;
    uint32_t *starts;
    uint32_t count, capacity;
    uint32_t seen_offset, seen_column;  /* a place that was passed: later ones on its line count from there */
};

bool line_index_make(struct line_index *index, struct allocator allocator, struct text text);
void line_index_close(struct line_index *index);

/* Line and column of a byte, both from 1; the column counts characters, not bytes. */
void line_index_find(struct line_index *index, struct text text, uint32_t offset, uint32_t *line,
                     uint32_t *column);

/* The line without its end. */
struct text line_text(const struct line_index *index, struct text text, uint32_t line);

/* The written text of a span. */
struct text span_text(struct text text, struct span span);

/* A deep copy into another arena, spans moved down by `shift` bytes. */
struct item *items_copy(struct arena *arena, const struct item *items, uint32_t shift);
struct phrase *phrases_copy(struct arena *arena, const struct phrase *phrases, uint32_t shift);

#endif
