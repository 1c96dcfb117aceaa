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
    if (writer->buffer.length >= PIECE)
        writer_flush(writer);
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

void writer_close(struct writer *writer)
{
    writer_flush(writer);
    buffer_close(&writer->buffer);
}
