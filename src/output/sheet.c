/* What all looks share: phrases with their gaps filled, words that are made, rows that are kept. */
#include <math.h>
#include <string.h>

#include "output/sheet.h"

static const char *const phrases[] = {
#define PHRASE(symbol, words) words,
#include "output/phrases.def"
#undef PHRASE
};

struct text phrase_text(enum report_phrase phrase)
{
    return text_of(phrases[phrase]);
}

enum look sheet_look(enum quern_form form)
{
    return form == QUERN_AS_HTML ? LOOK_HTML : form == QUERN_AS_MARKDOWN ? LOOK_MARKDOWN : LOOK_TEXT;
}

void sheet_open(struct sheet *sheet, enum look look, struct writer *writer, struct allocator allocator)
{
    static const struct look_calls *const looks[] = { &look_text, &look_markdown, &look_html };
    *sheet = (struct sheet){ .look = looks[look], .writer = writer };
    arena_open(&sheet->arena, allocator);
}

void sheet_close(struct sheet *sheet)
{
    struct allocator allocator = sheet->writer->buffer.allocator;
    allocator.resize(allocator.context, sheet->cells, 0);
    arena_close(&sheet->arena);
}

void sheet_forget(struct sheet *sheet)
{
    arena_rewind(&sheet->arena, (struct arena_mark){ 0 });
    sheet->heading = 0;
}

struct text sheet_keep(struct sheet *sheet, const struct buffer *buffer)
{
    char *copy = buffer->failed ? NULL : arena_copy(&sheet->arena, buffer->bytes ? buffer->bytes : "", buffer->length);
    writer_needs(sheet->writer, copy != NULL);
    return copy ? (struct text){ copy, (uint32_t)buffer->length } : text_of("");
}

#define FROM_MEMORY "from memory"

struct text sheet_source(struct sheet *sheet, struct text source, bool told)
{
    struct buffer words;
    uint32_t size = sizeof FROM_MEMORY - 1, start = 0;
    buffer_open(&words, sheet->arena.allocator);
    for (uint32_t at = 0; at + size <= source.length; at++) {
        if (memcmp(source.bytes + at, FROM_MEMORY, size) != 0)
            continue;
        bool comma = told && at >= start + 2 && memcmp(source.bytes + at - 2, ", ", 2) == 0;
        buffer_add(&words, source.bytes + start, at - start - (comma ? 2 : 0));
        if (!comma)
            buffer_add_string(&words, phrase_text(PHRASE_NOT_CHECKED).bytes);
        start = at + size;
        at = start - 1;
    }
    if (source.length > start)
        buffer_add(&words, source.bytes + start, source.length - start);
    struct text kept = sheet_keep(sheet, &words);
    buffer_close(&words);
    return kept;
}

void phrase_fill(struct buffer *buffer, enum report_phrase phrase, const struct text *arguments, uint32_t count)
{
    for (const char *at = phrases[phrase]; *at;) {
        size_t plain = strcspn(at, "{");
        buffer_add(buffer, at, plain);
        at += plain;
        uint32_t gap = *at ? (uint32_t)(at[1] - '0') : count;
        if (*at && gap < count && at[2] == '}') {
            buffer_add(buffer, arguments[gap].bytes, arguments[gap].length);
            at += 3;
        } else if (*at) {
            buffer_add(buffer, at++, 1);
        }
    }
}

struct text sheet_fill(struct sheet *sheet, enum report_phrase phrase, const struct text *arguments)
{
    struct buffer buffer;
    uint32_t count = 0;
    while (arguments[count].length != UINT32_MAX)
        count++;
    buffer_open(&buffer, sheet->writer->buffer.allocator);
    phrase_fill(&buffer, phrase, arguments, count);
    struct text filled = sheet_keep(sheet, &buffer);
    buffer_close(&buffer);
    return filled;
}

struct text sheet_print(struct sheet *sheet, const char *format, ...)
{
    struct buffer buffer;
    va_list arguments;
    buffer_open(&buffer, sheet->writer->buffer.allocator);
    va_start(arguments, format);
    buffer_print_list(&buffer, format, arguments);
    va_end(arguments);
    struct text printed = sheet_keep(sheet, &buffer);
    buffer_close(&buffer);
    return printed;
}

struct text sheet_fixed(struct sheet *sheet, int places, double figure)
{
    static const double halves[] = { 0.5, 0.05, 0.005 };
    if (figure >= 1e15)
        return sheet_print(sheet, "%.3g", figure);
    return sheet_print(sheet, "%.*f", places, fabs(figure) < halves[places] ? 0 : figure);
}

void sheet_begin(struct sheet *sheet, struct text title)
{
    sheet->look->begin(sheet, title);
}

void sheet_end(struct sheet *sheet)
{
    sheet->look->end(sheet);
    sheet->heading = 0;
}

void sheet_begin_all(struct sheet *sheet, struct text title)
{
    sheet->in_all = true;
    sheet->look->begin_all(sheet, title);
}

void sheet_end_all(struct sheet *sheet)
{
    sheet->look->end_all(sheet);
    sheet->in_all = false;
}

void sheet_heading(struct sheet *sheet, uint32_t level, struct text words)
{
    sheet->look->heading(sheet, level, words);
    sheet->heading = hash_bytes(words.bytes, words.length);
}

void sheet_paragraph(struct sheet *sheet, enum manner manner, struct text words)
{
    sheet->look->paragraph(sheet, manner, words);
    sheet->heading = 0;
}

void sheet_list(struct sheet *sheet, bool numbered)
{
    sheet->number = numbered ? 1 : 0;
    sheet->look->list(sheet, numbered);
    sheet->heading = 0;
}

void sheet_item(struct sheet *sheet, struct text words)
{
    sheet->look->item(sheet, words);
    sheet->number += sheet->number > 0;
}

void sheet_list_end(struct sheet *sheet)
{
    sheet->look->list_end(sheet);
    sheet->number = 0;
}

void sheet_table(struct sheet *sheet, struct text caption, const struct sheet_column *columns, uint32_t count)
{
    memcpy(sheet->columns, columns, count * sizeof *columns);
    sheet->column_count = count;
    sheet->cell_count = 0;
    sheet->look->table(sheet, caption);
    sheet->heading = 0;
}

void sheet_row(struct sheet *sheet, const struct sheet_cell *cells)
{
    sheet->look->row(sheet, cells);
}

void sheet_table_end(struct sheet *sheet)
{
    sheet->look->table_end(sheet);
}

struct sheet_cell cell_words(struct text words)
{
    return (struct sheet_cell){ .words = words };
}

struct sheet_cell cell_figure(struct text words, double value)
{
    return (struct sheet_cell){ .words = words, .value = value, .has_value = true };
}

void sheet_bar(struct sheet *sheet, struct text title, const struct sheet_piece *pieces, uint32_t count)
{
    sheet->look->bar(sheet, title, pieces, count);
    sheet->heading = 0;
}

void sheet_scale(struct sheet *sheet, struct text title, struct range value, bool complete, struct text words,
                 const struct sheet_mark *marks, uint32_t count)
{
    sheet->look->scale(sheet, title, value, complete, words, marks, count);
    sheet->heading = 0;
}

void sheet_links(struct sheet *sheet, struct text title, const struct sheet_link *links, uint32_t count)
{
    sheet->look->links(sheet, title, links, count);
}
