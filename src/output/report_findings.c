/* The findings of a report. On a terminal as `quern check` prints them; where the files are not at hand each with its words first,
 * and what is underlined set apart. */
#include <string.h>

#include "output/page.h"

/* What is printed meanwhile is collected as words of the sheet. */
static struct writer *collect_begin(struct page *page, struct writer *collect, bool *colour)
{
    struct writer *writer = page->showing->writer;
    *collect = (struct writer){ .sink = NULL };
    buffer_open(&collect->buffer, page->kitchen->allocator);
    page->showing->writer = collect;
    *colour = page->showing->colour;
    page->showing->colour = page->showing->colour && !sheet_travels(page->sheet);
    return writer;
}

static void collect_end(struct page *page, struct writer *collect, struct writer *writer, bool colour)
{
    page->showing->writer = writer;
    page->showing->colour = colour;
    writer_needs(page->sheet->writer, !collect->buffer.failed);
    if (!collect->buffer.failed)
        sheet_paragraph(page->sheet, MANNER_EXACT, (struct text){ collect->buffer.bytes, (uint32_t)collect->buffer.length });
    buffer_close(&collect->buffer);
}

static struct text words_of(struct page *page, const struct words *words)
{
    struct buffer buffer;
    buffer_open(&buffer, page->kitchen->allocator);
    words_print(&buffer, words);
    struct text text = sheet_source(page->sheet, sheet_keep(page->sheet, &buffer), false);
    buffer_close(&buffer);
    return text;
}

static struct text help_of(struct page *page, const struct finding *finding)
{
    struct buffer buffer;
    buffer_open(&buffer, page->kitchen->allocator);
    struct text text = finding_help(&buffer, finding) ? sheet_keep(page->sheet, &buffer) : text_of("");
    buffer_close(&buffer);
    return text;
}

static void tell_excerpt(struct page *page, struct place place)
{
    struct writer collect;
    bool colour;
    struct writer *writer = collect_begin(page, &collect, &colour);
    people_excerpt(page->showing, place);
    collect_end(page, &collect, writer, colour);
}

static void tell_rest(struct page *page, const struct finding *finding)
{
    struct sheet *sheet = page->sheet;
    struct text help = help_of(page, finding);
    bool begun = false;
    for (const struct finding_label *label = finding->labels; label; label = label->next)
        page_item(page, &begun, sheet_say(sheet, PHRASE_FINDING_LABEL, page_place(page, label->place), words_of(page, &label->words)));
    for (int advice = 0; advice < 2; advice++) {
        for (const struct finding_note *note = finding->notes; note; note = note->next) {
            if (words_advise(&note->words) == (advice == 1))
                page_item(page, &begun, sheet_say(sheet, advice ? PHRASE_FINDING_ADVICE : PHRASE_FINDING_NOTE, words_of(page, &note->words)));
        }
    }
    if (help.length)
        page_item(page, &begun, sheet_say(sheet, PHRASE_FINDING_ADVICE, help));
    page_end_list(page, begun);
}

static void tell_finding(struct page *page, const struct finding *finding)
{
    struct sheet *sheet = page->sheet;
    enum severity severity = shown_severity(page->showing, finding);
    sheet_paragraph(sheet, severity == SEVERITY_NOTE ? MANNER_PLAIN : MANNER_DOUBT,
                    sheet_say(sheet, PHRASE_FINDING, text_of(severity_name(severity)), words_of(page, &finding->words), text_of(finding_code(finding))));
    sheet_paragraph(sheet, MANNER_QUIET, page_place(page, finding->place));
    tell_excerpt(page, finding->place);
    tell_rest(page, finding);
}

static void print_finding(struct page *page, const struct finding *finding)
{
    struct writer collect;
    bool colour;
    struct writer *writer = collect_begin(page, &collect, &colour);
    people_finding(page->showing, finding);
    collect_end(page, &collect, writer, colour);
}

void page_print_findings(struct page *page, struct finding *const *findings, uint32_t count)
{
    if (count)
        page_section(page, phrase_text(PHRASE_FINDINGS));
    for (uint32_t i = 0; i < count; i++) {
        if (sheet_travels(page->sheet))
            tell_finding(page, findings[i]);
        else
            print_finding(page, findings[i]);
    }
}

void report_tell_findings(struct showing *showing, struct sheet *sheet, struct finding *const *findings, uint32_t count)
{
    const struct report none = { .sums = NULL };
    struct page page = page_of(showing, sheet, &none);
    page_print_findings(&page, findings, count);
}

void page_print_others_policies(struct page *page, const struct report *report)
{
    struct buffer words;
    for (uint32_t i = 0; i < report->findings_count; i++) {
        const struct finding *finding = report->findings[i];
        if (strcmp(finding_code(finding), "policy-for-others") != 0)
            continue;
        buffer_open(&words, page->kitchen->allocator);
        words_print(&words, &finding->words);
        sheet_paragraph(page->sheet, MANNER_QUIET, sheet_print(page->sheet, "%.*s", (int)words.length, words.length ? words.bytes : ""));
        buffer_close(&words);
    }
}
