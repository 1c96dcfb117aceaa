/* Findings for people: the place first, in the form that editors follow; the written line with the place
 * ruled off like a sum; then other places (`at`), reasons (`because:`) and what to do (`try:`). */
#include <string.h>

#include "output/output.h"

enum paint { PAINT_NONE, PAINT_ERROR, PAINT_WARNING, PAINT_NOTE, PAINT_PLACE, PAINT_END };

static void paint(const struct showing *showing, enum paint colour)
{
    /* As on pages: brick for what is wrong, grey for what is in doubt, ink for the rest; each reads on black and on white. */
    static const char *const codes[] = { "", "\033[1;38;5;131m", "\033[1;38;5;243m", "\033[1m", "\033[1m", "\033[0m" };
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
#define EXCERPT_INDENT 4

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

static void print_repeated(struct showing *showing, const char *what, uint32_t times)
{
    for (uint32_t i = 0; i < times; i++)
        writer_add(showing->writer, text_of(what));
}

/* The blanks with which a line begins are left out, as far as the place does not begin among them. */
static uint32_t first_shown(struct text line, uint32_t start)
{
    uint32_t at = 0;
    while (at < start && (line.bytes[at] == ' ' || line.bytes[at] == '\t'))
        at++;
    return at;
}

static void print_excerpt(struct showing *showing, struct place place, uint32_t indent, enum paint colour)
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
    bool cut = window.from > 0;
    window.from = cut ? window.from : first_shown(line, start);
    end = end > window.to ? window.to : end;
    print_repeated(showing, " ", indent);
    writer_add(showing->writer, text_of(cut ? "..." : ""));
    print_excerpt_text(showing, (struct text){ line.bytes + window.from, window.to - window.from });
    writer_add(showing->writer, text_of(window.to < line.length ? "...\n" : "\n"));
    print_repeated(showing, " ", indent + (cut ? 3 : 0) + columns_of((struct text){ line.bytes + window.from, start - window.from }));
    uint32_t width = columns_of((struct text){ line.bytes + start, end > start ? end - start : 0 });
    paint(showing, colour);
    print_repeated(showing, "=", width ? width : 1);
    paint(showing, PAINT_END);
    writer_add(showing->writer, text_of("\n"));
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
    print_excerpt(showing, place, 0, PAINT_NONE);
}

static void print_label(struct showing *showing, const struct finding_label *label, uint32_t file)
{
    struct position position = sources_position(&showing->sources, label->place);
    writer_add(showing->writer, text_of("  at "));
    if (label->place.file != file || !position.line)
        writer_visible(showing->writer, text_of(sources_path(&showing->sources, label->place.file)));
    if (label->place.file != file && position.line)
        writer_print(showing->writer, ":%u:%u", position.line, position.column);
    else if (position.line)
        writer_print(showing->writer, "line %u", position.line);
    writer_add(showing->writer, text_of(": "));
    print_words(showing, &label->words);
    writer_add(showing->writer, text_of("\n"));
    print_excerpt(showing, label->place, EXCERPT_INDENT, PAINT_PLACE);
}

static void print_notes(struct showing *showing, const struct finding *finding, bool advice)
{
    for (const struct finding_note *note = finding->notes; note; note = note->next) {
        if (words_advise(&note->words) != advice)
            continue;
        writer_add(showing->writer, text_of(advice ? "  try: " : "  because: "));
        print_words(showing, &note->words);
        writer_add(showing->writer, text_of("\n"));
    }
}

static void print_help(struct showing *showing, const struct finding *finding)
{
    struct buffer help;
    buffer_open(&help, showing->writer->buffer.allocator);
    if (finding_help(&help, finding)) {
        writer_add(showing->writer, text_of("  try: "));
        writer_visible(showing->writer, (struct text){ help.bytes, (uint32_t)help.length });
        writer_add(showing->writer, text_of("\n"));
    }
    writer_needs(showing->writer, !help.failed);
    buffer_close(&help);
}

void people_finding(struct showing *showing, const struct finding *finding)
{
    print_head(showing, finding);
    print_excerpt(showing, finding->place, EXCERPT_INDENT, severity_paint(shown_severity(showing, finding)));
    for (const struct finding_label *label = finding->labels; label; label = label->next)
        print_label(showing, label, finding->place.file);
    print_notes(showing, finding, false);
    print_notes(showing, finding, true);
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
