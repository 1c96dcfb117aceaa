/* The tables of a folder. Nutrients and units are few and are kept; the rows of foods, amounts and portions go to the
 * part of their food. Amounts of nutrients that nobody asked for are left where they are. */
#include <string.h>
#include <sys/stat.h>

#include "import/parts.h"

#define NUMBER_BYTES 100            /* of a food, a nutrient or a unit */

struct entry {
    struct text number, name;       /* of a unit: its name; of a nutrient: its unit */
    const struct map_code *code;    /* of a nutrient that was asked for, or NULL */
    double factor;
};

/* Rows that others refer to by number. */
struct entries {
    struct entry *at;
    uint32_t count, capacity;
    struct table table;
    const struct entry *last;       /* found last: rows of one kind often stand together */
};

struct folder {
    struct import *import;
    struct entries nutrients, units;
    struct buffer name, source;
};

/* ---- entries ----------------------------------------------------------------------------------------------------- */

static void entries_open(struct entries *entries, struct allocator allocator)
{
    *entries = (struct entries){ .count = 0 };
    table_open(&entries->table, allocator);
}

static void entries_close(struct entries *entries, struct allocator allocator)
{
    table_close(&entries->table);
    allocator.resize(allocator.context, entries->at, 0);
}

static const struct entry *find_entry(struct entries *entries, struct text number)
{
    uint32_t position, found;
    uint64_t hash = hash_bytes(number.bytes, number.length);
    if (entries->last && text_equal(entries->last->number, number))
        return entries->last;
    for (found = table_find(&entries->table, hash, &position); found != TABLE_NONE;
         found = table_next(&entries->table, hash, &position)) {
        if (text_equal(entries->at[found].number, number))
            return entries->last = &entries->at[found];
    }
    return NULL;
}

static struct text keep_text(struct import *import, struct text text)
{
    const char *copy = arena_copy(&import->arena, text.bytes, text.length);
    return (struct text){ copy ? copy : "", copy ? text.length : 0 };
}

static bool add_entry(struct import *import, struct entries *entries, struct entry entry)
{
    uint64_t hash = hash_bytes(entry.number.bytes, entry.number.length);
    if (!array_grow(&import->allocator, &entries->at, entries->count, &entries->capacity, sizeof *entries->at)
        || !table_add(&entries->table, hash, entries->count))
        return trouble_memory(import);
    entry.number = keep_text(import, entry.number);
    entry.name = keep_text(import, entry.name);
    entries->at[entries->count++] = entry;
    entries->last = NULL;
    return !import->arena.failed || trouble_memory(import);
}

/* The cell that a row cannot be without: what it is called by, or whose it is. */
static bool take_number(struct table_file *file, enum slot slot, struct text *number)
{
    char storage[32];
    *number = table_slot(file, slot);
    if (number->length > NUMBER_BYTES)
        number->length = NUMBER_BYTES;
    if (number->length == 0)
        table_wrong(file, FINDING_ROW_NO_KEY, GAPS(table_column_name(map_column(file->map, slot), storage, sizeof storage)));
    return number->length > 0;
}

static const struct map_code *find_code(const struct import *import, struct text code)
{
    const struct map_code *found = import->mapping.codes;
    while (found && !text_equal(found->code, code))
        found = found->next;
    return found;
}

static bool read_nutrient(struct folder *folder, struct table_file *file)
{
    struct buffer *unit = &folder->import->body;
    unit->length = 0;
    if (!words_decode(unit, table_slot(file, SLOT_UNIT), folder->import->mapping.latin_1))
        unit->length = 0;
    struct entry entry = { .name = { unit->bytes ? unit->bytes : "", (uint32_t)unit->length } };
    if (!take_number(file, SLOT_NUMBER, &entry.number))
        return true;
    const struct map_column *code = map_column(file->map, SLOT_CODE);
    entry.code = find_code(folder->import, code ? table_cell(file, code) : entry.number);
    if (entry.code)
        entry.factor = figure_factor(folder->import, entry.name, entry.code->nutrient);
    return add_entry(folder->import, &folder->nutrients, entry);
}

static bool read_unit(struct folder *folder, struct table_file *file)
{
    struct entry entry = { .name = table_slot(file, SLOT_NAME) };
    return !take_number(file, SLOT_NUMBER, &entry.number) || add_entry(folder->import, &folder->units, entry);
}

/* ---- rows that go to their food ------------------------------------------------------------------------------------ */

/* The texts of a food, each with its length before it: name, source, group. */
static void add_measured(struct buffer *buffer, struct text text)
{
    uint32_t length = text.length;
    buffer_add(buffer, (const char *)&length, sizeof length);
    buffer_add(buffer, text.bytes, text.length);
}

static struct text buffer_text(const struct buffer *buffer)
{
    return (struct text){ buffer->bytes ? buffer->bytes : "", (uint32_t)buffer->length };
}

/* A row that is wrong or not kept leaves its number behind, so that its amounts are not taken for strays. */
static bool read_food(struct folder *folder, struct table_file *file)
{
    struct import *import = folder->import;
    struct part_head head = { .row = file->rows.row, .kind = PART_LEFT_OUT };
    struct text number, group = { "", 0 };
    if (!take_number(file, SLOT_NUMBER, &number))
        return true;
    folder->name.length = folder->source.length = import->body.length = 0;
    bool good = single_kept(file) && single_name(file, &folder->name) && single_source(file, &folder->source)
        && single_group(file, &group);
    if (!good)
        return parts_add(import, head, number, (struct text){ "", 0 });
    head.kind = PART_FOOD;
    add_measured(&import->body, buffer_text(&folder->name));
    add_measured(&import->body, buffer_text(&folder->source));
    add_measured(&import->body, group);
    if (import->body.failed || folder->name.failed || folder->source.failed)
        return trouble_memory(import);
    return parts_add(import, head, number, buffer_text(&import->body));
}

static bool read_amount(struct folder *folder, struct table_file *file)
{
    struct import *import = folder->import;
    struct text number, nutrient;
    double value;
    if (!take_number(file, SLOT_FOOD, &number) || !take_number(file, SLOT_NUTRIENT, &nutrient))
        return true;
    const struct entry *entry = find_entry(&folder->nutrients, nutrient);
    if (!entry)
        table_wrong(file, FINDING_ROW_NO_NUTRIENT, GAPS(nutrient, import->file_names[ROLE_NUTRIENTS]));
    if (!entry || !entry->code || table_number(file, map_column(file->map, SLOT_AMOUNT), &value) != CELL_NUMBER)
        return true;
    const struct library *owner;
    const struct nutrient *known = library_nutrient_at(import->library, entry->code->nutrient, &owner);
    if (entry->factor <= 0) {
        table_wrong(file, FINDING_ROW_UNIT, GAPS(entry->name, library_text(owner, known->name)));
        return true;
    }
    struct part_head head = { .row = file->rows.row, .kind = PART_AMOUNT, .nutrient = (uint8_t)entry->code->nutrient,
                              .rank = (uint8_t)entry->code->rank,
                              .value = entry->factor == 1 ? value : number_rounded(value * entry->factor) };
    if (figure_fits(import, entry->code->nutrient, head.value, import->mapping.basis_grams))
        return parts_add(import, head, number, (struct text){ "", 0 });
    char basis[40];
    int length = snprintf(basis, sizeof basis, "%.10g g", import->mapping.basis_grams);
    table_wrong(file, FINDING_ROW_ABSURD, GAPS(table_slot(file, SLOT_AMOUNT), library_text(owner, known->name),
                                               ((struct text){ basis, (uint32_t)length })));
    return true;
}

/* ---- portions -------------------------------------------------------------------------------------------------------- */

/* The unit by its name, or by its number among the units; one that nobody lists has no name. */
static struct text portion_unit(struct folder *folder, struct table_file *file)
{
    struct text unit = table_slot(file, SLOT_UNIT);
    if (!folder->import->mapping.files[ROLE_UNITS].is_named || unit.length == 0)
        return unit;
    const struct entry *entry = find_entry(&folder->units, unit);
    return entry ? entry->name : (struct text){ "", 0 };
}

/* What stands in parentheses in the words of a portion is a remark: `slice (1 oz)`. */
static void add_without_remarks(struct buffer *buffer, struct text text)
{
    uint32_t depth = 0;
    for (uint32_t i = 0; i < text.length; i++) {
        depth += text.bytes[i] == '(';
        if (depth == 0)
            buffer_add(buffer, text.bytes + i, 1);
        depth -= text.bytes[i] == ')' && depth > 0;
    }
    buffer_add_string(buffer, " ");
}

static void join_words(struct folder *folder, struct table_file *file, struct buffer *words)
{
    add_without_remarks(words, portion_unit(folder, file));
    for (const struct map_column *column = file->map->columns; column; column = column->next) {
        if (column->slot == SLOT_WORDS)
            add_without_remarks(words, table_cell(file, column));
    }
}

/* `1 cup` in words when the count is a column that is empty: takes the number off the front; 0 where there is none. */
static double take_count(struct text *words)
{
    double count;
    uint32_t end = 0;
    *words = text_trimmed(*words);
    while (end < words->length && words->bytes[end] != ' ')
        end++;
    if (number_read((struct text){ words->bytes, end }, false, &count) != CELL_NUMBER)
        return 0;
    *words = text_trimmed((struct text){ words->bytes + end, words->length - end });
    return count;
}

static bool read_portion(struct folder *folder, struct table_file *file)
{
    struct import *import = folder->import;
    struct part_head head = { .row = file->rows.row, .kind = PART_PORTION };
    struct text number;
    if (!take_number(file, SLOT_FOOD, &number) || table_number(file, map_column(file->map, SLOT_GRAMS), &head.grams) != CELL_NUMBER)
        return true;
    const struct map_column *count = map_column(file->map, SLOT_COUNT);
    enum cell counted = count ? table_number(file, count, &head.value) : CELL_EMPTY;
    if (counted != CELL_NUMBER && counted != CELL_EMPTY)
        return true;
    import->work.length = import->body.length = 0;
    join_words(folder, file, &import->work);
    struct text words = buffer_text(&import->work);
    if (counted == CELL_EMPTY)
        head.value = take_count(&words);
    if (!words_decode(&import->body, words, import->mapping.latin_1)) {
        table_wrong(file, FINDING_ROW_NOT_TEXT, GAPS(text_of("the words of a portion")));
        return true;
    }
    if (import->work.failed || import->body.failed)
        return trouble_memory(import);
    return parts_add(import, head, number, buffer_text(&import->body));
}

/* ---- all of them -------------------------------------------------------------------------------------------------------- */

typedef bool read_row(struct folder *folder, struct table_file *file);

static bool read_table(struct folder *folder, enum role role, read_row *read)
{
    struct table_file file = { .import = NULL };
    if (!folder->import->mapping.files[role].is_named)
        return true;
    bool good = table_file_open(&file, folder->import, role);
    while (good && table_file_next(&file))
        good = read(folder, &file);
    table_file_close(&file);
    return folder->import->status == STATUS_OK && !folder->import->map_is_wrong;
}

bool folder_read(struct import *import)
{
    struct folder folder = { .import = import };
    entries_open(&folder.nutrients, import->allocator);
    entries_open(&folder.units, import->allocator);
    buffer_open(&folder.name, import->allocator);
    buffer_open(&folder.source, import->allocator);
    bool good = read_table(&folder, ROLE_NUTRIENTS, read_nutrient) && read_table(&folder, ROLE_UNITS, read_unit)
        && read_table(&folder, ROLE_FOODS, read_food) && read_table(&folder, ROLE_AMOUNTS, read_amount)
        && read_table(&folder, ROLE_PORTIONS, read_portion);
    buffer_close(&folder.source);
    buffer_close(&folder.name);
    entries_close(&folder.units, import->allocator);
    entries_close(&folder.nutrients, import->allocator);
    return good;
}
