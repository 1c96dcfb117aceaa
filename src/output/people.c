/* Findings for people: the place first, in the form that editors follow; the written line with the place
 * underlined; what else belongs to it; the way out. */
#include <string.h>

#include "output/output.h"

enum paint { PAINT_NONE, PAINT_ERROR, PAINT_WARNING, PAINT_NOTE, PAINT_PLACE, PAINT_END };

static void paint(const struct showing *showing, enum paint colour)
{
    static const char *const codes[] = { "", "\033[1;31m", "\033[1;33m", "\033[1;36m", "\033[1m", "\033[0m" };
    if (showing->colour)
        writer_add(showing->writer, text_of(codes[colour]));
}

enum severity shown_severity(const struct showing *showing, const struct finding *finding)
{
    bool raised = showing->strict && finding->severity == SEVERITY_WARNING;
    return raised ? SEVERITY_ERROR : finding->severity;
}

static enum paint severity_paint(enum severity severity)
{
    return severity == SEVERITY_ERROR ? PAINT_ERROR : severity == SEVERITY_WARNING ? PAINT_WARNING : PAINT_NOTE;
}

static void print_words(struct showing *showing, const struct words *words)
{
    struct buffer buffer;
    buffer_open(&buffer, showing->writer->buffer.allocator);
    words_print(&buffer, words);
    writer_visible(showing->writer, (struct text){ buffer.bytes, (uint32_t)buffer.length });
    writer_needs(showing->writer, !buffer.failed);
    buffer_close(&buffer);
}

/* ---- the excerpt ---------------------------------------------------------------------------------------------- */

#define EXCERPT_COLUMNS 100

struct window {
    uint32_t from, to;              /* bytes of the line that are shown */
};

/* A long line is cut to what stands around the place. */
static struct window find_window(struct text line, uint32_t start)
{
    struct window window = { 0, line.length };
    if (line.length <= EXCERPT_COLUMNS)
        return window;
    window.from = start > 40 ? start - 40 : 0;
    window.to = line.length - window.from > EXCERPT_COLUMNS ? window.from + EXCERPT_COLUMNS : line.length;
    while (window.from > 0 && (line.bytes[window.from] & 0xc0) == 0x80)
        window.from--;
    while (window.to < line.length && (line.bytes[window.to] & 0xc0) == 0x80)
        window.to++;
    return window;
}

static void print_excerpt_text(struct showing *showing, struct text text)
{
    for (uint32_t at = 0; at < text.length;) {
        uint32_t size = utf8_length(text.bytes + at, text.length - at);
        size = size ? size : 1;
        if (text.bytes[at] == '\t')
            writer_add(showing->writer, text_of("    "));
        else
            writer_visible(showing->writer, (struct text){ text.bytes + at, size });
        at += size;
    }
}

static uint32_t columns_of(struct text text)
{
    uint32_t columns = 0;
    for (uint32_t at = 0; at < text.length;) {
        uint32_t size = utf8_length(text.bytes + at, text.length - at);
        int width = size > 1 ? utf8_width(utf8_code_point(text.bytes + at, size)) : 1;
        columns += text.bytes[at] == '\t' ? 4 : width > 0 ? (uint32_t)width : size == 1;
        at += size ? size : 1;
    }
    return columns;
}

static void print_underline(struct showing *showing, struct text before, struct text under, char mark)
{
    uint32_t columns = columns_of(before), length = columns_of(under);
    for (uint32_t i = 0; i < columns; i++)
        writer_add(showing->writer, text_of(" "));
    for (uint32_t i = 0; i < (length ? length : 1); i++)
        writer_add(showing->writer, (struct text){ &mark, 1 });
}

static void print_excerpt(struct showing *showing, struct place place, char mark, enum paint colour)
{
    struct position position = sources_position(&showing->sources, place);
    if (position.line == 0)
        return;
    struct text line = line_text(&showing->sources.lines, showing->sources.text, position.line);
    uint32_t line_start = (uint32_t)(line.bytes - showing->sources.text.bytes);
    uint32_t start = place.span.start - line_start, end = place.span.end - line_start;
    start = start > line.length ? line.length : start;
    end = end > line.length || end < start ? line.length : end;
    struct window window = find_window(line, start);
    end = end > window.to ? window.to : end;
    writer_print(showing->writer, "%5u | %s", position.line, window.from ? "..." : "");
    print_excerpt_text(showing, (struct text){ line.bytes + window.from, window.to - window.from });
    writer_print(showing->writer, "%s\n      | %s", window.to < line.length ? "..." : "", window.from ? "   " : "");
    paint(showing, colour);
    print_underline(showing, (struct text){ line.bytes + window.from, start - window.from },
                    (struct text){ line.bytes + start, end > start ? end - start : 0 }, mark);
    paint(showing, PAINT_END);
}

/* ---- the finding ------------------------------------------------------------------------------------------------ */

static void print_head(struct showing *showing, const struct finding *finding)
{
    enum severity severity = shown_severity(showing, finding);
    struct position position = sources_position(&showing->sources, finding->place);
    paint(showing, PAINT_PLACE);
    writer_visible(showing->writer, text_of(sources_path(&showing->sources, finding->place.file)));
    if (position.line)
        writer_print(showing->writer, ":%u:%u", position.line, position.column);
    writer_add(showing->writer, text_of(": "));
    paint(showing, PAINT_END);
    paint(showing, severity_paint(severity));
    writer_print(showing->writer, "%s: ", severity_name(severity));
    paint(showing, PAINT_END);
    print_words(showing, &finding->words);
    writer_print(showing->writer, " [%s]\n", finding_code(finding));
}

void people_excerpt(struct showing *showing, struct place place)
{
    print_excerpt(showing, place, '^', PAINT_NONE);
    if (showing->sources.text.bytes)
        writer_add(showing->writer, text_of("\n"));
}

static void print_label(struct showing *showing, const struct finding_label *label, uint32_t file)
{
    struct position position = sources_position(&showing->sources, label->place);
    if (label->place.file != file && position.line) {
        writer_add(showing->writer, text_of("  --> "));
        writer_visible(showing->writer, text_of(sources_path(&showing->sources, label->place.file)));
        writer_print(showing->writer, ":%u:%u\n", position.line, position.column);
    }
    print_excerpt(showing, label->place, '-', PAINT_PLACE);
    writer_add(showing->writer, text_of(" "));
    print_words(showing, &label->words);
    writer_add(showing->writer, text_of("\n"));
}

static void print_help(struct showing *showing, const struct finding *finding)
{
    struct buffer help;
    buffer_open(&help, showing->writer->buffer.allocator);
    if (finding_help(&help, finding)) {
        writer_add(showing->writer, text_of("      = help: "));
        writer_visible(showing->writer, (struct text){ help.bytes, (uint32_t)help.length });
        writer_add(showing->writer, text_of("\n"));
    }
    writer_needs(showing->writer, !help.failed);
    buffer_close(&help);
}

void people_finding(struct showing *showing, const struct finding *finding)
{
    print_head(showing, finding);
    print_excerpt(showing, finding->place, '^', severity_paint(shown_severity(showing, finding)));
    if (showing->sources.text.bytes)
        writer_add(showing->writer, text_of("\n"));
    for (const struct finding_label *label = finding->labels; label; label = label->next)
        print_label(showing, label, finding->place.file);
    for (const struct finding_note *note = finding->notes; note; note = note->next) {
        writer_add(showing->writer, text_of("      = note: "));
        print_words(showing, &note->words);
        writer_add(showing->writer, text_of("\n"));
    }
    print_help(showing, finding);
}

static void print_count(struct writer *writer, size_t count, const char *word, bool *first)
{
    if (count == 0)
        return;
    writer_print(writer, "%s%zu %s%s", *first ? "" : ", ", count, word, count == 1 ? "" : "s");
    *first = false;
}

void people_summary(struct writer *writer, size_t errors, size_t warnings, size_t notes)
{
    bool first = true;
    if (errors + warnings + notes == 0)
        return;
    writer_add(writer, text_of("\n"));
    print_count(writer, errors, "error", &first);
    print_count(writer, warnings, "warning", &first);
    print_count(writer, notes, "note", &first);
    writer_add(writer, text_of("\n"));
}
