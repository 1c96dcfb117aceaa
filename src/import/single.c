/* A single table: every row is a food. */
#include <string.h>

#include "import/parts.h"

/* Cells of all columns with the slot, joined by blanks, in UTF-8. */
static bool join_cells(struct table_file *file, enum slot slot, struct buffer *joined)
{
    char storage[32];
    joined->length = 0;
    for (const struct map_column *column = file->map->columns; column; column = column->next) {
        if (column->slot != slot)
            continue;
        if (joined->length > 0)
            buffer_add_string(joined, " ");
        if (!words_decode(joined, table_cell(file, column), file->import->mapping.latin_1)) {
            table_wrong(file, FINDING_ROW_NOT_TEXT, GAPS(table_column_name(column, storage, sizeof storage)));
            return false;
        }
    }
    return true;
}

bool single_name(struct table_file *file, struct buffer *name)
{
    struct buffer *work = &file->import->work;
    if (!join_cells(file, SLOT_NAME, work))
        return false;
    size_t start = name->length;
    words_add(name, (struct text){ work->bytes, (uint32_t)work->length }, LIMIT_NAME_WORDS);
    if (name->length > start && words_fit(name, start))
        return true;
    table_wrong(file, FINDING_ROW_NO_NAME, GAPS(((struct text){ work->bytes ? work->bytes : "", (uint32_t)work->length })));
    return false;
}

bool single_source(struct table_file *file, struct buffer *source)
{
    return join_cells(file, SLOT_SOURCE, source);
}

bool single_kept(const struct table_file *file)
{
    for (const struct map_column *column = file->map->columns; column; column = column->next) {
        const struct map_text *text = column->texts;
        if (column->slot != SLOT_KEEP)
            continue;
        while (text && !text_equal(text->text, table_cell(file, column)))
            text = text->next;
        if (!text)
            return false;
    }
    return true;
}

bool single_group(struct table_file *file, struct text *group)
{
    struct text cell = table_slot(file, SLOT_GROUP);
    *group = file->import->mapping.group;
    if (cell.length == 0)
        return true;
    *group = figure_group(file->import, cell);
    if (group->length > 0)
        return true;
    table_wrong(file, FINDING_ROW_GROUP, GAPS(cell));
    return false;
}

/* ---- figures ---------------------------------------------------------------------------------------------------- */

/* The unit of a column, or the one that stands in a cell of this row; 0 after it was told. */
static double row_factor(struct table_file *file, const struct map_column *column)
{
    if (!column->unit)
        return column->factor;
    const struct library *owner;
    struct text cell = table_cell(file, column->unit);
    double factor = figure_factor(file->import, cell, column->nutrient);
    const struct nutrient *nutrient = library_nutrient_at(file->import->library, column->nutrient, &owner);
    if (factor <= 0)
        table_wrong(file, FINDING_ROW_UNIT, GAPS(cell, library_text(owner, nutrient->name)));
    return factor * column->factor;
}

static bool read_figure(struct table_file *file, const struct map_column *column, struct made_food *food)
{
    char storage[32], basis[40];
    double value;
    enum cell kind = table_number(file, column, &value);
    if (kind != CELL_NUMBER)
        return kind == CELL_EMPTY;
    double factor = row_factor(file, column);
    if (factor <= 0)
        return false;
    double amount = factor == 1 ? value : number_rounded(value * factor);
    food->figures.amounts[column->nutrient] = amount;
    food->figures.known |= (uint64_t)1 << column->nutrient;
    if (figure_fits(file->import, column->nutrient, amount, food->basis_grams))
        return true;
    int length = snprintf(basis, sizeof basis, "%.10g g", food->basis_grams);
    table_wrong(file, FINDING_ROW_ABSURD, GAPS(table_cell(file, column), table_column_name(column, storage, sizeof storage),
                                               ((struct text){ basis, (uint32_t)length })));
    return false;
}

/* A weight in a cell: empty is 0, since nobody knows. */
static bool read_weight(struct table_file *file, const struct map_column *column, double *weight)
{
    double value;
    enum cell kind = table_number(file, column, &value);
    *weight = kind == CELL_NUMBER ? column->factor == 1 ? value : number_rounded(value * column->factor) : 0;
    return kind == CELL_NUMBER || kind == CELL_EMPTY;
}

static bool read_portion(struct table_file *file, const struct map_column *column, struct made_food *food)
{
    double grams;
    if (!read_weight(file, column, &grams))
        return false;
    if (table_cell(file, column).length > 0 && !food_add_portion(file->import, food, 1, column->words, grams))
        file->import->outcome->without_measure++;
    return true;
}

/* The weight of a serving comes first: figures may be per serving. */
static bool read_serving(struct table_file *file, struct made_food *food)
{
    const struct map_column *column = map_column(file->map, SLOT_SERVING);
    double grams = 0;
    food->basis_grams = file->import->mapping.basis_grams;
    if (column && !read_weight(file, column, &grams))
        return false;
    if (food->basis_grams == 0 && grams <= 0) {
        table_wrong(file, FINDING_ROW_NO_SERVING, NO_GAPS);
        return false;
    }
    if (food->basis_grams == 0)
        food->basis_grams = grams;
    food_add_portion(file->import, food, 1, text_of("serving"), grams);
    return true;
}

static bool read_columns(struct table_file *file, struct made_food *food)
{
    bool good = true;
    for (const struct map_column *column = file->map->columns; column && good; column = column->next) {
        if (column->slot == SLOT_FIGURE)
            good = read_figure(file, column, food);
        else if (column->slot == SLOT_PORTION)
            good = read_portion(file, column, food);
        else if (column->slot == SLOT_DENSITY)
            good = read_weight(file, column, &food->density);
    }
    return good;
}

static bool read_row(struct table_file *file, struct made_food *food)
{
    food_reset(food);
    food->row = file->rows.row;
    food->number = table_slot(file, SLOT_NUMBER);
    return single_name(file, &food->name) && single_source(file, &food->source) && single_group(file, &food->group)
        && read_serving(file, food) && read_columns(file, food);
}

bool single_read(struct import *import)
{
    struct table_file file;
    struct made_food food;
    food_open(&food, import->allocator);
    bool good = table_file_open(&file, import, ROLE_FOODS);
    while (good && table_file_next(&file)) {
        if (single_kept(&file) && read_row(&file, &food))
            good = food_finish(import, &food);
    }
    table_file_close(&file);
    food_close(&food);
    return import->status == STATUS_OK;
}
