/* Lines that were parsed before. */
#include "text/text.h"

void line_memory_open(struct line_memory *memory, struct allocator allocator, struct arena *arena)
{
    *memory = (struct line_memory){ .allocator = allocator, .arena = arena };
    table_open(&memory->table, allocator);
}

void line_memory_close(struct line_memory *memory)
{
    if (memory->at)
        memory->allocator.resize(memory->allocator.context, memory->at, 0);
    table_close(&memory->table);
}

const struct remembered *line_memory_find(const struct line_memory *memory, struct text text)
{
    uint32_t position;
    if (text.length > LIMIT_REMEMBERED_BYTES)           /* the rest of a file without line ends comes here again and again */
        return NULL;
    uint64_t hash = hash_bytes(text.bytes, text.length);
    for (uint32_t at = table_find(&memory->table, hash, &position); at != TABLE_NONE;
         at = table_next(&memory->table, hash, &position)) {
        if (text_equal(memory->at[at].text, text))
            return &memory->at[at];
    }
    return NULL;
}

void line_memory_add(struct line_memory *memory, struct remembered line)
{
    uint32_t number = memory->count;
    if (number == LIMIT_REMEMBERED_LINES || line.text.length > LIMIT_REMEMBERED_BYTES
        || line_memory_find(memory, line.text))
        return;
    uint64_t hash = hash_bytes(line.text.bytes, line.text.length);
    line.text.bytes = arena_copy(memory->arena, line.text.bytes, line.text.length);
    if (!line.text.bytes || !array_grow(&memory->allocator, &memory->at, number, &memory->capacity, sizeof line)
        || !table_add(&memory->table, hash, number))
        return;
    memory->at[memory->count++] = line;
}
