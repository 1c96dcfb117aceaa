/* Bars and scales as pictures in a page. Positions are percent of the width, heights are letters' heights: nothing is
 * stretched on a narrow screen, and all of it grows with the reader's size of text. */
#include "output/html.h"

#define NARROWEST_LABELLED 4.0          /* percent of a bar that a label fits into */
#define PATTERNS 4

/* A pattern for each origin: dots, strokes up, none, lines across. Told once a page; later pictures use them, too. */
static void print_patterns(struct writer *writer)
{
    static const char *const signs[PATTERNS] = {
        "<circle class=\"o\" cx=\"2.5\" cy=\"2.5\" r=\"1.2\"/><circle class=\"o\" cx=\"7.5\" cy=\"7.5\" r=\"1.2\"/>",
        "<path class=\"s\" d=\"M-1 6 6-1M-1 16 16-1M4 11 11 4\"/>", "",
        "<path class=\"s\" d=\"M0 2.5H10M0 7.5H10\"/>",
    };
    writer_add(writer, text_of("<defs>"));
    for (uint32_t i = 0; i < PATTERNS; i++)
        writer_print(writer, "<pattern id=\"q%u\" width=\"10\" height=\"10\" patternUnits=\"userSpaceOnUse\"><rect class=\"f%u\" width=\"10\" height=\"10\"/>%s</pattern>",
                     i, i, signs[i]);
    writer_add(writer, text_of("</defs>"));
}

/* The start of a picture, up to its description, which is left open. */
static void open_picture(struct sheet *sheet, struct text title, const char *height)
{
    uint32_t number = ++sheet->pictures;
    writer_print(sheet->writer, "<svg role=\"img\" width=\"100%%\" height=\"%s\" aria-labelledby=\"p%u p%ud\"><title id=\"p%u\">", height, number, number, number);
    html_text(sheet->writer, title);
    writer_print(sheet->writer, "</title><desc id=\"p%ud\">", number);
}

/* ---- where an amount comes from ---- */

static void describe_pieces(struct writer *writer, const struct sheet_piece *pieces, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        writer_print(writer, "%s%u ", i ? "; " : "", i + 1);
        html_text(writer, pieces[i].label);
        writer_add(writer, text_of(": "));
        html_text(writer, pieces[i].words);
    }
}

static void draw_pieces(struct writer *writer, const struct sheet_piece *pieces, uint32_t count, double total)
{
    double from = 0;
    writer_add(writer, text_of("<rect class=\"track\" width=\"100%\" height=\"2.25em\"/>"));
    for (uint32_t i = 0; i < count && total > 0; i++) {
        double share = pieces[i].value / total * 100;
        if (share > 0)
            writer_print(writer, "<rect class=\"edge\" x=\"%.2f%%\" width=\"%.2f%%\" height=\"2.25em\" fill=\"url(#q%u)\"/>", from, share,
                         pieces[i].pattern % PATTERNS);
        if (share >= NARROWEST_LABELLED)
            writer_print(writer, "<text x=\"%.2f%%\" y=\"1.6em\" text-anchor=\"middle\">%u</text>", from + share / 2, i + 1);
        from += share;
    }
}

void html_bar(struct sheet *sheet, struct text title, const struct sheet_piece *pieces, uint32_t count)
{
    struct writer *writer = sheet->writer;
    double total = 0;
    for (uint32_t i = 0; i < count; i++)
        total += pieces[i].value;
    bool away = hash_bytes(title.bytes, title.length) == sheet->heading;
    writer_print(writer, "<figure>\n<figcaption%s>", away ? " class=\"away\"" : "");
    html_text(writer, title);
    writer_add(writer, text_of("</figcaption>\n"));
    open_picture(sheet, title, "2.25em");
    describe_pieces(writer, pieces, count);
    writer_add(writer, text_of("</desc>"));
    if (sheet->pictures == 1)
        print_patterns(writer);
    draw_pieces(writer, pieces, count, total);
    writer_add(writer, text_of("</svg>\n<ul class=\"key\">\n"));
    for (uint32_t i = 0; i < count; i++) {
        writer_print(writer, "<li><svg aria-hidden=\"true\"><rect width=\"100%%\" height=\"100%%\" fill=\"url(#q%u)\"/></svg><b>%u</b> <span>",
                     pieces[i].pattern % PATTERNS, i + 1);
        html_text(writer, pieces[i].label);
        writer_add(writer, text_of("</span> "));
        html_figure(writer, pieces[i].words, pieces[i].value, true);
        writer_add(writer, text_of("</li>\n"));
    }
    writer_add(writer, text_of("</ul>\n</figure>\n"));
}

/* ---- a value beside marks ---- */

/* What the whole width stands for: the largest thing on it and a little more. */
static double scale_end(struct range value, bool complete, const struct sheet_mark *marks, uint32_t count)
{
    double end = complete ? value.high : value.low;
    for (uint32_t i = 0; i < count; i++)
        end = amount_larger(end, marks[i].value);
    return end > 0 && end <= 1e300 ? end * 1.05 : 1;
}

/* The bar up to the best value, and its range as a line with two ends; what nobody knows is a broken line to the right. */
static void draw_value(struct writer *writer, struct range value, bool complete, double end)
{
    double best = (complete ? value.best : value.low) / end * 100, low = value.low / end * 100, high = complete ? value.high / end * 100 : 100;
    writer_print(writer, "<rect class=\"track\" width=\"100%%\" height=\"1.5em\"/><rect class=\"value\" y=\".3em\" width=\"%.2f%%\" height=\".9em\"/>", best);
    if (high - low < 0.2)
        return;
    writer_print(writer, "<line class=\"whisker%s\" x1=\"%.2f%%\" x2=\"%.2f%%\" y1=\".75em\" y2=\".75em\"/>", complete ? "" : " open", low, high);
    writer_print(writer, "<line class=\"whisker\" x1=\"%.2f%%\" x2=\"%.2f%%\" y1=\".35em\" y2=\"1.15em\"/>", low, low);
    if (complete)
        writer_print(writer, "<line class=\"whisker\" x1=\"%.2f%%\" x2=\"%.2f%%\" y1=\".35em\" y2=\"1.15em\"/>", high, high);
}

/* Each mark reaches down to a row of its own, so that numbers of near marks do not meet. */
static void draw_mark(struct writer *writer, const struct sheet_mark *mark, uint32_t number, double end)
{
    double at = mark->value / end * 100, bottom = 2.75 + 1.25 * number;
    bool right = at > 90;
    writer_print(writer, "<line class=\"tick t%d\" x1=\"%.2f%%\" x2=\"%.2f%%\" y1=\"-.25em\" y2=\"%.2fem\"/>", (int)mark->tone, at, at, bottom);
    writer_print(writer, "<text x=\"%.2f%%\" dx=\"%s.4em\" y=\"%.2fem\" text-anchor=\"%s\">%u</text>", at, right ? "-" : "", bottom, right ? "end" : "start",
                 number + 1);
}

static void print_mark(struct writer *writer, const struct sheet_mark *mark, uint32_t number)
{
    const char *tone = html_tone(mark->tone);
    writer_print(writer, "<li><b>%u</b> <span", number + 1);
    writer_print(writer, *tone ? " class=\"%s\">" : ">%s", tone);
    html_text(writer, mark->label);
    writer_add(writer, text_of("</span></li>\n"));
}

void html_scale(struct sheet *sheet, struct text title, struct range value, bool complete, struct text words,
                const struct sheet_mark *marks, uint32_t count)
{
    struct writer *writer = sheet->writer;
    double end = scale_end(value, complete, marks, count);
    char height[32];
    snprintf(height, sizeof height, "%.2fem", count ? 1.75 + 1.25 * count : 1.5);
    writer_add(writer, text_of("<figure class=\"scale\">\n<figcaption><span>"));
    html_text(writer, title);
    writer_add(writer, text_of("</span> "));
    html_figure(writer, words, complete ? value.best : value.low, true);
    writer_add(writer, text_of("</figcaption>\n"));
    open_picture(sheet, title, height);
    html_text(writer, words);
    for (uint32_t i = 0; i < count; i++) {
        writer_print(writer, "; %u ", i + 1);
        html_text(writer, marks[i].label);
    }
    writer_add(writer, text_of("</desc>"));
    if (sheet->pictures == 1)
        print_patterns(writer);
    draw_value(writer, value, complete, end);
    for (uint32_t i = 0; i < count; i++)
        draw_mark(writer, &marks[i], i, end);
    writer_add(writer, text_of(count ? "</svg>\n<ul class=\"key\">\n" : "</svg>\n"));
    for (uint32_t i = 0; i < count; i++)
        print_mark(writer, &marks[i], i);
    writer_add(writer, text_of(count ? "</ul>\n</figure>\n" : "</figure>\n"));
}

void html_cell_bar(struct writer *writer, double share)
{
    writer_print(writer, "<svg class=\"bar\" aria-hidden=\"true\"><rect class=\"track\" width=\"100%%\" height=\"100%%\"/>"
                         "<rect class=\"value\" width=\"%.1f%%\" height=\"100%%\"/></svg>", amount_smaller(1, share) * 100);
}
