/* The look for terminals: lines of words, tables as columns. Control characters are made visible. */
#include "output/sheet.h"

#define LINE_COLUMNS 96                 /* that a table takes, where its words allow it */
#define FIRST_LEAST 48                  /* columns of a table's first column, at least */
#define LAST_MOST 16                    /* columns that the first leaves to words in the last one, at most: nothing stands behind them */
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
    if (manner == MANNER_LEAD && !sheet->heading)
        writer_add(sheet->writer, text_of("\n"));
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

/* ---- tables: columns are as wide as their widest cell, so all rows are seen first. The first is as wide as the others leave
 * it; where its words are longer, the rest of the row stands on a line of its own, so that nothing is lost. */

static void head(struct sheet *sheet, struct text words)
{
    if (words.length && hash_bytes(words.bytes, words.length) != sheet->heading)
        heading(sheet, 3, words);
}

static void table(struct sheet *sheet, struct text caption)
{
    head(sheet, caption);
}

static void row(struct sheet *sheet, const struct sheet_cell *cells)
{
    struct allocator allocator = sheet->writer->buffer.allocator;
    for (uint32_t i = 0; i < sheet->column_count; i++) {
        bool grown = array_grow(&allocator, &sheet->cells, sheet->cell_count, &sheet->cell_capacity, sizeof *sheet->cells);
        char *copy = grown ? arena_copy(&sheet->arena, cells[i].words.bytes ? cells[i].words.bytes : "", cells[i].words.length) : NULL;
        writer_needs(sheet->writer, copy != NULL);
        if (!copy) {
            sheet->cell_count -= i;         /* no half a row */
            return;
        }
        sheet->cells[sheet->cell_count] = cells[i];
        sheet->cells[sheet->cell_count++].words.bytes = copy;
    }
}

static uint32_t indent_of(const struct sheet_cell *cell, uint32_t column)
{
    return column == 0 ? 2 * cell->depth : 0;
}

struct layout {
    uint32_t widths[SHEET_COLUMNS];
    bool barred[SHEET_COLUMNS];         /* a cell of the column has a bar */
    bool titled;
};

static struct layout lay_out(const struct sheet *sheet)
{
    struct layout layout = { .titled = false };
    uint32_t others = 2;
    for (uint32_t i = 0; i < sheet->column_count; i++) {
        layout.widths[i] = text_columns(sheet->columns[i].title);
        layout.titled = layout.titled || (i > 0 && layout.widths[i] > 0);
    }
    for (uint32_t i = 0; i < sheet->cell_count; i++) {
        uint32_t column = i % sheet->column_count;
        uint32_t wide = text_columns(sheet->cells[i].words) + indent_of(&sheet->cells[i], column);
        layout.widths[column] = wide > layout.widths[column] ? wide : layout.widths[column];
        layout.barred[column] = layout.barred[column] || sheet->cells[i].bar > 0;
    }
    for (uint32_t i = 1; i < sheet->column_count; i++) {
        bool prose = i + 1 == sheet->column_count && !sheet->columns[i].figures && layout.widths[i] > LAST_MOST;
        others += 2 + (prose ? LAST_MOST : layout.widths[i]) + (layout.barred[i] ? 1 + BAR_COLUMNS : 0);
    }
    uint32_t first = others + FIRST_LEAST < LINE_COLUMNS ? LINE_COLUMNS - others : FIRST_LEAST;
    layout.widths[0] = layout.widths[0] > first ? first : layout.widths[0];
    return layout;
}

static void print_words(struct sheet *sheet, struct text words, uint32_t column, uint32_t width)
{
    uint32_t columns = text_columns(words), blanks = width > columns ? width - columns : 0;
    bool figures = sheet->columns[column].figures;
    print_repeated(sheet->writer, " ", figures ? blanks : 0);
    writer_visible(sheet->writer, words);
    print_repeated(sheet->writer, " ", figures ? 0 : blanks);
}

static uint32_t bar_columns(double share)
{
    return share >= 1 ? BAR_COLUMNS : (uint32_t)(share * BAR_COLUMNS + 0.5);
}

/* Cells behind the last that says something are left out, and blanks with them. */
static void print_row(struct sheet *sheet, const struct layout *layout, const struct sheet_cell *cells)
{
    uint32_t last = sheet->column_count - 1, skipped = 0;
    while (last > 0 && !cells[last].words.length && cells[last].bar <= 0)
        last--;
    for (uint32_t i = 0; i <= last; i++) {
        uint32_t indent = indent_of(&cells[i], i), width = layout->widths[i] > indent ? layout->widths[i] - indent : 0;
        uint32_t bar = bar_columns(cells[i].bar);
        bool is_end = i == last && !sheet->columns[i].figures && bar == 0;
        print_repeated(sheet->writer, " ", skipped + 2 + indent);
        print_words(sheet, cells[i].words, i, is_end ? 0 : width);
        skipped = layout->barred[i] ? 1 + BAR_COLUMNS - (bar ? 1 + bar : 0) : 0;
        print_repeated(sheet->writer, " ", bar ? 1 : 0);
        print_repeated(sheet->writer, "#", bar);
        if (i == 0 && last > 0 && text_columns(cells[i].words) > width) {
            writer_add(sheet->writer, text_of("\n"));
            skipped = 2 + indent + width;
        }
    }
    writer_add(sheet->writer, text_of("\n"));
}

static void table_end(struct sheet *sheet)
{
    struct sheet_cell titles[SHEET_COLUMNS] = { 0 };
    struct layout layout = lay_out(sheet);
    for (uint32_t i = 0; i < sheet->column_count; i++)
        titles[i].words = sheet->columns[i].title;
    if (layout.titled)
        print_row(sheet, &layout, titles);
    for (uint32_t i = 0; i < sheet->cell_count; i += sheet->column_count)
        print_row(sheet, &layout, &sheet->cells[i]);
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
    head(sheet, title);
    for (uint32_t i = 0; i < count; i++) {
        uint32_t signs = bar_columns(total > 0 ? pieces[i].value / total : 0);
        writer_add(sheet->writer, text_of("  "));
        writer_cut(sheet->writer, pieces[i].label, label);
        writer_add(sheet->writer, text_of("  "));
        writer_cut(sheet->writer, pieces[i].words, signs ? words : text_columns(pieces[i].words));
        print_repeated(sheet->writer, " ", signs ? 2 : 0);
        print_repeated(sheet->writer, "#", signs);
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
