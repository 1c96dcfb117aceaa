/* Baths in the text report, and which lines rest on estimates. */
#include "output/page.h"

static void print_share(struct page *page, const char *words, const struct amounts *amounts)
{
    char amount[160];
    uint32_t traced = page->library->traced;
    page_range(page, amount, sizeof amount, traced, amounts->column[traced], amounts_complete(amounts, traced));
    writer_print(page->writer, "    %-26s %s\n", words, amount);
}

void page_print_baths(struct page *page)
{
    const struct sums *sums = page->sums;
    struct text name = page_name(page, page->library->traced);
    if (sums->bath_count)
        writer_print(page->writer, "\nBaths: %.*s in all of the recipe\n", (int)name.length, name.bytes);
    for (uint32_t i = 0; i < sums->bath_count; i++) {
        const struct bath_sum *bath = &sums->baths[i];
        struct amounts discarded = bath_discarded(bath, page->library);
        writer_print(page->writer, "  ");
        writer_visible(page->writer, sums->at.gathering->parts[bath->part].name);
        writer_print(page->writer, "\n");
        print_share(page, "filled with", &bath->went_in);
        print_share(page, "left once the food is out", &bath->left);
        if (bath->kept.column[page->library->mass_column].high > 0)
            print_share(page, "eaten of that", &bath->kept);
        print_share(page, "thrown away", &discarded);
    }
}

/* Grades C and D: nobody measured it. */
void page_print_estimates(struct page *page)
{
    bool head = false;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct resolved *resolved = page->sums->lines[i].resolved;
        if (!resolved || resolved->grade < 'C')
            continue;
        if (!head)
            writer_print(page->writer, "\nEstimated: nobody measured what was done here\n");
        head = true;
        writer_add(page->writer, text_of("  "));
        page_line(page, page->sums->lines[i].line);
        writer_print(page->writer, " evidence %c, %s\n", (int)resolved->grade, resolved->grade == 'C' ? "estimated" : "from memory");
    }
}
