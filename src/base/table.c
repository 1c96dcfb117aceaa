/* Hashing, and an open-addressed table from hash to number. */
#include <string.h>

#include "base/base.h"

#define FIRST_CAPACITY 16

/* Multiply and fold: the high half of a 128-bit product mixed into the low one. */
uint64_t hash_mix(uint64_t a, uint64_t b)
{
#ifdef __SIZEOF_INT128__
    __extension__ typedef unsigned __int128 wide;
    wide product = (wide)a * b;
    return (uint64_t)product ^ (uint64_t)(product >> 64);
#else
    uint64_t a_high = a >> 32, a_low = a & 0xffffffffu;
    uint64_t b_high = b >> 32, b_low = b & 0xffffffffu;
    uint64_t low = a_low * b_low, middle = a_high * b_low + (low >> 32);
    uint64_t cross = a_low * b_high + (middle & 0xffffffffu);
    uint64_t high = a_high * b_high + (middle >> 32) + (cross >> 32);
    return high ^ ((cross << 32) | (low & 0xffffffffu));
#endif
}

/* The last bytes, fewer than eight, in the machine's own order: a pack names the order it was made in. Where there are
 * eight bytes that end with them, one read and a shift is the same and much faster than a copy of unknown length. */
static uint64_t read_rest(const unsigned char *bytes, size_t length, bool after_others)
{
    uint64_t rest = 0;
#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__
    if (after_others && length) {
        memcpy(&rest, bytes + length - 8, 8);
        return rest >> (64 - 8 * length);
    }
#endif
    (void)after_others;
    if (length)                         /* bytes may be NULL where there are none */
        memcpy(&rest, bytes, length);
    return rest;
}

uint64_t hash_bytes(const void *bytes, size_t length)
{
    const unsigned char *at = bytes;
    bool is_long = length >= 8;
    uint64_t hash = 0x9e3779b97f4a7c15u ^ length;
    for (; length >= 8; at += 8, length -= 8) {
        uint64_t piece;
        memcpy(&piece, at, 8);
        hash = hash_mix(hash ^ piece, 0xa0761d6478bd642fu);
    }
    return hash_mix(hash ^ read_rest(at, length, is_long), 0xe7037ed1a0b428dbu);
}

void table_open(struct table *table, struct allocator allocator)
{
    *table = (struct table){ .allocator = allocator };
}

void table_close(struct table *table)
{
    if (table->slots)
        table->allocator.resize(table->allocator.context, table->slots, 0);
    *table = (struct table){ .allocator = table->allocator };
}

uint32_t table_next(const struct table *table, uint64_t hash, uint32_t *position)
{
    for (;;) {
        const struct table_slot *slot = &table->slots[*position];
        if (slot->value == TABLE_NONE)
            return TABLE_NONE;
        *position = (*position + 1) & (table->capacity - 1);
        if (slot->hash == (uint32_t)hash)
            return slot->value;
    }
}

uint32_t table_find(const struct table *table, uint64_t hash, uint32_t *position)
{
    if (table->capacity == 0)
        return TABLE_NONE;
    *position = (uint32_t)hash & (table->capacity - 1);
    return table_next(table, hash, position);
}

static void put_slot(struct table *table, uint32_t hash, uint32_t value)
{
    uint32_t position = hash & (table->capacity - 1);
    while (table->slots[position].value != TABLE_NONE)
        position = (position + 1) & (table->capacity - 1);
    table->slots[position] = (struct table_slot){ hash, value };
}

static bool widen(struct table *table, uint32_t capacity)
{
    struct table old = *table;
    size_t bytes = (size_t)capacity * sizeof *old.slots;
    table->slots = table->allocator.resize(table->allocator.context, NULL, bytes);
    if (!table->slots) {
        *table = old;
        return false;
    }
    memset(table->slots, 0xff, bytes);
    table->capacity = capacity;
    for (uint32_t i = 0; i < old.capacity; i++) {
        if (old.slots[i].value != TABLE_NONE)
            put_slot(table, old.slots[i].hash, old.slots[i].value);
    }
    if (old.slots)
        old.allocator.resize(old.allocator.context, old.slots, 0);
    return true;
}

bool table_reserve(struct table *table, uint32_t count)
{
    uint32_t capacity = FIRST_CAPACITY;
    while (capacity / 2 < count && capacity < UINT32_MAX / 2)
        capacity *= 2;
    return count == 0 || capacity <= table->capacity || widen(table, capacity);
}

bool table_add(struct table *table, uint64_t hash, uint32_t value)
{
    if (table->count * 2 >= table->capacity
        && !widen(table, table->capacity ? table->capacity * 2 : FIRST_CAPACITY))
        return false;
    put_slot(table, (uint32_t)hash, value);
    table->count++;
    return true;
}

bool table_put(struct table *table, uint64_t hash, uint32_t value)
{
    uint32_t position;
    if (table_find(table, hash, &position) == TABLE_NONE)
        return table_add(table, hash, value);
    table->slots[(position - 1) & (table->capacity - 1)].value = value;
    return true;
}
