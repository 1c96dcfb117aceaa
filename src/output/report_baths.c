/* Baths in the report, and which lines rest on estimates. */
#include "output/page.h"

static void tell_share(struct page *page, enum report_phrase phrase, const struct amounts *amounts)
{
    uint32_t traced = page->library->traced;
    sheet_row(page->sheet, (const struct sheet_cell[]){ cell_words(phrase_text(phrase)),
              page_cell(page, traced, amounts->column[traced], amounts_complete(amounts, traced)) });
}

static void tell_bath(struct page *page, const struct bath_sum *bath)
{
    static const struct sheet_column columns[] = { { { "", 0 }, false }, { { "", 0 }, false } };
    struct text name = page->sums->at.gathering->parts[bath->part].name;
    struct amounts discarded = bath_discarded(bath, page->library);
    page_subsection(page, name);
    sheet_table(page->sheet, name, columns, 2);
    tell_share(page, PHRASE_BATH_FILLED, &bath->went_in);
    tell_share(page, PHRASE_BATH_LEFT, &bath->left);
    if (bath->kept.column[page->library->mass_column].high > 0)
        tell_share(page, PHRASE_BATH_EATEN, &bath->kept);
    tell_share(page, PHRASE_BATH_THROWN, &discarded);
    sheet_table_end(page->sheet);
}

void page_print_baths(struct page *page)
{
    if (page->sums->bath_count)
        page_section(page, sheet_say(page->sheet, PHRASE_BATHS, page_name(page, page->library->traced)));
    for (uint32_t i = 0; i < page->sums->bath_count; i++)
        tell_bath(page, &page->sums->baths[i]);
}

/* What nobody measured. */
void page_print_estimates(struct page *page)
{
    bool begun = false;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct resolved *resolved = page->sums->lines[i].resolved;
        if (!resolved || resolved->evidence < EVIDENCE_ESTIMATED)
            continue;
        if (!begun)
            page_section(page, phrase_text(PHRASE_ESTIMATES));
        page_item(page, &begun, sheet_say(page->sheet, PHRASE_ESTIMATE, page_line(page, page->sums->lines[i].line), evidence_for_people(resolved->evidence)));
    }
    page_end_list(page, begun);
}
