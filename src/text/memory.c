/* Lines that were parsed before. A large kitchen asks at random for a million lines: each look-up touches one slot and
 * one record, and both lie close together. */
#include <string.h>

#include "text/text.h"

#define REMEMBERED_ALIGNMENT ((uint32_t)8)

void line_memory_open(struct line_memory *memory, struct allocator allocator)
{
    *memory = (struct line_memory){ .count = 0 };
    buffer_open(&memory->records, allocator);
    table_open(&memory->table, allocator);
}

void line_memory_close(struct line_memory *memory)
{
    buffer_close(&memory->records);
    table_close(&memory->table);
}

static uint32_t find_hashed(const struct line_memory *memory, struct text text, uint64_t hash)
{
    uint32_t position;
    for (uint32_t at = table_find(&memory->table, hash, &position); at != TABLE_NONE;
         at = table_next(&memory->table, hash, &position)) {
        const struct remembered *line = (const void *)(memory->records.bytes + at);
        if (text_equal((struct text){ line->bytes, line->length }, text))
            return line->number;
    }
    return TABLE_NONE;
}

uint32_t line_memory_find(const struct line_memory *memory, struct text text)
{
    if (text.length > LIMIT_REMEMBERED_BYTES)           /* the rest of a file without line ends comes here again and again */
        return TABLE_NONE;
    return find_hashed(memory, text, hash_bytes(text.bytes, text.length));
}

void line_memory_add(struct line_memory *memory, struct text text, uint32_t number)
{
    uint64_t hash = hash_bytes(text.bytes, text.length);
    struct buffer *records = &memory->records;
    size_t at = records->length, size = offsetof(struct remembered, bytes) + text.length;
    size = (size + REMEMBERED_ALIGNMENT - 1) / REMEMBERED_ALIGNMENT * REMEMBERED_ALIGNMENT;
    if (memory->count == LIMIT_REMEMBERED_LINES || text.length > LIMIT_REMEMBERED_BYTES
        || find_hashed(memory, text, hash) != TABLE_NONE || !buffer_reserve(records, at + size)
        || !table_add(&memory->table, hash, (uint32_t)at))
        return;
    struct remembered *line = (void *)(records->bytes + at);
    line->number = number;
    line->length = text.length;
    memcpy(line->bytes, text.bytes, text.length);
    records->length += size;
    memory->count++;
}
