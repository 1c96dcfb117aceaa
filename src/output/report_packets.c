/* The part of the report about packets: when each was seen, what its ingredients hold, what the law would let it hold;
 * and the cautions, those first that something here calls for. */
#include "output/figures.h"
#include "output/page.h"

/* ---- packets ------------------------------------------------------------------------------------------------------- */

static struct text packet_head(struct page *page, struct food_at label)
{
    char date[16];
    struct sheet *sheet = page->sheet;
    struct text name = library_text(label.library, label.food->name);
    if (label.food->seen == 0)
        return name;
    struct text day = day_print(label.food->seen, date, sizeof date);
    if (page->kitchen->today < label.food->seen)
        return sheet_say(sheet, PHRASE_PACKET_SEEN, name, day);
    return sheet_say(sheet, PHRASE_PACKET_SEEN_DAYS, name, day, sheet_print(sheet, "%u", page->kitchen->today - label.food->seen));
}

/* `lists potassium compounds: potassium chloride, E 508`: all that is of one kind. */
static void tell_kind(struct page *page, bool *begun, struct food_at label, uint32_t first)
{
    const struct listed *listed = &label.library->listed[label.food->first_listed];
    struct text kind = library_text(label.library, listed[first].kind), all = { "", 0 };
    for (uint32_t i = 0; i < first; i++) {
        if (text_equal(library_text(label.library, listed[i].kind), kind))
            return;
    }
    for (uint32_t i = first; i < label.food->listed_count; i++) {
        struct text written = library_text(label.library, listed[i].written);
        if (text_equal(library_text(label.library, listed[i].kind), kind))
            all = i == first ? written : sheet_say(page->sheet, PHRASE_PACKET_LISTED, all, written);
    }
    page_item(page, begun, sheet_say(page->sheet, PHRASE_PACKET_LISTS, kind, all));
}

/* A serving as it is printed, and as the law would have it: apart, so that nobody takes one for the other. */
static void tell_tolerance(struct page *page, bool *begun, struct food_at label, uint32_t nutrient)
{
    struct range printed = label.library->values[label.food->values + nutrient], legal = label.library->values[label.food->tolerated + nutrient];
    bool is_open = label.food->open >> nutrient & 1;
    if (!page->kitchen->tolerance || label.food->tolerated == label.food->values || !(label.food->known >> nutrient & 1))
        return;
    bool unread = claim_is_from_memory(kitchen_tolerance_source(page->kitchen, nutrient));
    page_item(page, begun, sheet_say(page->sheet, unread ? PHRASE_PACKET_TOLERANCE_CHECK : PHRASE_PACKET_TOLERANCE, page_name(page, nutrient), page_amount(page, nutrient, printed, true),
                                      page_amount(page, nutrient, legal, !is_open)));
}

static void tell_packet(struct page *page, struct food_at label)
{
    const struct rules *rules = page->kitchen->rules;
    bool begun = false;
    sheet_paragraph(page->sheet, MANNER_PLAIN, packet_head(page, label));
    if (rules && rules->compare_over != NONE_INDEX && rules->compare_under != NONE_INDEX) {
        tell_tolerance(page, &begun, label, rules->compare_over);
        tell_tolerance(page, &begun, label, rules->compare_under);
    }
    for (uint32_t i = 0; i < label.food->listed_count; i++)
        tell_kind(page, &begun, label, i);
    page_end_list(page, begun);
}

/* Packets of which nothing is to be told but their figures stand with the lines. */
static bool has_to_tell(const struct page *page, struct food_at label)
{
    return label.food && (page->kitchen->tolerance || label.food->seen || label.food->listed_count);
}

void page_print_packets(struct page *page)
{
    bool begun = false;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        struct food_at label = line_label(&page->sums->lines[i]);
        if (!has_to_tell(page, label) || label_told_before(page->sums, i, label.food))
            continue;
        if (!begun)
            page_section(page, phrase_text(PHRASE_PACKETS));
        begun = true;
        tell_packet(page, label);
    }
    if (!begun || !page->kitchen->tolerance)
        return;
    sheet_paragraph(page->sheet, MANNER_PLAIN, phrase_text(PHRASE_PACKET_LAW));
}

/* ---- cautions ------------------------------------------------------------------------------------------------------ */

struct cautioning {
    struct page *page;
    bool called_for;                    /* those that something in the recipe calls for, or the others */
};

void page_print_caution(struct page *page, struct text words, struct text because)
{
    sheet_paragraph(page->sheet, MANNER_CAUTION, because.length ? sheet_say(page->sheet, PHRASE_CAUTION_BECAUSE, words, because) : words);
}

static void receive_caution(void *context, const struct caution_told *told)
{
    const struct cautioning *cautioning = context;
    if ((told->because.length > 0) == cautioning->called_for)
        page_print_caution(cautioning->page, told->exactly.length ? sheet_say(cautioning->page->sheet, PHRASE_CAUTION_EXACTLY, told->words, told->exactly) : told->words,
                           told->because);
}

void page_print_cautions(struct page *page, const struct report *report)
{
    struct cautioning called = { page, true }, others = { page, false };
    page_section(page, phrase_text(PHRASE_CAUTIONS));
    report_cautions(page->kitchen, report, receive_caution, &called);
    report_cautions(page->kitchen, report, receive_caution, &others);
}
