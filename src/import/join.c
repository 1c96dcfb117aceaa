/* One part after another is held in memory: its foods in order of their rows, and the amounts and portions that belong
 * to each. In published data these mostly stand in order already; sorting is for when they do not. */
#include <stdlib.h>
#include <string.h>

#include "import/parts.h"

struct part_food {
    struct text number, name, source, group;
    uint64_t row;
    bool left_out;
};

/* A record of an amount or a portion, and whose it is. */
struct part_row {
    uint32_t food;
    const struct part_head *head;
};

struct part_rows {
    struct part_row *at;
    uint32_t count, capacity, next;
};

struct part {
    struct import *import;
    char *bytes;
    size_t length;
    struct part_food *foods;
    uint32_t foods_count, foods_capacity;
    struct part_rows amounts, portions;
    struct table table;             /* from the number of a food */
    uint32_t last;                  /* food found last */
};

/* ---- loading ------------------------------------------------------------------------------------------------------- */

static bool load_bytes(struct part *part, FILE *file)
{
    struct import *import = part->import;
    if (fflush(file) != 0 || fseeko(file, 0, SEEK_END) != 0)
        return trouble_stop(import, STATUS_IO, import->scratch, "a file of its own cannot be written");
    off_t length = ftello(file);
    if (length < 0 || fseeko(file, 0, SEEK_SET) != 0)
        return trouble_stop(import, STATUS_IO, import->scratch, "a file of its own cannot be read");
    part->length = (size_t)length;
    part->bytes = import->allocator.resize(import->allocator.context, NULL, part->length + 1);
    if (!part->bytes)
        return trouble_memory(import);
    return fread(part->bytes, 1, part->length, file) == part->length
        || trouble_stop(import, STATUS_IO, import->scratch, "a file of its own cannot be read");
}

static uint32_t find_food(struct part *part, struct text number)
{
    uint32_t position, found;
    uint64_t hash = hash_bytes(number.bytes, number.length);
    if (part->last < part->foods_count && text_equal(part->foods[part->last].number, number))
        return part->last;
    for (found = table_find(&part->table, hash, &position); found != TABLE_NONE;
         found = table_next(&part->table, hash, &position)) {
        if (text_equal(part->foods[found].number, number))
            return part->last = found;
    }
    return TABLE_NONE;
}

static const char *take_measured(const char *at, struct text *text)
{
    uint32_t length;
    memcpy(&length, at, sizeof length);
    *text = (struct text){ at + sizeof length, length };
    return at + sizeof length + length;
}

static struct text row_text(uint64_t row, char *storage, size_t size)
{
    int length = snprintf(storage, size, "%llu", (unsigned long long)row);
    return (struct text){ storage, length > 0 ? (uint32_t)length : 0 };
}

static bool add_food(struct part *part, const struct part_head *head, struct text number)
{
    char storage[32];
    struct import *import = part->import;
    uint32_t earlier = find_food(part, number);
    if (earlier != TABLE_NONE) {
        trouble_row(import, ROLE_FOODS, head->row, FINDING_ROW_FOOD_TWICE,
                    GAPS(number, row_text(part->foods[earlier].row, storage, sizeof storage)));
        return true;
    }
    struct part_food food = { .number = number, .row = head->row, .left_out = head->kind == PART_LEFT_OUT };
    if (!food.left_out)
        take_measured(take_measured(take_measured(number.bytes + number.length, &food.name), &food.source), &food.group);
    if (!array_grow(&import->allocator, &part->foods, part->foods_count, &part->foods_capacity, sizeof food)
        || !table_add(&part->table, hash_bytes(number.bytes, number.length), part->foods_count))
        return trouble_memory(import);
    part->foods[part->foods_count++] = food;
    return true;
}

static bool add_row(struct part *part, const struct part_head *head, struct text number)
{
    struct import *import = part->import;
    bool is_amount = head->kind == PART_AMOUNT;
    struct part_rows *rows = is_amount ? &part->amounts : &part->portions;
    uint32_t food = find_food(part, number);
    if (food == TABLE_NONE) {
        trouble_row(import, is_amount ? ROLE_AMOUNTS : ROLE_PORTIONS, head->row, FINDING_ROW_NO_FOOD,
                    GAPS(number, import->file_names[ROLE_FOODS]));
        return true;
    }
    if (!array_grow(&import->allocator, &rows->at, rows->count, &rows->capacity, sizeof *rows->at))
        return trouble_memory(import);
    rows->at[rows->count++] = (struct part_row){ food, head };
    return true;
}

/* Records begin at multiples of 8 in memory: parts_add pads them. Foods were written before amounts and portions. */
static bool load_records(struct part *part)
{
    bool good = true;
    for (size_t at = 0; good && at < part->length;) {
        const struct part_head *head = (const struct part_head *)(const void *)(part->bytes + at);
        struct text number = { (const char *)(head + 1), head->number_length };
        good = head->kind <= PART_LEFT_OUT ? add_food(part, head, number) : add_row(part, head, number);
        at += sizeof *head + (head->length + 7u) / 8 * 8;
    }
    return good;
}

/* ---- order ------------------------------------------------------------------------------------------------------------ */

static int compare_rows(const void *a, const void *b)
{
    const struct part_row *first = a, *second = b;
    if (first->food != second->food)
        return first->food < second->food ? -1 : 1;
    return first->head->row < second->head->row ? -1 : first->head->row > second->head->row;
}

static void sort_rows(struct part_rows *rows)
{
    for (uint32_t i = 1; i < rows->count; i++) {
        if (rows->at[i - 1].food > rows->at[i].food) {
            qsort(rows->at, rows->count, sizeof *rows->at, compare_rows);
            return;
        }
    }
}

/* ---- joining ------------------------------------------------------------------------------------------------------------ */

static void tell_twice(struct part *part, uint32_t number, const struct part_head *head, const struct part_head *other)
{
    char storage[32];
    const struct library *owner;
    const struct nutrient *nutrient = library_nutrient_at(part->import->library, head->nutrient, &owner);
    if (!part->foods[number].left_out)
        trouble_row(part->import, ROLE_AMOUNTS, head->row, FINDING_ROW_FIGURE_TWICE,
                    GAPS(library_text(owner, nutrient->name), part->foods[number].number,
                         row_text(other->row, storage, sizeof storage)));
}

/* Of several codes of one nutrient the one that the mapping names first counts. One code twice is a wrong row; where the
 * two differ nobody knows which is right, and the figure stays unknown. */
static void join_amounts(struct part *part, uint32_t number, struct made_food *food)
{
    struct part_rows *rows = &part->amounts;
    const struct part_head *chosen[LIMIT_NUTRIENTS] = { NULL };
    for (; rows->next < rows->count && rows->at[rows->next].food == number; rows->next++) {
        const struct part_head *head = rows->at[rows->next].head, *other = chosen[head->nutrient];
        uint64_t bit = (uint64_t)1 << head->nutrient;
        if (other && other->rank == head->rank) {
            tell_twice(part, number, head, other);
            food->figures.known &= other->value == head->value ? UINT64_MAX : ~bit;
        }
        if (other && other->rank <= head->rank)
            continue;
        chosen[head->nutrient] = head;
        food->figures.amounts[head->nutrient] = head->value;
        food->figures.known |= bit;
    }
}

static void join_portions(struct part *part, uint32_t number, struct made_food *food)
{
    struct part_rows *rows = &part->portions;
    struct import *import = part->import;
    for (; rows->next < rows->count && rows->at[rows->next].food == number; rows->next++) {
        const struct part_head *head = rows->at[rows->next].head;
        const char *bytes = (const char *)(head + 1);
        struct text words = { bytes + head->number_length, head->length - head->number_length };
        if (part->foods[number].left_out)
            continue;
        if (food->portion_count == LIMIT_PORTIONS)
            trouble_row(import, ROLE_PORTIONS, head->row, FINDING_ROW_PORTIONS, GAPS(part->foods[number].number));
        else if (!food_add_portion(import, food, head->value, words, head->grams))
            import->outcome->without_measure++;
    }
}

static bool join_foods(struct part *part, struct made_food *food)
{
    bool good = true;
    for (uint32_t i = 0; good && i < part->foods_count; i++) {
        const struct part_food *from = &part->foods[i];
        food_reset(food);
        food->row = from->row;
        food->number = from->number;
        food->group = from->group;
        food->basis_grams = part->import->mapping.basis_grams;
        join_amounts(part, i, food);
        join_portions(part, i, food);
        if (from->left_out)
            continue;
        buffer_add(&food->name, from->name.bytes, from->name.length);
        buffer_add(&food->source, from->source.bytes, from->source.length);
        good = food_finish(part->import, food);
    }
    return good;
}

static void close_part(struct part *part)
{
    struct allocator allocator = part->import->allocator;
    table_close(&part->table);
    allocator.resize(allocator.context, part->bytes, 0);
    allocator.resize(allocator.context, part->foods, 0);
    allocator.resize(allocator.context, part->amounts.at, 0);
    allocator.resize(allocator.context, part->portions.at, 0);
}

static bool join_part(struct import *import, FILE *file, struct made_food *food)
{
    struct part part = { .import = import };
    table_open(&part.table, import->allocator);
    bool good = load_bytes(&part, file) && load_records(&part);
    if (good) {
        sort_rows(&part.amounts);
        sort_rows(&part.portions);
        good = join_foods(&part, food);
    }
    close_part(&part);
    return good;
}

bool parts_join(struct import *import)
{
    struct made_food food;
    bool good = true;
    food_open(&food, import->allocator);
    for (import->part = 0; good && import->part < import->parts_count; import->part++) {
        good = join_part(import, import->parts[import->part], &food);
        fclose(import->parts[import->part]);
        import->parts[import->part] = NULL;
    }
    food_close(&food);
    return good && import->status == STATUS_OK;
}
