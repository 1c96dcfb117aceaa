/* The part of the report about packets: when each was seen, what its ingredients hold, what the law would let it hold;
 * and the cautions, those first that something here calls for. */
#include <string.h>

#include "output/page.h"

/* ---- packets ------------------------------------------------------------------------------------------------------- */

static void print_seen(struct page *page, struct food_at label)
{
    char date[16];
    if (label.food->seen == 0)
        return;
    struct text day = day_print(label.food->seen, date, sizeof date);
    writer_print(page->writer, ", seen %.*s", (int)day.length, day.bytes);
    if (page->kitchen->today >= label.food->seen)
        writer_print(page->writer, " (%u days ago)", page->kitchen->today - label.food->seen);
}

/* `lists potassium compounds: potassium chloride, E 508`: all that is of one kind. */
static void print_kind(struct page *page, struct food_at label, uint32_t first)
{
    const struct listed *listed = &label.library->listed[label.food->first_listed];
    struct text kind = library_text(label.library, listed[first].kind);
    for (uint32_t i = 0; i < first; i++) {
        if (text_equal(library_text(label.library, listed[i].kind), kind))
            return;
    }
    writer_add(page->writer, text_of("    lists "));
    writer_visible(page->writer, kind);
    for (uint32_t i = first, count = 0; i < label.food->listed_count; i++) {
        if (!text_equal(library_text(label.library, listed[i].kind), kind))
            continue;
        writer_add(page->writer, text_of(count++ ? ", " : ": "));
        writer_visible(page->writer, library_text(label.library, listed[i].written));
    }
    writer_add(page->writer, text_of("\n"));
}

/* A serving as it is printed, and as the law would have it: apart, so that nobody takes one for the other. */
static void print_tolerance(struct page *page, struct food_at label, uint32_t nutrient)
{
    char by_rounding[160], by_law[160];
    struct range printed = label.library->values[label.food->values + nutrient], legal = label.library->values[label.food->tolerated + nutrient];
    bool is_open = label.food->open >> nutrient & 1;
    if (!page->kitchen->tolerance || label.food->tolerated == label.food->values || !(label.food->known >> nutrient & 1))
        return;
    struct text name = page_name(page, nutrient);
    page_range(page, by_rounding, sizeof by_rounding, nutrient, printed, true);
    page_range(page, by_law, sizeof by_law, nutrient, legal, !is_open);
    writer_print(page->writer, "    %.*s a serving: %s by rounding; by law %s\n", (int)name.length, name.bytes, by_rounding, by_law);
}

static void print_packet(struct page *page, struct food_at label)
{
    const struct rules *rules = page->kitchen->rules;
    writer_add(page->writer, text_of("  "));
    writer_visible(page->writer, library_text(label.library, label.food->name));
    print_seen(page, label);
    writer_add(page->writer, text_of("\n"));
    if (rules && rules->compare_over != NONE_INDEX && rules->compare_under != NONE_INDEX) {
        print_tolerance(page, label, rules->compare_over);
        print_tolerance(page, label, rules->compare_under);
    }
    for (uint32_t i = 0; i < label.food->listed_count; i++)
        print_kind(page, label, i);
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
            writer_add(page->writer, text_of("\nPackets\n"));
        begun = true;
        print_packet(page, label);
    }
    if (begun && page->kitchen->tolerance && !(page->kitchen->rules && page->kitchen->rules->tolerance_count))
        writer_wrapped(page->writer, text_of("A policy asks for what the law lets a laboratory find against the label, and the rules in force do not say what that is: figures are widened by rounding alone."));
    else if (begun && page->kitchen->tolerance)
        writer_wrapped(page->writer, text_of("All figures hold what the law lets a laboratory find against the label, since a policy asks for it."));
}

/* ---- cautions ------------------------------------------------------------------------------------------------------ */

void page_print_because(struct page *page, struct text because)
{
    char reason[240];
    snprintf(reason, sizeof reason, "(Told because %.*s.)", (int)because.length, because.bytes);
    if (because.length)
        writer_wrapped(page->writer, text_of(reason));
}

static void print_cautions_that(struct page *page, const struct cautious *cautious, bool called_for)
{
    const struct kitchen *kitchen = page->kitchen;
    for (uint32_t i = 0; kitchen->cautions && i < kitchen->cautions->caution_count; i++) {
        char storage[200];
        struct text because;
        const struct caution *caution = &kitchen->cautions_owner->cautions[kitchen->cautions->first_caution + i];
        if (!caution_stands(cautious, caution, storage, sizeof storage, &because) || (because.length > 0) != called_for)
            continue;
        writer_wrapped(page->writer, library_text(kitchen->cautions_owner, caution->words));
        page_print_because(page, because);
    }
}

void page_print_cautions(struct page *page, const struct verdicts *verdicts)
{
    struct cautious cautious = cautious_of(page->kitchen, page->sums, verdicts);
    writer_print(page->writer, "\nCautions\n");
    print_cautions_that(page, &cautious, true);
    print_cautions_that(page, &cautious, false);
    page_print_day_cautions(page, verdicts);
    writer_print(page->writer, "\n");
}
