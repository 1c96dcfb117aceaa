/* The look for web views of repositories: Markdown as CommonMark reads it, with its common tables. What people wrote is
 * escaped, so that it reads as it was written and makes no block, link or markup of its own. */
#include <string.h>

#include "output/sheet.h"

#define BAR_SIGNS 20

/* ---- text ---- */

/* Whether the sign means something where it stands: some do only at the start of a line, or behind a number there. */
static bool is_markup(struct text text, uint32_t at)
{
    char sign = text.bytes[at];
    if (sign == '-' || sign == '+' || sign == '#')
        return at == 0;
    if (sign == ':')
        return at + 1 < text.length && text.bytes[at + 1] == '/';       /* or an address would become a link */
    if (sign == '.' && at >= 3                                          /* or, for some readers, what looks like one */
        && memcmp(text.bytes + at - 3, "www", 3) == 0)
        return true;
    if ((sign == '.' || sign == ')') && (at + 1 == text.length || text.bytes[at + 1] == ' ' || text.bytes[at + 1] == '\t')) {
        while (at > 0 && text.bytes[at - 1] >= '0' && text.bytes[at - 1] <= '9')
            at--;
        return at == 0;
    }
    return sign && strchr("\\`*_[]|~$", sign);
}

static void print_escaped(struct writer *writer, struct text text)
{
    uint32_t from = 0;
    for (uint32_t at = 0; at < text.length; at++) {
        const char *entity = text.bytes[at] == '<' ? "&lt;" : text.bytes[at] == '>' ? "&gt;" : text.bytes[at] == '&' ? "&amp;" : NULL;
        if (!entity && !is_markup(text, at))
            continue;
        writer_visible(writer, (struct text){ text.bytes + from, at - from });
        writer_add(writer, text_of(entity ? entity : "\\"));
        from = entity ? at + 1 : at;
    }
    writer_visible(writer, (struct text){ text.bytes + from, text.length - from });
}

/* Blanks at the start of a line could make it code. */
static void print_words(struct writer *writer, struct text text)
{
    while (text.length && (text.bytes[0] == ' ' || text.bytes[0] == '\t'))
        text = (struct text){ text.bytes + 1, text.length - 1 };
    while (text.length && (text.bytes[text.length - 1] == ' ' || text.bytes[text.length - 1] == '\t'))
        text.length--;
    print_escaped(writer, text);
}

/* ---- documents and blocks: each ends with an empty line ---- */

static void print_heading(struct sheet *sheet, uint32_t level, struct text words)
{
    writer_print(sheet->writer, "%.*s ", (int)level, "######");
    print_words(sheet->writer, words);
    writer_add(sheet->writer, text_of("\n\n"));
}

static void begin(struct sheet *sheet, struct text title)
{
    print_heading(sheet, sheet->in_all ? 2 : 1, title);
}

static void end(struct sheet *sheet)
{
    (void)sheet;
}

static void begin_all(struct sheet *sheet, struct text title)
{
    print_heading(sheet, 1, title);
}

static void heading(struct sheet *sheet, uint32_t level, struct text words)
{
    print_heading(sheet, level + sheet->in_all, words);
}

/* A block that nothing in it can end: its fence is longer than any in it. */
static void print_exact(struct writer *writer, struct text words)
{
    uint32_t longest = 2, run = 0;
    for (uint32_t at = 0; at < words.length; at++) {
        run = words.bytes[at] == '`' ? run + 1 : 0;
        longest = run > longest ? run : longest;
    }
    for (uint32_t i = 0; i <= longest; i++)
        writer_add(writer, text_of("`"));
    writer_add(writer, text_of("text\n"));
    for (uint32_t at = 0; at < words.length;) {
        const char *feed = memchr(words.bytes + at, '\n', words.length - at);
        uint32_t line_end = feed ? (uint32_t)(feed - words.bytes) : words.length;
        writer_visible(writer, (struct text){ words.bytes + at, line_end - at });
        writer_add(writer, text_of("\n"));
        at = line_end + 1;
    }
    for (uint32_t i = 0; i <= longest; i++)
        writer_add(writer, text_of("`"));
    writer_add(writer, text_of("\n\n"));
}

static void paragraph(struct sheet *sheet, enum manner manner, struct text words)
{
    static const char *const before[] = { "", "**", "*", "> ", "> *" }, *const behind[] = { "", "**", "*", "", "*" };
    if (manner == MANNER_EXACT) {
        print_exact(sheet->writer, words);
        return;
    }
    if (!words.length)
        return;
    writer_add(sheet->writer, text_of(before[manner]));
    print_words(sheet->writer, words);
    writer_add(sheet->writer, text_of(behind[manner]));
    writer_add(sheet->writer, text_of("\n\n"));
}

static void list(struct sheet *sheet, bool numbered)
{
    (void)sheet, (void)numbered;
}

static void item(struct sheet *sheet, struct text words)
{
    if (sheet->number)
        writer_print(sheet->writer, "%u. ", sheet->number);
    else
        writer_add(sheet->writer, text_of("- "));
    print_words(sheet->writer, words);
    writer_add(sheet->writer, text_of("\n"));
}

static void list_end(struct sheet *sheet)
{
    writer_add(sheet->writer, text_of("\n"));
}

/* A reference made by us: letters, digits and hyphens, or other letters; brackets and blanks would end it. */
static void print_link(struct writer *writer, struct text words, struct text link)
{
    writer_add(writer, text_of("["));
    print_words(writer, words);
    writer_add(writer, text_of("]("));
    writer_visible(writer, link);
    writer_add(writer, text_of(")"));
}

static void links(struct sheet *sheet, struct text title, const struct sheet_link *links, uint32_t count)
{
    (void)title;
    for (uint32_t i = 0; i < count; i++) {
        writer_add(sheet->writer, text_of(i ? " · " : ""));
        if (links[i].link.length)
            print_link(sheet->writer, links[i].words, links[i].link);
        else
            print_words(sheet->writer, links[i].words);
    }
    writer_add(sheet->writer, text_of("\n\n"));
}

/* ---- tables ---- */

static void table(struct sheet *sheet, struct text caption)
{
    struct writer *writer = sheet->writer;
    if (caption.length && hash_bytes(caption.bytes, caption.length) != sheet->heading)
        paragraph(sheet, MANNER_LEAD, caption);
    for (uint32_t i = 0; i < sheet->column_count; i++) {
        writer_add(writer, text_of("| "));
        print_words(writer, sheet->columns[i].title);
        writer_add(writer, text_of(" "));
    }
    writer_add(writer, text_of("|\n"));
    for (uint32_t i = 0; i < sheet->column_count; i++)
        writer_add(writer, text_of(sheet->columns[i].figures ? "| ---: " : "| --- "));
    writer_add(writer, text_of("|\n"));
}

static void row(struct sheet *sheet, const struct sheet_cell *cells)
{
    struct writer *writer = sheet->writer;
    for (uint32_t i = 0; i < sheet->column_count; i++) {
        bool strong = cells[i].tone == TONE_BROKEN;
        writer_add(writer, text_of("| "));
        for (uint32_t depth = 0; i == 0 && depth < cells[i].depth; depth++)
            writer_add(writer, text_of("&emsp;"));
        writer_add(writer, text_of(strong ? "**" : ""));
        if (cells[i].link.length)
            print_link(writer, cells[i].words, cells[i].link);
        else
            print_words(writer, cells[i].words);
        writer_add(writer, text_of(strong ? "** " : " "));
    }
    writer_add(writer, text_of("|\n"));
}

static void table_end(struct sheet *sheet)
{
    writer_add(sheet->writer, text_of("\n"));
}

/* ---- pictures ---- */

static void bar(struct sheet *sheet, struct text title, const struct sheet_piece *pieces, uint32_t count)
{
    struct writer *writer = sheet->writer;
    double total = 0;
    for (uint32_t i = 0; i < count; i++)
        total += pieces[i].value;
    if (hash_bytes(title.bytes, title.length) != sheet->heading)
        paragraph(sheet, MANNER_LEAD, title);
    for (uint32_t i = 0; i < count; i++) {
        uint32_t signs = total > 0 ? (uint32_t)(pieces[i].value / total * BAR_SIGNS + 0.5) : 0;
        writer_add(writer, text_of("- `"));
        for (uint32_t j = 0; j < BAR_SIGNS; j++)
            writer_add(writer, text_of(j < signs ? "█" : "·"));
        writer_add(writer, text_of("` "));
        print_words(writer, pieces[i].label);
        writer_add(writer, text_of(": "));
        print_words(writer, pieces[i].words);
        writer_add(writer, text_of("\n"));
    }
    writer_add(writer, text_of("\n"));
}

static void scale(struct sheet *sheet, struct text title, struct range value, bool complete, struct text words,
                  const struct sheet_mark *marks, uint32_t count)
{
    (void)value, (void)complete;
    writer_add(sheet->writer, text_of("**"));
    print_words(sheet->writer, title);
    writer_add(sheet->writer, text_of(":** "));
    print_words(sheet->writer, words);
    writer_add(sheet->writer, text_of("\n\n"));
    for (uint32_t i = 0; i < count; i++)
        item(sheet, marks[i].label);
    if (count)
        list_end(sheet);
}

const struct look_calls look_markdown = { begin, end, heading, paragraph, list, item, list_end, table, row, table_end, bar, scale, links,
                                          begin_all, end };
