/* Cells of CSV. */
#include <math.h>
#include <string.h>

#include "output/csv.h"

static bool needs_quotes(struct text cell)
{
    for (uint32_t i = 0; i < cell.length; i++) {
        if (strchr("\",\r\n", cell.bytes[i]))
            return true;
    }
    return false;
}

/* Blanks in front do not keep a spreadsheet from it. */
static bool is_formula(struct text cell)
{
    uint32_t at = 0;
    while (at < cell.length && cell.bytes[at] == ' ')
        at++;
    return at < cell.length && strchr("=+-@\t\r\n", cell.bytes[at]) != NULL;
}

void csv_cell(struct csv *csv, struct text cell)
{
    struct writer *writer = csv->writer;
    bool quotes = needs_quotes(cell);
    writer_add(writer, text_of(csv->is_begun ? "," : ""));
    writer_add(writer, text_of(quotes ? "\"" : ""));
    writer_add(writer, text_of(is_formula(cell) ? "'" : ""));
    for (uint32_t i = 0; i < cell.length;) {
        const char *quote = memchr(cell.bytes + i, '"', cell.length - i);
        uint32_t end = quote ? (uint32_t)(quote - cell.bytes) : cell.length;
        writer_visible_lines(writer, (struct text){ cell.bytes + i, end - i });
        writer_add(writer, text_of(quote ? "\"\"" : ""));
        i = end + (quote ? 1 : 0);
    }
    writer_add(writer, text_of(quotes ? "\"" : ""));
    csv->is_begun = true;
}

void csv_figure(struct csv *csv, double figure, bool is_known)
{
    writer_add(csv->writer, text_of(csv->is_begun ? "," : ""));
    if (is_known && isfinite(figure))
        writer_print(csv->writer, "%.15g", figure);
    else
        writer_add(csv->writer, text_of("unknown"));
    csv->is_begun = true;
}

void csv_range(struct csv *csv, struct range amount, bool is_known)
{
    csv_figure(csv, amount.low, is_known);
    csv_figure(csv, amount.best, is_known);
    csv_figure(csv, amount.high, is_known);
}

void csv_sum(struct csv *csv, struct range amount, bool complete)
{
    csv_figure(csv, amount.low, true);
    csv_figure(csv, amount.best, complete);
    csv_figure(csv, amount.high, complete);
}

void csv_end_line(struct csv *csv)
{
    writer_add(csv->writer, text_of("\r\n"));
    csv->is_begun = false;
}
