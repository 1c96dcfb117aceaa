/* Shared by the files of the look for pages: text escaped for HTML, and pictures. */
#ifndef QUERN_OUTPUT_HTML_H
#define QUERN_OUTPUT_HTML_H

#include "output/sheet.h"

/* ---- sheet_html.c */

/* Text between tags or within quotes: what HTML reads as its own is escaped, control characters are made visible. */
void html_text(struct writer *writer, struct text text);

/* Words; with `has_value`, inside an element that holds the figure behind them, as JSON prints it. A figure that is not
 * finite is left out. */
void html_figure(struct writer *writer, struct text words, double value, bool has_value);

/* The class of a tone; "" for TONE_PLAIN. */
const char *html_tone(enum tone tone);

/* ---- sheet_pictures.c: drawn in shares of the width and in letters of height, so that they grow with both. Each has a
 * title, a description in words, and a key below it. */
void html_bar(struct sheet *sheet, struct text title, const struct sheet_piece *pieces, uint32_t count);
void html_scale(struct sheet *sheet, struct text title, struct range value, bool complete, struct text words,
                const struct sheet_mark *marks, uint32_t count);

/* The small bar of a cell. */
void html_cell_bar(struct writer *writer, double share);

#endif
