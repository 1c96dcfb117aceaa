/* The look for terminals: lines of words, tables as columns. Control characters are made visible. */
#include "output/sheet.h"

#define FIRST_COLUMNS 60                /* a first column is cut behind so many */
#define BAR_COLUMNS 20

static void print_repeated(struct writer *writer, const char *sign, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        writer_add(writer, text_of(sign));
}

static void print_line(struct sheet *sheet, struct text words)
{
    writer_visible(sheet->writer, words);
    writer_add(sheet->writer, text_of("\n"));
}

static void begin(struct sheet *sheet, struct text title)
{
    print_line(sheet, title);
    print_repeated(sheet->writer, "=", text_columns(title));
    writer_add(sheet->writer, text_of("\n"));
}

static void end(struct sheet *sheet)
{
    writer_add(sheet->writer, text_of("\n"));
}

static void heading(struct sheet *sheet, uint32_t level, struct text words)
{
    (void)level;
    writer_add(sheet->writer, text_of("\n"));
    print_line(sheet, words);
}

static void paragraph(struct sheet *sheet, enum manner manner, struct text words)
{
    if (manner == MANNER_EXACT)
        writer_add(sheet->writer, words);
    else if (manner == MANNER_LEAD || manner == MANNER_QUIET)
        print_line(sheet, words);
    else
        writer_wrapped(sheet->writer, words);
}

static void list(struct sheet *sheet, bool numbered)
{
    (void)sheet, (void)numbered;
}

static void item(struct sheet *sheet, struct text words)
{
    if (sheet->number)
        writer_print(sheet->writer, "  %u. ", sheet->number);
    else
        writer_add(sheet->writer, text_of("  - "));
    print_line(sheet, words);
}

static void list_end(struct sheet *sheet)
{
    (void)sheet;
}

/* ---- tables: columns are as wide as their widest cell, so all rows are seen first */

static void table(struct sheet *sheet, struct text caption)
{
    if (caption.length)
        heading(sheet, 3, caption);
}

static void row(struct sheet *sheet, const struct sheet_cell *cells)
{
    struct allocator allocator = sheet->writer->buffer.allocator;
    for (uint32_t i = 0; i < sheet->column_count; i++) {
        bool grown = array_grow(&allocator, &sheet->cells, sheet->cell_count, &sheet->cell_capacity, sizeof *sheet->cells);
        char *copy = grown ? arena_copy(&sheet->arena, cells[i].words.bytes ? cells[i].words.bytes : "", cells[i].words.length) : NULL;
        writer_needs(sheet->writer, copy != NULL);
        if (!copy)
            return;
        sheet->cells[sheet->cell_count] = cells[i];
        sheet->cells[sheet->cell_count++].words.bytes = copy;
    }
}

static uint32_t indent_of(const struct sheet_cell *cell, uint32_t column)
{
    return column == 0 ? 2 * cell->depth : 0;
}

static void measure_columns(const struct sheet *sheet, uint32_t *widths, bool *titled)
{
    *titled = false;
    for (uint32_t i = 0; i < sheet->column_count; i++) {
        widths[i] = text_columns(sheet->columns[i].title);
        *titled = *titled || (i > 0 && widths[i] > 0);
    }
    for (uint32_t i = 0; i < sheet->cell_count; i++) {
        uint32_t column = i % sheet->column_count;
        uint32_t wide = text_columns(sheet->cells[i].words) + indent_of(&sheet->cells[i], column);
        if (wide > widths[column])
            widths[column] = wide;
    }
    if (widths[0] > FIRST_COLUMNS)
        widths[0] = FIRST_COLUMNS;
}

static void print_cell(struct sheet *sheet, struct text words, uint32_t column, uint32_t width, uint32_t indent)
{
    uint32_t columns = text_columns(words);
    bool last = column + 1 == sheet->column_count;
    print_repeated(sheet->writer, " ", 2 + indent);
    width = width > indent ? width - indent : 0;
    if (sheet->columns[column].figures)
        print_repeated(sheet->writer, " ", width > columns ? width - columns : 0);
    if (last || sheet->columns[column].figures)
        writer_visible(sheet->writer, words);
    else
        writer_cut(sheet->writer, words, width);
}

static void table_end(struct sheet *sheet)
{
    uint32_t widths[SHEET_COLUMNS];
    bool titled;
    measure_columns(sheet, widths, &titled);
    for (uint32_t i = 0; titled && i < sheet->column_count; i++)
        print_cell(sheet, sheet->columns[i].title, i, widths[i], 0);
    if (titled)
        writer_add(sheet->writer, text_of("\n"));
    for (uint32_t i = 0; i < sheet->cell_count; i++) {
        uint32_t column = i % sheet->column_count;
        print_cell(sheet, sheet->cells[i].words, column, widths[column], indent_of(&sheet->cells[i], column));
        if (column + 1 == sheet->column_count)
            writer_add(sheet->writer, text_of("\n"));
    }
    sheet->cell_count = 0;
}

/* ---- pictures */

static void bar(struct sheet *sheet, struct text title, const struct sheet_piece *pieces, uint32_t count)
{
    double total = 0;
    uint32_t label = 0, words = 0;
    for (uint32_t i = 0; i < count; i++) {
        total += pieces[i].value;
        label = text_columns(pieces[i].label) > label ? text_columns(pieces[i].label) : label;
        words = text_columns(pieces[i].words) > words ? text_columns(pieces[i].words) : words;
    }
    heading(sheet, 3, title);
    for (uint32_t i = 0; i < count; i++) {
        writer_add(sheet->writer, text_of("  "));
        writer_cut(sheet->writer, pieces[i].label, label);
        writer_add(sheet->writer, text_of("  "));
        writer_cut(sheet->writer, pieces[i].words, words);
        writer_add(sheet->writer, text_of("  "));
        print_repeated(sheet->writer, "#", total > 0 ? (uint32_t)(pieces[i].value / total * BAR_COLUMNS + 0.5) : 0);
        writer_add(sheet->writer, text_of("\n"));
    }
}

/* The marks are told in words where they are judged; a line of signs would say less. */
static void scale(struct sheet *sheet, struct text title, struct range value, bool complete, struct text words,
                  const struct sheet_mark *marks, uint32_t count)
{
    (void)value, (void)complete, (void)marks, (void)count;
    writer_visible(sheet->writer, title);
    writer_add(sheet->writer, text_of(": "));
    print_line(sheet, words);
}

/* Lines on a terminal lead nowhere, and documents stand one below the other. */
static void links(struct sheet *sheet, struct text title, const struct sheet_link *links, uint32_t count)
{
    (void)sheet, (void)title, (void)links, (void)count;
}

static void begin_all(struct sheet *sheet, struct text title)
{
    (void)sheet, (void)title;
}

static void end_all(struct sheet *sheet)
{
    (void)sheet;
}

const struct look_calls look_text = { begin, end, heading, paragraph, list, item, list_end, table, row, table_end, bar, scale, links,
                                      begin_all, end_all };
