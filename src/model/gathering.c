/* A worker's own memory: arenas, buffers and records that are reused from file to file. */
#include <string.h>

#include "model/model.h"

void gathering_open(struct gathering *gathering, struct kitchen *kitchen)
{
    *gathering = (struct gathering){ .kitchen = kitchen };
    arena_open(&gathering->arena, kitchen->allocator);
    arena_open(&gathering->findings_arena, kitchen->allocator);
    arena_open(&gathering->trees, kitchen->allocator);
    arena_open(&gathering->keeps_arena, kitchen->allocator);
    table_open(&gathering->keeps_table, kitchen->allocator);
    findings_open(&gathering->findings, &gathering->findings_arena);
    buffer_open(&gathering->buffer, kitchen->allocator);
    table_open(&gathering->tail_table, kitchen->allocator);
    table_open(&gathering->bath_names, kitchen->allocator);
    table_open(&gathering->within_table, kitchen->allocator);
    parse_open(&gathering->parse, kitchen->allocator, &gathering->trees, &gathering->findings, collect_declaration,
               gathering);
    line_memory_open(&gathering->memory, kitchen->allocator);
    gathering->parse.memory = &gathering->memory;
    gathering->declarations_end = &gathering->declarations;
}

void gathering_close(struct gathering *gathering)
{
    struct allocator *allocator = &gathering->kitchen->allocator;
    void *const arrays[] = { gathering->lines, gathering->sayings, gathering->parts, gathering->bounds, gathering->recipes,
                             gathering->policies, gathering->tails, gathering->portions, gathering->follows,
                             gathering->expectations, gathering->weeks, gathering->week_days, gathering->claims, gathering->keeps,
                             gathering->withins };
    for (uint32_t i = 0; i < COUNT_OF(arrays); i++) {
        if (arrays[i])
            allocator->resize(allocator->context, arrays[i], 0);
    }
    table_close(&gathering->tail_table);
    table_close(&gathering->bath_names);
    table_close(&gathering->within_table);
    line_memory_close(&gathering->memory);
    buffer_close(&gathering->buffer);
    parse_close(&gathering->parse);
    table_close(&gathering->keeps_table);
    arena_close(&gathering->keeps_arena);
    arena_close(&gathering->trees);
    arena_close(&gathering->findings_arena);
    arena_close(&gathering->arena);
}

enum status gathering_read(struct gathering *gathering, uint32_t file, char *bytes, uint32_t length)
{
    gathering->file = file;
    gathering->in_loose_lines = false;
    gathering->kept_text = (struct text){ NULL, 0 };
    enum status status = parse_text(&gathering->parse, file, bytes, length);
    return gathering->failed || gathering->arena.failed ? STATUS_NO_MEMORY : status;
}

static uint32_t find_tail(const struct gathering *gathering, const struct tail *wanted, uint64_t hash)
{
    uint32_t position, found;
    for (found = table_find(&gathering->tail_table, hash, &position); found != TABLE_NONE;
         found = table_next(&gathering->tail_table, hash, &position)) {
        const struct tail *tail = &gathering->tails[found];
        if (tail->is_measured == wanted->is_measured && memcmp(&tail->written, &wanted->written, sizeof tail->written) == 0
            && text_equal(tail->text, wanted->text))
            return found;
    }
    return NONE_INDEX;
}

/* Whether a parenthesis stands among the items, whose meaning may hang on the amount before them. */
static bool has_group(const struct item *items)
{
    while (items && items->kind != ITEM_GROUP)
        items = items->next;
    return items != NULL;
}

uint32_t gathering_tail(struct gathering *gathering, struct span span, const struct quantity *quantity, const struct item *items,
                        const struct phrase *phrases)
{
    struct tail tail = { .text = span_text(gathering->parse.text, span) };
    tail.is_measured = !quantity || (quantity->kind != QUANTITY_SOME && quantity->kind != QUANTITY_BAD);
    if (quantity && quantity->kind == QUANTITY_NUMBER && quantity->low != 1 && has_group(items))
        tail.written = quantity->low;
    uint64_t hash = hash_bytes(tail.text.bytes, tail.text.length);
    uint32_t number = find_tail(gathering, &tail, hash);
    if (number != NONE_INDEX)
        return number;
    tail.text.bytes = arena_copy(&gathering->arena, tail.text.bytes, tail.text.length);
    tail.items = items_copy(&gathering->arena, items, span.start);
    tail.phrases = phrases_copy(&gathering->arena, phrases, span.start);
    number = gathering->tails_count;
    if (gathering->arena.failed
        || !array_grow(&gathering->kitchen->allocator, &gathering->tails, number, &gathering->tails_capacity, sizeof tail)
        || !table_add(&gathering->tail_table, hash, number)) {
        gathering->failed = true;
        return NONE_INDEX;
    }
    gathering->tails[gathering->tails_count++] = tail;
    return number;
}

struct line gathering_line(const struct gathering *gathering, uint32_t number)
{
    const struct line_record *record = &gathering->lines[number];
    const struct saying *saying = &gathering->sayings[record->saying];
    return (struct line){ .low = saying->low, .high = saying->high, .start = record->start,
                          .tail_start = record->start + saying->tail_offset, .tail = saying->tail,
                          .part = record->part, .quantity = saying->quantity, .flags = saying->flags };
}

bool gathering_has_bath(const struct gathering *gathering, struct text name)
{
    char key[KEY_BYTES];
    uint32_t position, length = name_key_of(name, true, key);
    return table_find(&gathering->bath_names, hash_bytes(key, length), &position) != TABLE_NONE;
}
