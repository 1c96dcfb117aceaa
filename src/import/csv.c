/* Rows of separated fields, read in pieces: RFC 4180 with any separator and quote. A field is a slice of the buffer;
 * doubled quotes are made single when the row is whole, so that a row cut by the end of the buffer is simply split
 * again after more was read. Behind what was read stands a line end that is not counted, so that the inner loops look
 * for signs alone. */
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#include "import/parts.h"

#define PIECE_BYTES ((size_t)256 << 10)     /* small enough for a processor's cache */

enum split { SPLIT_DONE, SPLIT_SHORT, SPLIT_WRONG };

bool rows_open(struct rows *rows, struct allocator allocator, const char *path)
{
    size_t capacity = LIMIT_IMPORT_ROW_BYTES + 65536;
    *rows = (struct rows){ .allocator = allocator, .capacity = capacity, .descriptor = -1 };
    rows->bytes = allocator.resize(allocator.context, NULL, capacity + 1);
    rows->fields = allocator.resize(allocator.context, NULL, LIMIT_IMPORT_COLUMNS * sizeof *rows->fields);
    if (!rows->bytes || !rows->fields)
        return false;
    rows->descriptor = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
    if (rows->descriptor < 0)
        rows->reason = errno;
    return rows->descriptor >= 0;
}

void rows_signs(struct rows *rows, char separator, char quote)
{
    rows->separator = separator;
    rows->quote = quote;
    memset(rows->stops, 0, sizeof rows->stops);
    rows->stops[(unsigned char)separator] = rows->stops['\n'] = true;
    if (quote)
        rows->stops[(unsigned char)quote] = true;
}

void rows_close(struct rows *rows)
{
    if (rows->descriptor >= 0)
        close(rows->descriptor);
    rows->allocator.resize(rows->allocator.context, rows->bytes, 0);
    rows->allocator.resize(rows->allocator.context, rows->fields, 0);
    rows->bytes = NULL;
    rows->fields = NULL;
    rows->descriptor = -1;
}

/* ---- pieces ------------------------------------------------------------------------------------------------ */

static void skip_byte_order_mark(struct rows *rows)
{
    if (rows->taken == rows->end && rows->end >= 3 && memcmp(rows->bytes, "\xef\xbb\xbf", 3) == 0)
        rows->start = 3;
}

/* Moves the row that is begun to the front and reads behind it; false when reading fails. */
static bool read_piece(struct rows *rows)
{
    bool first = rows->taken == 0;
    memmove(rows->bytes, rows->bytes + rows->start, rows->end - rows->start);
    rows->end -= rows->start;
    rows->start = 0;
    ssize_t count;
    size_t room = rows->capacity - rows->end;
    do
        count = read(rows->descriptor, rows->bytes + rows->end, room < PIECE_BYTES ? room : PIECE_BYTES);
    while (count < 0 && errno == EINTR);
    if (count < 0) {
        rows->reason = errno;
        return false;
    }
    rows->end += (size_t)count;
    rows->taken += (uint64_t)count;
    rows->ended = count == 0;
    rows->bytes[rows->end] = '\n';
    if (first)
        skip_byte_order_mark(rows);
    return true;
}

/* ---- one row ------------------------------------------------------------------------------------------------ */

static enum split wrong(struct rows *rows, enum words_code fault)
{
    rows->fault = fault;
    return SPLIT_WRONG;
}

/* quoted = QUOTE *(any but QUOTE / QUOTE QUOTE) QUOTE; `at` stands behind the first one. */
static enum split split_quoted(struct rows *rows, char **at, struct text *field)
{
    char *limit = rows->bytes + rows->end, *begin = *at;
    for (char *from = begin;;) {
        char *close = memchr(from, rows->quote, (size_t)(limit - from));
        if (!close && !rows->ended)
            return SPLIT_SHORT;
        if (!close)
            return wrong(rows, FINDING_ROW_OPEN_QUOTE);
        if (close + 1 == limit && !rows->ended)
            return SPLIT_SHORT;
        if (close + 1 == limit || close[1] != rows->quote) {
            *field = (struct text){ begin, (uint32_t)(close - begin) };
            *at = close + 1;
            return SPLIT_DONE;
        }
        rows->doubled = true;
        from = close + 2;
    }
}

/* Behind a quoted field: a separator, or the end of the row with or without CR. */
static enum split check_behind_quote(struct rows *rows, char **at)
{
    char *limit = rows->bytes + rows->end;
    if (**at == '\r' && *at + 1 == limit && !rows->ended)
        return SPLIT_SHORT;
    if (**at == '\r' && (*at)[1] == '\n')
        (*at)++;
    return **at == rows->separator || **at == '\n' ? SPLIT_DONE : wrong(rows, FINDING_ROW_BEHIND_QUOTE);
}

static enum split split_plain(struct rows *rows, char **at, struct text *field)
{
    char *begin = *at, *end = begin;
    while (!rows->stops[(unsigned char)*end])
        end++;
    *at = end;
    if (rows->quote && *end == rows->quote && end < rows->bytes + rows->end)
        return wrong(rows, FINDING_ROW_QUOTE_INSIDE);
    if (*end == '\n' && end > begin && end[-1] == '\r')
        end--;
    *field = (struct text){ begin, (uint32_t)(end - begin) };
    return SPLIT_DONE;
}

/* row = field *(SEPARATOR field) [CR] LF */
static enum split split_row(struct rows *rows, char **at)
{
    char *limit = rows->bytes + rows->end;
    rows->count = 0;
    rows->doubled = false;
    for (*at = rows->bytes + rows->start;; ++*at) {
        if (rows->count == LIMIT_IMPORT_COLUMNS)
            return wrong(rows, FINDING_ROW_TOO_LONG);
        struct text *field = &rows->fields[rows->count++];
        bool quoted = rows->quote && **at == rows->quote && *at < limit;
        if (quoted)
            ++*at;
        enum split split = quoted ? split_quoted(rows, at, field) : split_plain(rows, at, field);
        if (split == SPLIT_DONE && quoted)
            split = check_behind_quote(rows, at);
        if (split == SPLIT_DONE && *at == limit && !rows->ended)
            return SPLIT_SHORT;
        if (split != SPLIT_DONE || **at == '\n')
            return split;
    }
}

/* Every quote inside a field is doubled: one of each two goes. */
static void make_single(const struct rows *rows, struct text *field)
{
    char *bytes = (char *)field->bytes, *end = bytes + field->length, *to = memchr(bytes, rows->quote, field->length);
    for (char *from = to; from; ) {
        char *next = memchr(from + 2, rows->quote, (size_t)(end - from - 2));
        size_t length = (size_t)((next ? next : end) - from) - 1;
        memmove(to, from + 1, length);
        to += length;
        from = next;
        field->length = (uint32_t)(to - bytes);
    }
}

/* After a wrong row reading goes on at the next line; behind a quote that never closes, at the line below its row. */
static void skip_line(struct rows *rows, char *at)
{
    bool open = rows->fault == FINDING_ROW_OPEN_QUOTE || rows->fault == FINDING_ROW_TOO_LONG;
    char *from = open ? rows->bytes + rows->start : at, *limit = rows->bytes + rows->end;
    char *line_end = memchr(from, '\n', (size_t)(limit - from) + 1);
    rows->start = line_end < limit ? (size_t)(line_end - rows->bytes) + 1 : rows->end;
}

static void end_row(struct rows *rows, char *at)
{
    size_t next = (size_t)(at - rows->bytes) + 1;
    rows->start = next > rows->end ? rows->end : next;
    for (uint32_t i = 0; rows->doubled && i < rows->count; i++)
        make_single(rows, &rows->fields[i]);
}

enum row_state rows_next(struct rows *rows)
{
    rows->row++;
    for (;;) {
        char *at = NULL;
        if (rows->start == rows->end && rows->ended)
            return ROW_END;
        enum split split = rows->start == rows->end ? SPLIT_SHORT : split_row(rows, &at);
        if (split == SPLIT_SHORT && rows->end - rows->start > LIMIT_IMPORT_ROW_BYTES) {
            split = wrong(rows, FINDING_ROW_TOO_LONG);
            if (rows->count > 0 && rows->quote && memchr(rows->bytes + rows->start, '\n', rows->end - rows->start))
                rows->fault = FINDING_ROW_OPEN_QUOTE;
        }
        if (split == SPLIT_WRONG) {
            skip_line(rows, at);
            return ROW_WRONG;
        }
        if (split == SPLIT_DONE) {
            end_row(rows, at);
            return ROW_GOOD;
        }
        if (!read_piece(rows))
            return ROW_STOP;
    }
}
