/* What the files of this room share. Nobody outside it includes this. */
#ifndef QUERN_IMPORT_PARTS_H
#define QUERN_IMPORT_PARTS_H

#include "import/import.h"
#include "library/library.h"

/* ---- csv.c --------------------------------------------------------------------------------------------------- */

enum row_state { ROW_GOOD, ROW_WRONG, ROW_END, ROW_STOP };

struct rows {
    struct allocator allocator;
    int descriptor;
    int reason;                     /* errno when reading failed */
    char *bytes;
    size_t capacity, start, end;    /* read and not yet used */
    uint64_t taken;                 /* bytes read in all */
    uint64_t row;                   /* number of the row that was given last; the first is 1 */
    struct text *fields;
    uint32_t count;
    enum words_code fault;          /* of a wrong row */
    bool ended, doubled;
    char separator, quote;          /* quote 0: there is none */
    bool stops[256];                /* the bytes that end a plain field */
};

/* False when the file cannot be opened (reason) or memory failed (reason is 0). rows_close in any case. */
bool rows_open(struct rows *rows, struct allocator allocator, const char *path);
void rows_signs(struct rows *rows, char separator, char quote);
void rows_close(struct rows *rows);

/* The fields of the next row; they last until the next call. ROW_STOP: reading failed. */
enum row_state rows_next(struct rows *rows);

/* ---- number.c ------------------------------------------------------------------------------------------------ */

enum cell { CELL_EMPTY, CELL_NUMBER, CELL_WORDS, CELL_NEGATIVE, CELL_ABSURD };

/* The number in a cell, with a point or a comma before its decimals. */
enum cell number_read(struct text text, bool comma, double *value);

/* Twelve digits of it: what is left of a number after its unit was changed. */
double number_rounded(double value);

/* Writes it in plain digits. */
void number_add(struct buffer *buffer, double value);

struct text text_trimmed(struct text text);

/* ---- words.c ------------------------------------------------------------------------------------------------- */

/* Adds the bare words of a text: letters in lower case and digits, at most `most` words with single blanks between
 * them. Returns how many; 0 when there is none. */
uint32_t words_add(struct buffer *buffer, struct text text, uint32_t most);

/* Adds the text as it may stand in quotes: on one line, without quotes, at most `most` bytes. */
void words_add_quoted(struct buffer *buffer, struct text text, uint32_t most);

/* Adds the text in UTF-8; false when it is not what it should be. */
bool words_decode(struct buffer *buffer, struct text text, bool latin_1);

/* Drops words at the end until the name has a key that the library can hold; false when none is left. */
bool words_fit(struct buffer *name, size_t start);

/* ---- mapping.c, map_read.c -------------------------------------------------------------------------------------- */

/* What a column is for. */
enum slot {
    SLOT_NUMBER, SLOT_NAME, SLOT_CODE, SLOT_UNIT, SLOT_FOOD, SLOT_NUTRIENT, SLOT_AMOUNT, SLOT_COUNT, SLOT_WORDS,
    SLOT_GRAMS, SLOT_SOURCE, SLOT_GROUP, SLOT_SERVING, SLOT_DENSITY, SLOT_KEEP, SLOT_FIGURE, SLOT_PORTION, SLOTS,
};

struct map_text {
    struct text text;
    struct map_text *next;
};

struct map_column {
    enum slot slot;
    struct text header;             /* or the column is counted from 1 by `number` */
    uint32_t number;
    uint32_t place;                 /* among the fields of its file, once it was looked for */
    uint32_t nutrient;              /* of a figure */
    double factor;                  /* from one in the cell to the nutrient's unit, to grams, to g per ml */
    struct map_column *unit;        /* where a figure's unit is a column of its own, or NULL */
    struct text words;              /* of a portion */
    struct map_text *texts;         /* of SLOT_KEEP: rows with one of these are kept */
    struct span span;
    struct map_column *next;
};

enum role { ROLE_FOODS, ROLE_NUTRIENTS, ROLE_UNITS, ROLE_AMOUNTS, ROLE_PORTIONS, ROLE_COUNT };

struct map_file {
    struct text name;
    struct span span;
    struct map_column *columns, **end;
    struct map_column *first[SLOTS];   /* of each slot, or NULL */
    bool is_named;
};

/* The agency's code of a nutrient; of several the one with the lowest rank counts. */
struct map_code {
    struct text code;
    uint32_t nutrient, rank;
    struct map_code *next;
};

struct mapping {
    const char *path;               /* for findings */
    struct text text;
    bool is_folder, is_found;
    char separator, quote;          /* separator 0: by the name of the file */
    bool latin_1, no_header, decimal_comma, has_basis;
    struct text source, caution, group;
    struct map_text *unknown;
    double basis_grams;             /* figures are per so much; 0: per serving */
    struct map_file files[ROLE_COUNT];  /* of a single table: ROLE_FOODS */
    struct map_code *codes, **codes_end;
};

struct import;

/* Reads the text of a mapping; what is wrong with it is told and counted. */
enum status mapping_read(struct import *import, const char *path, const char *bytes, size_t length);

/* The first column of a slot, or NULL. */
struct map_column *map_column(const struct map_file *file, enum slot slot);

/* What was read of one statement: `name column "Food" …` or `name code 307 …`. */
struct map_statement {
    struct text words;              /* before `column` or `code` */
    struct text value;              /* the first name or number behind it */
    bool is_code, is_counted;
    double factor;                  /* a number between the column and its unit; 1 where there is none */
    struct text unit, unit_value;   /* of the latter: `unit column "…"` */
    bool unit_counted;
    struct map_text *more;          /* behind commas, and further texts */
};

/* Takes a statement apart; false when it is none of that form. */
bool map_statement_read(struct import *import, const struct node *node, struct map_statement *statement);
struct text map_node_words(struct import *import, const struct node *node);

/* Reads a statement of a file's block, or of `per … { }`. */
void map_read_column(struct import *import, enum role role, const struct node *node);
void map_read_figure(struct import *import, const struct node *node);

/* ---- trouble.c ------------------------------------------------------------------------------------------------ */

/* What is wrong with the mapping at a place, and with a row of a table. Both are told and counted. */
void trouble_map(struct import *import, struct span span, enum words_code code, const struct text *gaps, uint32_t count);
void trouble_row(struct import *import, enum role role, uint64_t row, enum words_code code, const struct text *gaps,
                 uint32_t count);

/* The work cannot go on; `path` may be NULL. Returns false. */
bool trouble_stop(struct import *import, enum status status, const char *path, const char *why);
bool trouble_memory(struct import *import);
void trouble_say(struct import *import, struct buffer *words);

/* ---- table.c: a file with its columns found ---------------------------------------------------------------------- */

struct table_file {
    struct rows rows;
    struct import *import;
    enum role role;
    const struct map_file *map;
    char *path;
    struct text name;               /* for messages */
    uint32_t columns;               /* fields of each row; without a header the least that are needed */
};

/* Opens the file and finds its columns; false when the import cannot go on or columns are missing (told). */
bool table_file_open(struct table_file *file, struct import *import, enum role role);
void table_file_close(struct table_file *file);

/* The next good row; wrong ones are told. False at the end, and when the import was stopped. */
bool table_file_next(struct table_file *file);

/* The trimmed cell of the first column with this slot; empty where there is none or it holds an `unknown` word. */
struct text table_cell(const struct table_file *file, const struct map_column *column);
struct text table_slot(const struct table_file *file, enum slot slot);

/* What a column is called in messages. */
struct text table_column_name(const struct map_column *column, char *storage, size_t size);

/* The number in a cell: CELL_EMPTY, CELL_NUMBER, or something else that was told. */
enum cell table_number(struct table_file *file, const struct map_column *column, double *value);

/* Tells that the row is wrong. */
void table_wrong(struct table_file *file, enum words_code code, const struct text *gaps, uint32_t count);

/* ---- figure.c: what amounts can be ---------------------------------------------------------------------------------- */

/* The factor from a unit to the one in which the library counts a nutrient; 0 where it measures something else. */
double figure_factor(const struct import *import, struct text unit, uint32_t nutrient);

/* The unit by its written name, or NULL. */
const struct unit *figure_unit(const struct import *import, struct text name);

/* Whether `grams` of a food can hold so much of a nutrient. */
bool figure_fits(const struct import *import, uint32_t nutrient, double amount, double grams);

/* What the library calls the group; empty where it has none of this name. */
struct text figure_group(const struct import *import, struct text name);

/* ---- food.c: one food in our language ----------------------------------------------------------------------------------- */

struct figures {
    double amounts[LIMIT_NUTRIENTS];
    uint64_t known;
};

/* A food on its way out. The buffers are used again for the next one. */
struct made_food {
    uint64_t row;
    struct text number;             /* in its table; empty where it has none: its row counts */
    struct buffer name;             /* bare words */
    struct buffer source;           /* what a cell adds to the source */
    struct buffer portions;         /* lines, written out */
    struct text group;
    double basis_grams, density;
    struct figures figures;
    uint32_t portion_count;
};

void food_open(struct made_food *food, struct allocator allocator);
void food_close(struct made_food *food);
void food_reset(struct made_food *food);

/* Adds `COUNT words = GRAMS g`; false where the words are no measure that a portion can have. */
bool food_add_portion(struct import *import, struct made_food *food, double count, struct text words, double grams);

/* Gives a finished food to its shelf; one without any figure is only counted. */
bool food_finish(struct import *import, struct made_food *food);

/* ---- parts.c: rows of one food brought together ---------------------------------------------------------------------------- */

enum part_kind { PART_FOOD, PART_LEFT_OUT, PART_AMOUNT, PART_PORTION };

/* What stands before each record of a part; `length` bytes follow. */
struct part_head {
    uint64_t row;
    double value;                   /* of an amount, or the count of a portion */
    double grams;                   /* of a portion */
    uint32_t length;
    uint8_t kind, nutrient, rank, number_length;    /* the number of the food comes first in the bytes */
};

bool parts_open(struct import *import, uint64_t bytes);
bool parts_add(struct import *import, struct part_head head, struct text number, struct text rest);

/* folder.c reads the tables of a folder into parts; join.c the parts, one at a time, into foods. */
bool folder_read(struct import *import);
bool parts_join(struct import *import);

/* ---- single.c ------------------------------------------------------------------------------------------------ */

/* Reads a single table. */
bool single_read(struct import *import);

/* What a row of foods says, in either form; false after it was told that it is wrong. */
bool single_name(struct table_file *file, struct buffer *name);
bool single_source(struct table_file *file, struct buffer *source);
bool single_group(struct table_file *file, struct text *group);

/* Whether the row is one of those that the mapping keeps. */
bool single_kept(const struct table_file *file);

/* ---- shelf.c, output.c: finished foods wait until all names are known, then they are written ----------------------------- */

/* A finished food as it waits. */
struct shelf_head {
    uint64_t row;
    uint32_t name_length, number_length, body_length;
    uint32_t is_renamed;            /* the library has its name */
};

bool shelf_open(struct import *import);
bool shelf_add(struct import *import, struct made_food *food, struct text number_words, struct text body);

/* Marks foods whose name an earlier one has, and writes all of them in order of their rows. */
bool shelf_write(struct import *import);

/* The numbered files. */
bool output_begin(struct import *import);
bool output_add(struct import *import, const char *bytes, size_t length);
bool output_finish(struct import *import);

/* Takes away what was written so far: to begin again, and for good. */
bool output_restart(struct import *import);
void output_discard(struct import *import);

/* ---- import.c ---------------------------------------------------------------------------------------------------------------- */

#define PARTS_MOST 256
#define PART_BYTES ((uint64_t)8 << 20)      /* of the tables, that one part holds */

struct import {
    const struct import_request *request;
    struct import_outcome *outcome;
    struct watched_memory memory;
    struct allocator allocator;     /* the caller's, watched: a word without memory is no word of a table */
    struct arena arena;
    const struct library *library;
    struct mapping mapping;
    struct line_index lines;        /* of the mapping */
    bool lines_made, map_is_wrong;
    enum status status;
    struct text file_names[ROLE_COUNT];
    uint64_t bytes_done, bytes_whole;

    char *scratch;                  /* the hidden folder in which all is written */
    bool folder_made;               /* we made the folder around it */
    FILE *parts[PARTS_MOST];        /* unnamed files */
    uint32_t parts_count, part;     /* `part` is being joined */
    FILE *shelves[PARTS_MOST];
    FILE *keys;
    uint64_t foods_seen;            /* rows of foods, for the marks */
    uint64_t shelved;
    struct buffer work, body;       /* for short use */

    FILE *file;                     /* being written */
    uint64_t file_bytes;
    const char *prefix;
};

/* An unnamed file in the hidden folder, or NULL after trouble_stop. */
FILE *import_scratch_file(struct import *import);

/* Writes to a file of ours; false after trouble_stop. */
bool import_put(struct import *import, FILE *file, const void *bytes, size_t length);

#endif
