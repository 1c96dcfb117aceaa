/* csv: cells and lines of CSV, as RFC 4180 has it: CR and LF behind each line, cells with commas, quotes or line breaks
 * in quotes. A text that a spreadsheet would take for a formula gets an apostrophe in front; figures never do. */
#ifndef QUERN_OUTPUT_CSV_H
#define QUERN_OUTPUT_CSV_H

#include "output/output.h"

struct csv {
    struct writer *writer;
    bool is_begun;                      /* the line has a cell */
};

/* A cell of words; line ends in them stay. */
void csv_cell(struct csv *csv, struct text cell);

/* A figure, unrounded; `unknown` where nobody knows it. */
void csv_figure(struct csv *csv, double figure, bool is_known);

/* Three cells: low, best, high. Of a sum that is not `complete`, low is the part that is known; `is_known` false: all
 * three are unknown. */
void csv_range(struct csv *csv, struct range amount, bool is_known);
void csv_sum(struct csv *csv, struct range amount, bool complete);

/* Ends a row. */
void csv_end_line(struct csv *csv);

/* csv_report.c: a recipe, day or week, a row for each nutrient; or a recipe or day, a row for each line. The heads
 * stand before the first of them. */
void csv_nutrient_heads(struct writer *writer);
void csv_nutrients(struct showing *showing, const struct report *report);
void csv_line_heads(struct showing *showing);
void csv_lines(struct showing *showing, const struct report *report);

/* A finding that stands in no recipe, as a row among those of nutrients or of lines. */
void csv_finding(struct showing *showing, const struct finding *finding, bool among_lines);

#endif
