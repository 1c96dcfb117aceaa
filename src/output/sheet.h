/* sheet: a report as blocks (headings, paragraphs, lists, tables, bars, scales) that a look turns into lines for a
 * terminal, into Markdown or into HTML. Who tells facts knows no look; a look knows no fact.
 *
 * Words that a report says of its own stand in phrases.def, so that they can be translated; what people wrote comes as
 * text. Everything that a look is given is escaped by it. Words made with sheet_say and sheet_print live until the sheet
 * is closed, or until sheet_forget. */
#ifndef QUERN_OUTPUT_SHEET_H
#define QUERN_OUTPUT_SHEET_H

#include "output/output.h"

/* ---- phrases */

enum report_phrase {
#define PHRASE(symbol, words) PHRASE_##symbol,
#include "output/phrases.def"
#undef PHRASE
    PHRASE_COUNT,
};

/* The words as they stand in the catalogue, their gaps unfilled. */
struct text phrase_text(enum report_phrase phrase);

/* Adds the words with their gaps filled. */
void phrase_fill(struct buffer *buffer, enum report_phrase phrase, const struct text *arguments, uint32_t count);

/* ---- blocks */

enum look { LOOK_TEXT, LOOK_MARKDOWN, LOOK_HTML };

/* How a paragraph is meant; a look sets it off without colour alone. */
enum manner {
    MANNER_PLAIN,
    MANNER_LEAD,                        /* the one figure that everybody looks for */
    MANNER_QUIET,                       /* where something stands, what it is made from */
    MANNER_CAUTION,
    MANNER_DOUBT,                       /* what is estimated, unknown, or does not compare */
    MANNER_EXACT,                       /* kept as it is, blanks and all: excerpts of files */
};

/* How what a cell or mark says has turned out; always said in words as well. */
enum tone { TONE_PLAIN, TONE_KEPT, TONE_BROKEN, TONE_DOUBT };

/* A column of a table: its title, and whether it holds figures, which stand to the right. */
struct sheet_column {
    struct text title;
    bool figures;
};

/* A cell. `value`, when `has_value`, is the unrounded figure behind the words, for machines that read the page; it is the
 * lower end where the words say `at least`. */
struct sheet_cell {
    struct text words;
    struct text link;                   /* a relative reference, or no bytes */
    double value;
    bool has_value;
    enum tone tone;
    uint32_t depth;                     /* of the first cell: how far the row is set in below the one above it */
    double bar;                         /* 0 to 1: drawn as a small bar beside the words; 0: none. The words say the figure */
};

/* A piece of a stacked bar. Patterns and labels tell the pieces apart, not colour alone: `pattern` is a number from 0 to 3,
 * in the order nature, maker, cook, not separable. */
struct sheet_piece {
    struct text label, words;           /* words: its figure */
    double value;
    uint32_t pattern;
};

/* A mark on a scale: a limit, a daily value. */
struct sheet_mark {
    struct text label;
    double value;
    enum tone tone;
};

/* A link to another document of the same folder; one without a reference is where the reader is. */
struct sheet_link {
    struct text words, link;
};

#define SHEET_COLUMNS 8                 /* of a table, at most */

struct sheet;

/* What a look does with each block. Calls come in order: begin, blocks, end; rows between table and table_end. */
struct look_calls {
    void (*begin)(struct sheet *sheet, struct text title);
    void (*end)(struct sheet *sheet);
    void (*heading)(struct sheet *sheet, uint32_t level, struct text words);
    void (*paragraph)(struct sheet *sheet, enum manner manner, struct text words);
    void (*list)(struct sheet *sheet, bool numbered);
    void (*item)(struct sheet *sheet, struct text words);
    void (*list_end)(struct sheet *sheet);
    void (*table)(struct sheet *sheet, struct text caption);
    void (*row)(struct sheet *sheet, const struct sheet_cell *cells);
    void (*table_end)(struct sheet *sheet);
    void (*bar)(struct sheet *sheet, struct text title, const struct sheet_piece *pieces, uint32_t count);
    void (*scale)(struct sheet *sheet, struct text title, struct range value, bool complete, struct text words,
                  const struct sheet_mark *marks, uint32_t count);
    void (*links)(struct sheet *sheet, struct text title, const struct sheet_link *links, uint32_t count);
    void (*begin_all)(struct sheet *sheet, struct text title);
    void (*end_all)(struct sheet *sheet);
};

extern const struct look_calls look_text;       /* sheet_text.c */
extern const struct look_calls look_markdown;   /* sheet_markdown.c */
extern const struct look_calls look_html;       /* sheet_html.c */

struct sheet {
    const struct look_calls *look;
    struct writer *writer;
    struct arena arena;                 /* words that were made */
    struct sheet_column columns[SHEET_COLUMNS];     /* of the table that is open */
    uint32_t column_count;
    struct sheet_cell *cells;           /* of all its rows, for a look that has to see all of a table first */
    uint32_t cell_count, cell_capacity;
    uint32_t number;                    /* of the items of a numbered list; 0: not numbered */
    uint32_t pictures;                  /* drawn so far: each needs names of its own */
    uint32_t tables;                    /* told so far, for the same */
    uint32_t documents;                 /* begun so far between begin_all and end_all */
    uint64_t heading;                   /* hash of the heading right before: a caption that says the same is hidden; 0: none is */
    bool in_section, in_all;
    bool large;                         /* large print, for handouts */
};

/* The look of a form; text for what is told to people and has none of its own. */
enum look sheet_look(enum quern_form form);

/* Opens a sheet that writes to `writer`, which outlives it. */
void sheet_open(struct sheet *sheet, enum look look, struct writer *writer, struct allocator allocator);
void sheet_close(struct sheet *sheet);

/* Whether what is told travels without the files that it is told of: then it holds the recipe, too, and pictures. */
static inline bool sheet_travels(const struct sheet *sheet)
{
    return sheet->look != &look_text;
}

/* Frees the words made so far; nothing that was made is used afterwards. */
void sheet_forget(struct sheet *sheet);

/* Words of the catalogue with their gaps `{0}`, `{1}`, … filled; the arguments are texts. "" when memory fails, which
 * the writer remembers. */
struct text sheet_fill(struct sheet *sheet, enum report_phrase phrase, const struct text *arguments);
#define SHEET_ARGUMENTS_END ((struct text){ NULL, UINT32_MAX })
#define sheet_say(sheet, phrase, ...) sheet_fill((sheet), (phrase), (const struct text[]){ __VA_ARGS__, SHEET_ARGUMENTS_END })

/* A source as people read it: what is from memory is not checked. `told`: that is said beside it, so it is left out. */
struct text sheet_source(struct sheet *sheet, struct text source, bool told);

/* What a buffer holds, as words of the sheet. */
struct text sheet_keep(struct sheet *sheet, const struct buffer *buffer);

/* Figures and names put together; words belong into the catalogue. */
struct text sheet_print(struct sheet *sheet, const char *format, ...) QUERN_PRINTF(2, 3);

/* A figure with so many places; beyond 15 digits, more than a double carries, with three of them and an exponent. Never -0. */
struct text sheet_fixed(struct sheet *sheet, int places, double figure);

/* A document begins with its title, and ends. Between stand blocks; headings have level 2 or 3. */
void sheet_begin(struct sheet *sheet, struct text title);
void sheet_end(struct sheet *sheet);

/* Several documents in one, under a title of their own, which a look may leave out. */
void sheet_begin_all(struct sheet *sheet, struct text title);
void sheet_end_all(struct sheet *sheet);

void sheet_heading(struct sheet *sheet, uint32_t level, struct text words);
void sheet_paragraph(struct sheet *sheet, enum manner manner, struct text words);

/* A list: its items, and its end. */
void sheet_list(struct sheet *sheet, bool numbered);
void sheet_item(struct sheet *sheet, struct text words);
void sheet_list_end(struct sheet *sheet);

/* A table: its caption (a look may hide it from the eye, where a heading says the same), its columns, SHEET_COLUMNS at most.
 * The first cell of a row names the row. As many cells as columns; their words may go once the row is told. */
void sheet_table(struct sheet *sheet, struct text caption, const struct sheet_column *columns, uint32_t count);
void sheet_row(struct sheet *sheet, const struct sheet_cell *cells);
void sheet_table_end(struct sheet *sheet);

/* Cells: words alone, and words with the figure behind them. */
struct sheet_cell cell_words(struct text words);
struct sheet_cell cell_figure(struct text words, double value);

/* Where an amount comes from, as one bar in pieces. */
void sheet_bar(struct sheet *sheet, struct text title, const struct sheet_piece *pieces, uint32_t count);

/* A value with its range beside marks, from 0. `complete` false: more than value.low, nobody knows how much. */
void sheet_scale(struct sheet *sheet, struct text title, struct range value, bool complete, struct text words,
                 const struct sheet_mark *marks, uint32_t count);

/* Ways to other documents; forms that are no documents of a folder leave them out. */
void sheet_links(struct sheet *sheet, struct text title, const struct sheet_link *links, uint32_t count);

#endif
