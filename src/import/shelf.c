/* Finished foods wait in unnamed files until all names are known. Two foods have one name if their keys are equal; keys
 * are kept as hashes, in a file, and compared in as many passes as keep memory small. Each food is one bit in what the
 * passes find. Should two different names share a hash of 64 bits, one is numbered without need, and that is all.
 *
 * Names with numbers are made as the foods are written. Should one of them be taken as well, which takes wrong tables, the
 * foods are written a second time without it. */
#include <stdlib.h>
#include <string.h>

#include "import/parts.h"

#define KEYS_IN_MEMORY 131072u      /* 2 MiB of them */
#define KEYS_A_PASS 100000u         /* about so many lie in the range of one pass */
#define KEYS_AT_ONCE 256
#define NUMBER_WORDS 6

/* The key of a food and its row. */
struct key_at {
    uint64_t hash, row;
};

struct naming {
    struct import *import;
    uint8_t *taken, *dropped;       /* a bit for each row */
    FILE *numbered;                 /* keys of names with numbers */
    struct key_at *at;
    uint32_t count, capacity;
    uint64_t foods;
};

static bool bit(const uint8_t *bits, uint64_t row)
{
    return bits[row / 8] >> row % 8 & 1;
}

static void set_bit(uint8_t *bits, uint64_t row)
{
    bits[row / 8] |= (uint8_t)(1u << row % 8);
}

/* ---- putting aside ---------------------------------------------------------------------------------------------------- */

bool shelf_open(struct import *import)
{
    uint32_t count = import->parts_count ? import->parts_count : 1;
    import->keys = import_scratch_file(import);
    for (uint32_t i = 0; import->keys && i < count; i++) {
        import->shelves[i] = import_scratch_file(import);
        if (!import->shelves[i])
            return false;
    }
    return import->keys != NULL;
}

/* Where the first `most` words of a name end. */
static uint32_t first_words(struct text name, uint32_t most)
{
    uint32_t blanks = 0;
    for (uint32_t i = 0; i < name.length; i++) {
        blanks += name.bytes[i] == ' ';
        if (blanks == most)
            return i;
    }
    return name.length;
}

/* `NAME number 12345`, cut so that the library can hold it. Returns the hash of its key. */
static uint64_t add_numbered(struct buffer *buffer, struct text name, struct text number)
{
    char key[KEY_BYTES];
    size_t start = buffer->length;
    for (uint32_t most = LIMIT_NAME_WORDS - 1 - NUMBER_WORDS; most > 0; most--) {
        buffer->length = start;
        buffer_add(buffer, name.bytes, first_words(name, most));
        buffer_add_string(buffer, " number ");
        buffer_add(buffer, number.bytes, number.length);
        uint32_t length = name_key_of((struct text){ buffer->bytes + start, (uint32_t)(buffer->length - start) }, false, key);
        if (length > 0)
            return hash_bytes(key, length);
    }
    return 0;
}

/* Whether the library has a food or a choice of kinds of this key. */
static bool library_has(const struct library *library, struct text key)
{
    const struct shelf *shelf;
    library_shelf(library, key, &shelf);
    return shelf || library_food(library, key).food;
}

bool shelf_add(struct import *import, struct made_food *food, struct text number, struct text body)
{
    char key[KEY_BYTES];
    struct text name = { food->name.bytes, (uint32_t)food->name.length };
    struct text key_text = { key, name_key_of(name, false, key) };
    struct key_at record = { .hash = hash_bytes(key, key_text.length), .row = food->row };
    struct shelf_head head = { .row = food->row, .name_length = name.length, .number_length = number.length,
                               .body_length = body.length, .is_renamed = library_has(import->library, key_text) };
    FILE *shelf = import->shelves[import->part];
    import->shelved++;
    return (head.is_renamed || import_put(import, import->keys, &record, sizeof record))
        && import_put(import, shelf, &head, sizeof head)
        && import_put(import, shelf, name.bytes, name.length) && import_put(import, shelf, number.bytes, number.length)
        && import_put(import, shelf, body.bytes, body.length);
}

/* ---- names that are taken ------------------------------------------------------------------------------------------------ */

static int compare_keys(const void *a, const void *b)
{
    const struct key_at *first = a, *second = b;
    if (first->hash != second->hash)
        return first->hash < second->hash ? -1 : 1;
    return first->row < second->row ? -1 : first->row > second->row;
}

/* Sorts what was gathered, marks all but the first of equal keys, and keeps only those. */
static void settle(struct naming *naming, uint8_t *marks)
{
    uint32_t kept = 0;
    if (naming->count > 1)
        qsort(naming->at, naming->count, sizeof *naming->at, compare_keys);
    for (uint32_t i = 0; i < naming->count; i++) {
        if (kept > 0 && naming->at[i].hash == naming->at[kept - 1].hash)
            set_bit(marks, naming->at[i].row);
        else
            naming->at[kept++] = naming->at[i];
    }
    naming->count = kept;
}

/* A name that very many foods have must not fill the memory: equal keys are settled when there is no room. */
static bool add_key(struct naming *naming, struct key_at key, uint8_t *marks)
{
    if (naming->count == KEYS_IN_MEMORY)
        settle(naming, marks);
    if (!array_grow(&naming->import->allocator, &naming->at, naming->count, &naming->capacity, sizeof key))
        return trouble_memory(naming->import);
    naming->at[naming->count++] = key;
    return true;
}

/* Gathers the keys of a file whose hash lies in the range of the pass. Names that gave way to numbers are free. */
static bool gather(struct naming *naming, FILE *keys, uint64_t pass, uint64_t passes, uint8_t *marks)
{
    struct key_at read[KEYS_AT_ONCE];
    size_t count;
    if (fseeko(keys, 0, SEEK_SET) != 0)
        return trouble_stop(naming->import, STATUS_IO, naming->import->scratch, "a file of its own cannot be read");
    while ((count = fread(read, sizeof *read, KEYS_AT_ONCE, keys)) > 0) {
        for (size_t i = 0; i < count; i++) {
            bool gave_way = marks == naming->dropped && keys == naming->import->keys && bit(naming->taken, read[i].row);
            if (!gave_way && (read[i].hash >> 32) * passes >> 32 == pass && !add_key(naming, read[i], marks))
                return false;
        }
    }
    return !ferror(keys) || trouble_stop(naming->import, STATUS_IO, naming->import->scratch, "a file of its own cannot be read");
}

/* Of equal keys all but the first are marked: among the names as they are, or, for `dropped`, with their numbers. */
static bool mark(struct naming *naming, uint8_t *marks)
{
    uint64_t passes = naming->import->shelved / KEYS_A_PASS + 1;
    for (uint64_t pass = 0; pass < passes; pass++) {
        naming->count = 0;
        if (!gather(naming, naming->import->keys, pass, passes, marks)
            || (marks == naming->dropped && !gather(naming, naming->numbered, pass, passes, marks)))
            return false;
        settle(naming, marks);
    }
    return true;
}

/* ---- writing -------------------------------------------------------------------------------------------------------------- */

/* The food that a shelf gives next; row 0 at its end. */
static bool read_head(struct import *import, FILE *shelf, struct shelf_head *head)
{
    if (fread(head, sizeof *head, 1, shelf) == 1)
        return true;
    head->row = 0;
    return !ferror(shelf) || trouble_stop(import, STATUS_IO, import->scratch, "a file of its own cannot be read");
}

static bool take_bytes(struct import *import, FILE *shelf, struct buffer *buffer, size_t length)
{
    if (!buffer_reserve(buffer, buffer->length + length + 1))
        return trouble_memory(import);
    if (fread(buffer->bytes + buffer->length, 1, length, shelf) != length)
        return trouble_stop(import, STATUS_IO, import->scratch, "a file of its own cannot be read");
    buffer->length += length;
    return true;
}

/* NAME, or NAME with its number if it is taken; the key of the latter is put down. */
static bool add_name(struct naming *naming, struct buffer *text, const struct shelf_head *head, const char *bytes)
{
    struct text name = { bytes, head->name_length }, number = { bytes + head->name_length, head->number_length };
    if (!head->is_renamed && !bit(naming->taken, head->row)) {
        buffer_add(text, name.bytes, name.length);
        return true;
    }
    struct key_at key = { add_numbered(text, name, number), head->row };
    naming->import->outcome->renamed++;
    return import_put(naming->import, naming->numbered, &key, sizeof key);
}

/* food NAME { BODY } */
static bool write_food(struct naming *naming, FILE *shelf, const struct shelf_head *head)
{
    struct import *import = naming->import;
    struct buffer *names = &import->work, *text = &import->body;
    names->length = text->length = 0;
    if (!take_bytes(import, shelf, names, head->name_length + head->number_length))
        return false;
    buffer_add_string(text, "\nfood ");
    if (!add_name(naming, text, head, names->bytes))
        return false;
    if (bit(naming->dropped, head->row)) {
        import->outcome->renamed--;
        trouble_row(import, ROLE_FOODS, head->row, FINDING_ROW_NAME_TWICE,
                    GAPS(((struct text){ text->bytes + 6, (uint32_t)text->length - 6 })));
        text->length = 0;
        return take_bytes(import, shelf, text, head->body_length);
    }
    buffer_add_string(text, " {\n");
    if (!take_bytes(import, shelf, text, head->body_length))
        return false;
    buffer_add_string(text, "}\n");
    import->outcome->foods++;
    return text->failed ? trouble_memory(import) : output_add(import, text->bytes, text->length);
}

/* Every shelf is in order of rows; the next food is the least of their first ones. */
static bool write_all(struct naming *naming)
{
    struct import *import = naming->import;
    struct shelf_head heads[PARTS_MOST];
    uint32_t count = import->parts_count ? import->parts_count : 1;
    for (uint32_t i = 0; i < count; i++) {
        if (fseeko(import->shelves[i], 0, SEEK_SET) != 0)
            return trouble_stop(import, STATUS_IO, import->scratch, "a file of its own cannot be read");
        if (!read_head(import, import->shelves[i], &heads[i]))
            return false;
    }
    for (;;) {
        uint32_t next = count;
        for (uint32_t i = 0; i < count; i++) {
            if (heads[i].row > 0 && (next == count || heads[i].row < heads[next].row))
                next = i;
        }
        if (next == count)
            return true;
        if (!write_food(naming, import->shelves[next], &heads[next]) || !read_head(import, import->shelves[next], &heads[next]))
            return false;
    }
}

static bool flush_shelves(struct import *import)
{
    bool good = fflush(import->keys) == 0;
    for (uint32_t i = 0; i < PARTS_MOST; i++)
        good = (!import->shelves[i] || fflush(import->shelves[i]) == 0) && good;
    return good || trouble_stop(import, STATUS_IO, import->scratch, "a file of its own cannot be written");
}

/* Whether a food is left out of what was written. */
static bool is_any_dropped(const struct naming *naming, size_t bytes)
{
    for (size_t i = 0; i < bytes; i++) {
        if (naming->dropped[i])
            return true;
    }
    return false;
}

static bool name_and_write(struct naming *naming, size_t bytes)
{
    struct import *import = naming->import;
    memset(naming->taken, 0, bytes);
    memset(naming->dropped, 0, bytes);
    naming->numbered = import_scratch_file(import);
    bool good = naming->numbered && flush_shelves(import) && mark(naming, naming->taken) && write_all(naming);
    if (!good || import->outcome->renamed == 0)
        return good;
    if (!mark(naming, naming->dropped))
        return false;
    if (!is_any_dropped(naming, bytes))
        return true;
    import->outcome->foods = import->outcome->renamed = 0;
    return output_restart(import) && write_all(naming);
}

bool shelf_write(struct import *import)
{
    struct allocator allocator = import->allocator;
    struct naming naming = { .import = import };
    size_t bytes = (size_t)(import->foods_seen / 8 + 1);
    naming.taken = allocator.resize(allocator.context, NULL, bytes);
    naming.dropped = allocator.resize(allocator.context, NULL, bytes);
    bool good = naming.taken && naming.dropped ? name_and_write(&naming, bytes) : trouble_memory(import);
    if (naming.numbered)
        fclose(naming.numbered);
    allocator.resize(allocator.context, naming.at, 0);
    allocator.resize(allocator.context, naming.dropped, 0);
    allocator.resize(allocator.context, naming.taken, 0);
    return good;
}
