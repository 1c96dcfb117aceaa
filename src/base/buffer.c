/* Slices of text, and bytes that grow. */
#include <string.h>

#include "base/base.h"

struct text text_of(const char *string)
{
    return (struct text){ string, string ? (uint32_t)strlen(string) : 0 };
}

bool text_equal(struct text a, struct text b)
{
    return a.length == b.length && (a.length == 0 || memcmp(a.bytes, b.bytes, a.length) == 0);
}

bool text_starts(struct text text, const char *start)
{
    size_t length = strlen(start);
    return text.length >= length && (length == 0 || memcmp(text.bytes, start, length) == 0);
}

struct text text_behind(struct text text, const char *start)
{
    uint32_t length = (uint32_t)strlen(start);
    return text_starts(text, start) ? (struct text){ text.bytes + length, text.length - length } : (struct text){ NULL, 0 };
}

bool text_is(struct text text, const char *string)
{
    return text_equal(text, text_of(string));
}

void buffer_open(struct buffer *buffer, struct allocator allocator)
{
    *buffer = (struct buffer){ .allocator = allocator };
}

void buffer_close(struct buffer *buffer)
{
    if (buffer->bytes)
        buffer->allocator.resize(buffer->allocator.context, buffer->bytes, 0);
    buffer->bytes = NULL;
    buffer->length = buffer->capacity = 0;
}

bool buffer_reserve(struct buffer *buffer, size_t capacity)
{
    if (capacity <= buffer->capacity)
        return !buffer->failed;
    size_t wider = buffer->capacity ? buffer->capacity * 2 : 256;
    if (wider < capacity)
        wider = capacity;
    char *bytes = buffer->failed ? NULL
                                 : buffer->allocator.resize(buffer->allocator.context, buffer->bytes, wider);
    if (!bytes) {
        buffer->failed = true;
        return false;
    }
    buffer->bytes = bytes;
    buffer->capacity = wider;
    return true;
}

void buffer_add(struct buffer *buffer, const char *bytes, size_t length)
{
    if (length == 0 || !buffer_reserve(buffer, buffer->length + length + 1))
        return;
    memcpy(buffer->bytes + buffer->length, bytes, length);
    buffer->length += length;
    buffer->bytes[buffer->length] = '\0';
}

void buffer_add_string(struct buffer *buffer, const char *string)
{
    buffer_add(buffer, string, strlen(string));
}

void buffer_print_list(struct buffer *buffer, const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    int length = vsnprintf(NULL, 0, format, arguments);
    if (length >= 0 && buffer_reserve(buffer, buffer->length + (size_t)length + 1)) {
        vsnprintf(buffer->bytes + buffer->length, (size_t)length + 1, format, again);
        buffer->length += (size_t)length;
    }
    va_end(again);
}

void buffer_print(struct buffer *buffer, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    buffer_print_list(buffer, format, arguments);
    va_end(arguments);
}
