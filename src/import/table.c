/* One file of a table: its columns are found by the header's names, its rows come one by one, and what is wrong with a
 * row is told with the file and the number of the row (the header is row 1, as in a spreadsheet). */
#include <string.h>

#include "import/parts.h"

/* ---- opening ----------------------------------------------------------------------------------------------------- */

static bool ends_in_tsv(const char *path)
{
    size_t length = strlen(path);
    return length >= 4 && (strcmp(path + length - 4, ".tsv") == 0 || strcmp(path + length - 4, ".tab") == 0);
}

/* The path of a file of the folder; of a single table, the table. */
static char *file_path(struct import *import, enum role role)
{
    const struct map_file *map = &import->mapping.files[role];
    if (!import->mapping.is_folder)
        return arena_print(&import->arena, "%s", import->request->path);
    return arena_print(&import->arena, "%s/%.*s", import->request->path, (int)map->name.length, map->name.bytes);
}

static struct text last_part(const char *path)
{
    const char *slash = strrchr(path, '/');
    return text_of(slash ? slash + 1 : path);
}

#define LIST_BYTES 400              /* of a header, in a message */

static void list_header(const struct table_file *file, struct buffer *list)
{
    for (uint32_t i = 0; i < file->rows.count; i++) {
        struct text field = file->rows.fields[i];
        if (list->length + field.length > LIST_BYTES) {
            buffer_add_string(list, "and others");
            return;
        }
        buffer_add(list, field.bytes, field.length);
        buffer_add_string(list, i + 1 < file->rows.count ? ", " : "");
    }
}

static bool no_column(struct table_file *file, const struct map_column *column)
{
    struct buffer list;
    buffer_open(&list, file->import->allocator);
    list_header(file, &list);
    trouble_map(file->import, column->span, FINDING_MAP_NO_COLUMN,
                GAPS(file->name, column->header, (struct text){ list.bytes ? list.bytes : "", (uint32_t)list.length }));
    buffer_close(&list);
    return false;
}

static bool is_called(const struct table_file *file, struct text field, struct text header)
{
    struct buffer *work = &file->import->work;
    work->length = 0;
    return words_decode(work, text_trimmed(field), file->import->mapping.latin_1)
        && text_equal((struct text){ work->bytes, (uint32_t)work->length }, text_trimmed(header));
}

/* The place of a column by its name; a name that stands twice is no name. */
static bool find_by_name(struct table_file *file, struct map_column *column)
{
    uint32_t found = 0;
    for (uint32_t i = 0; i < file->rows.count; i++) {
        if (!is_called(file, file->rows.fields[i], column->header))
            continue;
        if (found++ == 0)
            column->place = i;
    }
    if (found == 0)
        return no_column(file, column);
    if (found == 1)
        return true;
    char number[16];
    int length = snprintf(number, sizeof number, "%u", (unsigned)column->place + 1);
    trouble_map(file->import, column->span, FINDING_MAP_TWO_COLUMNS,
                GAPS(file->name, column->header, (struct text){ number, (uint32_t)length }));
    return false;
}

static bool find_column(struct table_file *file, struct map_column *column)
{
    bool has_header = !file->import->mapping.no_header;
    if (column->number > 0)
        column->place = column->number - 1;
    else if (has_header && !find_by_name(file, column))
        return false;
    if (column->number > 0 && has_header && column->number > file->rows.count) {
        trouble_map(file->import, column->span, FINDING_MAP_ENDS_SHORT,
                    GAPS(file->name, span_text(file->import->mapping.text, column->span)));
        return false;
    }
    if (!has_header && column->place >= file->columns)
        file->columns = column->place + 1;
    return column->number > 0 || has_header || no_column(file, column);
}

static bool find_columns(struct table_file *file)
{
    bool good = true;
    if (!file->import->mapping.no_header) {
        enum row_state state = rows_next(&file->rows);
        if (state == ROW_STOP)
            return trouble_stop(file->import, STATUS_IO, file->path, strerror(file->rows.reason));
        if (state != ROW_GOOD)
            file->rows.count = 0;                   /* then no column is found */
        file->columns = file->rows.count;
        file->import->bytes_done += file->rows.taken;
    }
    for (struct map_column *column = file->map->columns; column; column = column->next) {
        good = find_column(file, column) && good;
        if (column->unit)
            good = find_column(file, column->unit) && good;
    }
    return good;
}

bool table_file_open(struct table_file *file, struct import *import, enum role role)
{
    *file = (struct table_file){ .import = import, .role = role, .map = &import->mapping.files[role],
                                  .rows = { .allocator = import->allocator, .descriptor = -1 } };
    file->path = file_path(import, role);
    if (!file->path)
        return trouble_memory(import);
    file->name = import->file_names[role] = last_part(file->path);
    char separator = import->mapping.separator ? import->mapping.separator : ends_in_tsv(file->path) ? '\t' : ',';
    if (!rows_open(&file->rows, import->allocator, file->path))
        return file->rows.reason ? trouble_stop(import, STATUS_IO, file->path, strerror(file->rows.reason))
                                 : trouble_memory(import);
    rows_signs(&file->rows, separator, import->mapping.quote);
    return find_columns(file) && import->status == STATUS_OK;
}

void table_file_close(struct table_file *file)
{
    if (file->import)
        rows_close(&file->rows);
}

/* ---- rows ---------------------------------------------------------------------------------------------------------- */

void table_wrong(struct table_file *file, enum words_code code, const struct text *gaps, uint32_t count)
{
    trouble_row(file->import, file->role, file->rows.row, code, gaps, count);
}

static void wrong_columns(struct table_file *file)
{
    char is[16], wanted[40];
    int is_length = snprintf(is, sizeof is, "%u", (unsigned)file->rows.count);
    int length = snprintf(wanted, sizeof wanted, "%u%s", (unsigned)file->columns,
                          file->import->mapping.no_header ? " or more" : "");
    table_wrong(file, FINDING_ROW_COLUMNS, GAPS(((struct text){ is, (uint32_t)is_length }), ((struct text){ wanted, (uint32_t)length })));
}

static bool has_all_columns(const struct table_file *file)
{
    return file->import->mapping.no_header ? file->rows.count >= file->columns : file->rows.count == file->columns;
}

static bool tell_progress(struct import *import, uint64_t piece)
{
    const struct import_request *request = import->request;
    import->bytes_done += piece;
    if (!request->progress || request->progress(request->progress_context, import->bytes_done, import->bytes_whole))
        return true;
    return trouble_stop(import, STATUS_IO, NULL, "stopped before the end; nothing was written");
}

bool table_file_next(struct table_file *file)
{
    struct rows *rows = &file->rows;
    for (;;) {
        uint64_t taken = rows->taken;
        enum row_state state = rows_next(rows);
        if (rows->taken != taken && !tell_progress(file->import, rows->taken - taken))
            return false;
        if (state == ROW_STOP)
            return trouble_stop(file->import, STATUS_IO, file->path, strerror(rows->reason));
        if (state == ROW_END || file->import->status != STATUS_OK)
            return false;
        if (state == ROW_WRONG)
            table_wrong(file, rows->fault, NO_GAPS);
        else if (rows->count == 1 && rows->fields[0].length == 0 && file->columns > 1)
            continue;                               /* an empty line */
        else if (!has_all_columns(file))
            wrong_columns(file);
        else
            return true;
    }
}

/* ---- cells ----------------------------------------------------------------------------------------------------------- */

struct text table_cell(const struct table_file *file, const struct map_column *column)
{
    if (!column)
        return (struct text){ "", 0 };
    struct text cell = text_trimmed(file->rows.fields[column->place]);
    for (const struct map_text *word = file->import->mapping.unknown; word && cell.length > 0; word = word->next) {
        if (text_equal(cell, word->text))
            cell.length = 0;
    }
    return cell;
}

struct text table_slot(const struct table_file *file, enum slot slot)
{
    return table_cell(file, map_column(file->map, slot));
}

struct text table_column_name(const struct map_column *column, char *storage, size_t size)
{
    if (column->header.length > 0)
        return column->header;
    int length = snprintf(storage, size, "column %u", (unsigned)column->place + 1);
    return (struct text){ storage, length > 0 ? (uint32_t)length : 0 };
}

enum cell table_number(struct table_file *file, const struct map_column *column, double *value)
{
    char storage[32];
    struct text cell = table_cell(file, column);
    enum cell kind = number_read(cell, file->import->mapping.decimal_comma, value);
    if (kind == CELL_EMPTY || kind == CELL_NUMBER)
        return kind;
    struct text name = table_column_name(column, storage, sizeof storage);
    if (kind == CELL_WORDS)
        table_wrong(file, FINDING_ROW_NO_NUMBER, GAPS(cell, name));
    else if (kind == CELL_NEGATIVE)
        table_wrong(file, FINDING_ROW_NEGATIVE, GAPS(cell, name));
    else
        table_wrong(file, FINDING_ROW_ABSURD, GAPS(cell, name, text_of("a food")));
    return kind;
}
