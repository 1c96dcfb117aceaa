/* Rows are parted by the number of their food into unnamed files, each small enough to be held in memory. */
#include <string.h>

#include "import/parts.h"

bool parts_open(struct import *import, uint64_t bytes)
{
    uint64_t wanted = bytes / PART_BYTES + 1;
    uint32_t count = wanted > PARTS_MOST ? PARTS_MOST : (uint32_t)wanted;
    for (; import->parts_count < count; import->parts_count++) {
        FILE *file = import_scratch_file(import);
        import->parts[import->parts_count] = file;
        if (!file)
            return false;
    }
    return true;
}

#define RECORD_BYTES 512

/* A record begins at a multiple of 8 bytes, so that it can be used where it lies once it is read again. */
bool parts_add(struct import *import, struct part_head head, struct text number, struct text rest)
{
    static const char padding[8] = { 0 };
    char record[RECORD_BYTES];
    FILE *file = import->parts[hash_bytes(number.bytes, number.length) % import->parts_count];
    head.number_length = (uint8_t)number.length;
    head.length = number.length + rest.length;
    size_t behind = (8 - head.length % 8) % 8, used = sizeof head + number.length;
    memcpy(record, &head, sizeof head);
    memcpy(record + sizeof head, number.bytes, number.length);
    if (used + rest.length + behind > sizeof record)
        return import_put(import, file, record, used) && import_put(import, file, rest.bytes, rest.length)
            && import_put(import, file, padding, behind);
    memcpy(record + used, rest.bytes, rest.length);
    memcpy(record + used + rest.length, padding, behind);
    return import_put(import, file, record, used + rest.length + behind);
}
