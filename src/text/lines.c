/* Lines and columns, looked up when somebody asks. Columns count characters from 1. */
#include <string.h>

#include "text/text.h"

static bool add_line(struct line_index *index, uint32_t start)
{
    if (!array_grow(&index->allocator, &index->starts, index->count, &index->capacity, sizeof *index->starts))
        return false;
    index->starts[index->count++] = start;
    return true;
}

/* The byte behind the next line end at or after `at`; 0 when there is none. A lone carriage return ends a line. */
static uint32_t next_line(struct text text, uint32_t at, bool returns)
{
    if (at >= text.length)
        return 0;
    const char *feed = memchr(text.bytes + at, '\n', text.length - at);
    uint32_t end = feed ? (uint32_t)(feed - text.bytes) : text.length;
    const char *lone = returns ? memchr(text.bytes + at, '\r', end - at) : NULL;
    if (lone && (uint32_t)(lone - text.bytes) + 1 < end)
        return (uint32_t)(lone - text.bytes) + 1;
    return feed ? end + 1 : lone ? text.length : 0;
}

bool line_index_make(struct line_index *index, struct allocator allocator, struct text text)
{
    *index = (struct line_index){ .allocator = allocator };
    bool returns = text.length > 0 && memchr(text.bytes, '\r', text.length) != NULL;
    if (!add_line(index, 0))
        return false;
    for (uint32_t at = 0; (at = next_line(text, at, returns)) != 0;) {
        if (!add_line(index, at))
            return false;
    }
    return true;
}

void line_index_close(struct line_index *index)
{
    if (index->starts)
        index->allocator.resize(index->allocator.context, index->starts, 0);
    index->starts = NULL;
}

static uint32_t find_line(const struct line_index *index, uint32_t offset)
{
    uint32_t low = 0, high = index->count;
    while (high - low > 1) {
        uint32_t middle = low + (high - low) / 2;
        if (index->starts[middle] <= offset)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/* The place that is kept lies so far before the last one that what is asked for near it is found from there, too. */
#define SEEN_BEFORE 512

void line_index_find(struct line_index *index, struct text text, uint32_t offset, uint32_t *line,
                     uint32_t *column)
{
    if (offset > text.length)
        offset = text.length;
    uint32_t found = find_line(index, offset);
    *line = found + 1;
    bool from_seen = index->seen_offset >= index->starts[found] && index->seen_offset <= offset && index->seen_column > 0;
    uint32_t at = from_seen ? index->seen_offset : index->starts[found];
    *column = from_seen ? index->seen_column : 1;
    while (at < offset) {
        uint32_t size = utf8_length(text.bytes + at, text.length - at);
        if (at + SEEN_BEFORE <= offset) {
            index->seen_offset = at;
            index->seen_column = *column;
        }
        at += size ? size : 1;
        *column += 1;
    }
}

struct text line_text(const struct line_index *index, struct text text, uint32_t line)
{
    if (line == 0 || line > index->count)
        return (struct text){ text.bytes, 0 };
    uint32_t start = index->starts[line - 1], end = line < index->count ? index->starts[line] : text.length;
    while (end > start && (text.bytes[end - 1] == '\n' || text.bytes[end - 1] == '\r'))
        end--;
    return span_text(text, (struct span){ start, end });
}
