/* Bytes on their way to a sink, gathered into large pieces. */
#include "output/output.h"

#define PIECE 65536

void writer_open(struct writer *writer, struct allocator allocator, quern_sink *sink, void *context)
{
    *writer = (struct writer){ .sink = sink, .context = context };
    buffer_open(&writer->buffer, allocator);
}

bool writer_flush(struct writer *writer)
{
    struct buffer *buffer = &writer->buffer;
    if (!writer->failed && !buffer->failed && buffer->length > 0)
        writer->failed = !writer->sink(writer->context, buffer->bytes, buffer->length);
    buffer->length = 0;
    return !writer->failed && !buffer->failed;
}

static void flush_when_full(struct writer *writer)
{
    if (writer->sink && writer->buffer.length >= PIECE)     /* without one, the bytes are only collected */
        writer_flush(writer);
}

void writer_needs(struct writer *writer, bool made)
{
    writer->buffer.failed = writer->buffer.failed || !made;
}

void writer_print(struct writer *writer, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    buffer_print_list(&writer->buffer, format, arguments);
    va_end(arguments);
    flush_when_full(writer);
}

void writer_add(struct writer *writer, struct text text)
{
    buffer_add(&writer->buffer, text.bytes, text.length);
    flush_when_full(writer);
}

void writer_visible(struct writer *writer, struct text text)
{
    buffer_add_visible(&writer->buffer, text);
    flush_when_full(writer);
}

void writer_json(struct writer *writer, const char *json)
{
    buffer_add_json(&writer->buffer, text_of(json));
    flush_when_full(writer);
}

void writer_visible_lines(struct writer *writer, struct text text)
{
    buffer_add_visible_lines(&writer->buffer, text);
    flush_when_full(writer);
}

void writer_close(struct writer *writer)
{
    writer_flush(writer);
    buffer_close(&writer->buffer);
}

/* ---- layout ---- */

uint32_t text_columns(struct text text)
{
    uint32_t columns = 0;
    for (uint32_t at = 0; at < text.length;) {
        uint32_t size = utf8_length(text.bytes + at, text.length - at);
        columns += size ? (uint32_t)utf8_width(utf8_code_point(text.bytes + at, size)) : 1;
        at += size ? size : 1;
    }
    return columns;
}

void writer_cut(struct writer *writer, struct text text, uint32_t columns)
{
    uint32_t used = 0, at = 0;
    bool cut = text_columns(text) > columns;
    while (at < text.length && used + (cut ? 3 : 0) < columns) {
        uint32_t size = utf8_length(text.bytes + at, text.length - at);
        size = size ? size : 1;
        used += (uint32_t)utf8_width(utf8_code_point(text.bytes + at, size));
        writer_visible(writer, (struct text){ text.bytes + at, size });
        at += size;
    }
    writer_add(writer, text_of(cut ? "..." : ""));
    for (used += cut ? 3 : 0; used < columns; used++)
        writer_add(writer, text_of(" "));
}

void writer_wrapped(struct writer *writer, struct text text)
{
    uint32_t used = 0, at = 0;
    while (at < text.length) {
        while (at < text.length && text.bytes[at] == ' ')
            at++;
        uint32_t end = at;
        while (end < text.length && text.bytes[end] != ' ')
            end++;
        struct text word = { text.bytes + at, end - at };
        if (used > 0 && used + word.length + 1 > 76) {
            writer_add(writer, text_of("\n  "));
            used = 0;
        } else if (used == 0) {
            writer_add(writer, text_of("  "));
        }
        if (used > 0)
            writer_add(writer, text_of(" "));
        writer_visible(writer, word);
        used += word.length + (used > 0);
        at = end;
    }
    writer_add(writer, text_of("\n"));
}
