/* Shared by the files that tell a trace on a sheet: rows of low, best and high with the number of their source. */
#ifndef QUERN_OUTPUT_TRACE_ROWS_H
#define QUERN_OUTPUT_TRACE_ROWS_H

#include "output/sheet.h"
#include "output/trace.h"

struct trace_rows {
    struct trace *trace;
    struct sheet *sheet;
    struct text name, unit;             /* of the column */
    struct text *sources;               /* told so far, in the order of their numbers */
    uint32_t source_count, source_capacity;
};

/* A table of rows begins. */
void rows_table(struct trace_rows *rows, struct text caption);

/* A row of figures; `known` false: only `low` is. `source` has no bytes where there is none. */
void rows_add(struct trace_rows *rows, uint32_t depth, struct text words, struct range range, bool known, struct text source);

/* A row of words alone. */
void rows_say(struct trace_rows *rows, uint32_t depth, struct text words, struct text source);

/* The number of a source in brackets; no bytes where there is none. */
struct text rows_source(struct trace_rows *rows, struct text source);

/* ---- trace_lines.c: the table of one line. And what was done to it before its first bath (0), or behind one; false
 * where that changes nothing of the column. */
void rows_line(struct trace_rows *rows, const struct traced_recipe *recipe, uint32_t number);
bool rows_treatments(struct trace_rows *rows, const struct traced_line *line, uint32_t baths);

/* ---- trace_dish.c: what happened to the line in the dish; all baths. */
void rows_moves(struct trace_rows *rows, const struct traced_recipe *recipe, uint32_t number);
void rows_baths(struct trace_rows *rows, const struct traced_recipe *recipe);

/* ---- trace_sheet.c: what a recipe is held to, under a heading, what the trace is about or all of it; nothing where there is none. */
void rows_limits(struct trace_rows *rows, const struct traced_recipe *recipe, uint32_t level, bool all);

/* The look of a form; all recipes; program, library and rules; the numbered sources; the cautions. */
enum look rows_look(enum quern_form form);
void rows_recipes(struct trace_rows *rows);
void rows_program(struct trace_rows *rows);
void rows_sources(struct trace_rows *rows);
void rows_cautions(struct trace_rows *rows, const struct traced_recipe *recipe);

#endif
