/* The recipe as it is written, for those who have the report and not the file: what goes in, what is done, what is noted. */
#include "output/page.h"
#include "output/written.h"

/* The lines of a part, those of parts within it apart; NONE_INDEX: those that stand in none. */
static void tell_ingredients(struct page *page, uint32_t part)
{
    bool begun = false;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        if (page->sums->lines[i].line->part == part)
            page_item(page, &begun, page_line(page, page->sums->lines[i].line));
    }
    page_end_list(page, begun);
}

/* A part with what is done to all of it: `Beans, drained`. */
static struct text part_words(struct page *page, const struct part *part)
{
    const struct gathering *gathering = page->sums->at.gathering;
    struct text words = part->is_bath ? sheet_say(page->sheet, PHRASE_CARD_BATH, part->name) : part->name;
    struct text tail = part->tail == NONE_INDEX ? text_of("") : gathering->tails[part->tail].text;
    while (tail.length && (tail.bytes[0] == ',' || tail.bytes[0] == ' '))
        tail = (struct text){ tail.bytes + 1, tail.length - 1 };
    return tail.length ? sheet_say(page->sheet, PHRASE_CARD_PART, words, tail) : words;
}

static void tell_method(struct page *page, const struct written *written)
{
    bool begun = false;
    for (const struct written_words *words = written->first; words; words = words->next) {
        if (words->kind != WRITTEN_STEP)
            continue;
        if (!begun) {
            page_section(page, phrase_text(PHRASE_CARD_METHOD));
            sheet_list(page->sheet, true);
        }
        begun = true;
        sheet_item(page->sheet, words->words);
    }
    if (begun)
        sheet_list_end(page->sheet);
}

void page_print_card(struct page *page, const struct written *written)
{
    const struct recipe *recipe = page->recipe;
    page_section(page, phrase_text(PHRASE_CARD_INGREDIENTS));
    tell_ingredients(page, NONE_INDEX);
    for (uint32_t i = recipe->first_part; i < recipe->first_part + recipe->part_count; i++) {
        page_subsection(page, part_words(page, &page->sums->at.gathering->parts[i]));
        tell_ingredients(page, i);
    }
    tell_method(page, written);
    for (const struct written_words *words = written->first; words; words = words->next) {
        if (words->kind != WRITTEN_STEP)
            sheet_paragraph(page->sheet, MANNER_PLAIN, sheet_say(page->sheet, words->kind == WRITTEN_NOTE ? PHRASE_CARD_NOTE : PHRASE_CARD_SOURCE, words->words));
    }
}
