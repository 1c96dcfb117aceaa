/* The look for pages: one file that loads nothing and runs nothing. The style is one for all pages, page.css, which the
 * page's policy names by its hash; nothing else may style it. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "output/html.h"

extern const char quern_page_css[], quern_page_css_hash[];

#define DEEPEST 6                       /* rows are set in no further than the style knows */

/* ---- text ---- */

/* What is to stand for the byte; NULL for itself. */
static const char *entity_of(char byte)
{
    switch (byte) {
    case '&': return "&amp;";
    case '<': return "&lt;";
    case '>': return "&gt;";
    case '"': return "&quot;";
    case '\'': return "&#39;";
    default: return NULL;
    }
}

static void add_escaped(struct buffer *buffer, struct text text)
{
    uint32_t from = 0;
    for (uint32_t at = 0; at < text.length; at++) {
        const char *entity = entity_of(text.bytes[at]);
        if (!entity)
            continue;
        buffer_add(buffer, text.bytes + from, at - from);
        buffer_add_string(buffer, entity);
        from = at + 1;
    }
    buffer_add(buffer, text.bytes + from, text.length - from);
}

static bool is_plain(struct text text)
{
    for (uint32_t at = 0; at < text.length; at++) {
        unsigned char byte = (unsigned char)text.bytes[at];
        if (byte < 0x20 || byte >= 0x7f)
            return false;
    }
    return true;
}

void html_text(struct writer *writer, struct text text)
{
    struct buffer visible;
    if (is_plain(text)) {
        add_escaped(&writer->buffer, text);
    } else {
        buffer_open(&visible, writer->buffer.allocator);
        buffer_add_visible(&visible, text);
        writer_needs(writer, !visible.failed);
        add_escaped(&writer->buffer, (struct text){ visible.bytes, (uint32_t)visible.length });
        buffer_close(&visible);
    }
    writer_add(writer, text_of(""));
}

void html_figure(struct writer *writer, struct text words, double value, bool has_value)
{
    char number[40];
    if (!has_value || !isfinite(value)) {
        html_text(writer, words);
        return;
    }
    snprintf(number, sizeof number, "%.15g", value);
    if (strtod(number, NULL) != value)
        snprintf(number, sizeof number, "%.17g", value);
    writer_print(writer, "<data value=\"%s\">", number);
    html_text(writer, words);
    writer_add(writer, text_of("</data>"));
}

const char *html_tone(enum tone tone)
{
    static const char *const classes[] = { "", "kept", "broken", "doubtful" };
    return classes[tone];
}

/* `<NAME class="CLASS">words</NAME>` and a line end. */
static void element(struct sheet *sheet, const char *name, const char *class, struct text words)
{
    writer_print(sheet->writer, *class ? "<%s class=\"%s\">" : "<%s>", name, class);
    html_text(sheet->writer, words);
    writer_print(sheet->writer, "</%s>\n", name);
}

/* ---- documents ---- */

static void page_head(struct sheet *sheet, struct text title)
{
    struct writer *writer = sheet->writer;
    writer_print(writer,
                 "<!DOCTYPE html>\n<html lang=\"en\"%s>\n<head>\n<meta charset=\"utf-8\">\n"
                 "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'sha256-%s'; "
                 "img-src data:; base-uri 'none'; form-action 'none'\">\n"
                 "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                 "<meta name=\"generator\" content=\"quern %s\">\n<title>",
                 sheet->large ? " class=\"large\"" : "", quern_page_css_hash, quern_version());
    html_text(writer, title);
    writer_add(writer, text_of("</title>\n<link rel=\"icon\" href=\"data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' "
                               "viewBox='0 0 16 16'%3E%3Ccircle cx='8' cy='8' r='5' fill='none' stroke='%239a5a2a' "
                               "stroke-width='5'/%3E%3C/svg%3E\">\n<style>"));
    writer_add(writer, text_of(quern_page_css));
    writer_add(writer, text_of("</style>\n</head>\n<body>\n<main>\n"));
}

static void close_section(struct sheet *sheet)
{
    if (sheet->in_section)
        writer_add(sheet->writer, text_of("</section>\n"));
    sheet->in_section = false;
}

static void begin(struct sheet *sheet, struct text title)
{
    if (sheet->in_all) {
        writer_print(sheet->writer, "<article aria-labelledby=\"a%u\">\n<h2 id=\"a%u\">", sheet->documents + 1, sheet->documents + 1);
        html_text(sheet->writer, title);
        writer_add(sheet->writer, text_of("</h2>\n"));
        sheet->documents++;
    } else {
        page_head(sheet, title);
        element(sheet, "h1", "", title);
    }
}

static void end(struct sheet *sheet)
{
    close_section(sheet);
    writer_add(sheet->writer, text_of(sheet->in_all ? "</article>\n" : "</main>\n</body>\n</html>\n"));
}

static void begin_all(struct sheet *sheet, struct text title)
{
    page_head(sheet, title);
    element(sheet, "h1", "", title);
}

static void end_all(struct sheet *sheet)
{
    writer_add(sheet->writer, text_of("</main>\n</body>\n</html>\n"));
}

/* ---- blocks ---- */

/* A section's heading stands in the margin where there is room; in one of several documents it is a level lower. */
static void heading(struct sheet *sheet, uint32_t level, struct text words)
{
    const char *name = level + sheet->in_all <= 2 ? "h2" : level + sheet->in_all == 3 ? "h3" : "h4";
    if (level <= 2) {
        close_section(sheet);
        writer_add(sheet->writer, text_of("<section>\n"));
        sheet->in_section = true;
    }
    element(sheet, name, level <= 2 ? "head" : "", words);
}

static void paragraph(struct sheet *sheet, enum manner manner, struct text words)
{
    static const char *const classes[] = { "", "lead", "quiet", "caution", "doubt" };
    if (manner != MANNER_EXACT) {
        element(sheet, "p", classes[manner], words);
        return;
    }
    writer_add(sheet->writer, text_of("<pre>"));
    for (uint32_t at = 0; at < words.length;) {
        const char *feed = memchr(words.bytes + at, '\n', words.length - at);
        uint32_t end = feed ? (uint32_t)(feed - words.bytes) : words.length;
        writer_add(sheet->writer, text_of(at ? "\n" : ""));
        html_text(sheet->writer, (struct text){ words.bytes + at, end - at });
        at = end + 1;
    }
    writer_add(sheet->writer, text_of("</pre>\n"));
}

static void list(struct sheet *sheet, bool numbered)
{
    writer_add(sheet->writer, text_of(numbered ? "<ol>\n" : "<ul>\n"));
}

static void item(struct sheet *sheet, struct text words)
{
    element(sheet, "li", "", words);
}

static void list_end(struct sheet *sheet)
{
    writer_add(sheet->writer, text_of(sheet->number ? "</ol>\n" : "</ul>\n"));
}

static void links(struct sheet *sheet, struct text title, const struct sheet_link *links, uint32_t count)
{
    writer_add(sheet->writer, text_of("<nav aria-label=\""));
    html_text(sheet->writer, title);
    writer_add(sheet->writer, text_of("\">\n<ul>\n"));
    for (uint32_t i = 0; i < count; i++) {
        writer_add(sheet->writer, text_of("<li><a href=\""));
        html_text(sheet->writer, links[i].link);
        writer_add(sheet->writer, text_of(links[i].link.length ? "\">" : "#\" aria-current=\"page\">"));
        html_text(sheet->writer, links[i].words);
        writer_add(sheet->writer, text_of("</a></li>\n"));
    }
    writer_add(sheet->writer, text_of("</ul>\n</nav>\n"));
}

/* ---- tables: one that is wider than the page is moved under the reader's hand, so it can be reached by keys ---- */

static bool has_titles(const struct sheet *sheet)
{
    bool titled = false;
    for (uint32_t i = 0; i < sheet->column_count; i++)
        titled = titled || sheet->columns[i].title.length > 0;
    return titled;
}

static void print_titles(struct sheet *sheet)
{
    writer_add(sheet->writer, text_of("<thead><tr>"));
    for (uint32_t i = 0; i < sheet->column_count; i++) {
        const struct sheet_column *column = &sheet->columns[i];
        const char *name = column->title.length ? "th" : "td";
        writer_print(sheet->writer, "<%s%s%s>", name, column->title.length ? " scope=\"col\"" : "", column->figures ? " class=\"n\"" : "");
        html_text(sheet->writer, column->title);
        writer_print(sheet->writer, "</%s>", name);
    }
    writer_add(sheet->writer, text_of("</tr></thead>\n"));
}

static void table(struct sheet *sheet, struct text caption)
{
    bool away = hash_bytes(caption.bytes, caption.length) == sheet->heading;
    uint32_t number = ++sheet->tables;
    if (caption.length)
        writer_print(sheet->writer, "<div class=\"table\" role=\"group\" tabindex=\"0\" aria-labelledby=\"t%u\"><table>\n<caption id=\"t%u\"%s>%s",
                     number, number, away ? " class=\"bare\"" : "", away ? "<span class=\"away\">" : "");
    else
        writer_add(sheet->writer, text_of("<div class=\"table\" tabindex=\"0\"><table>\n"));
    html_text(sheet->writer, caption);
    writer_add(sheet->writer, text_of(caption.length && away ? "</span></caption>\n" : caption.length ? "</caption>\n" : ""));
    if (has_titles(sheet))
        print_titles(sheet);
    writer_add(sheet->writer, text_of("<tbody>\n"));
}

static void print_words(struct writer *writer, const struct sheet_cell *cell)
{
    const char *tone = html_tone(cell->tone);
    if (*tone)
        writer_print(writer, "<span class=\"%s\">", tone);
    if (cell->link.length) {
        writer_add(writer, text_of("<a href=\""));
        html_text(writer, cell->link);
        writer_add(writer, text_of("\">"));
    }
    html_figure(writer, cell->words, cell->value, cell->has_value);
    writer_add(writer, text_of(cell->link.length ? "</a>" : ""));
    writer_add(writer, text_of(*tone ? "</span>" : ""));
    if (cell->bar > 0)
        html_cell_bar(writer, cell->bar);
}

static void row(struct sheet *sheet, const struct sheet_cell *cells)
{
    struct writer *writer = sheet->writer;
    writer_add(writer, text_of("<tr>"));
    for (uint32_t i = 0; i < sheet->column_count; i++) {
        uint32_t depth = cells[i].depth < DEEPEST ? cells[i].depth : DEEPEST;
        if (i == 0 && depth)
            writer_print(writer, "<th scope=\"row\" class=\"d%u\">", depth);
        else
            writer_add(writer, text_of(i == 0 ? "<th scope=\"row\">" : sheet->columns[i].figures ? "<td class=\"n\">" : "<td>"));
        print_words(writer, &cells[i]);
        writer_add(writer, text_of(i == 0 ? "</th>" : "</td>"));
    }
    writer_add(writer, text_of("</tr>\n"));
}

static void table_end(struct sheet *sheet)
{
    writer_add(sheet->writer, text_of("</tbody>\n</table></div>\n"));
}

const struct look_calls look_html = { begin, end, heading, paragraph, list, item, list_end, table, row, table_end, html_bar, html_scale,
                                      links, begin_all, end_all };
