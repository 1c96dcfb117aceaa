/* The report that people hand out: what one serving holds, where it comes from, what was saved, what is doubtful,
 * and the cautions. Told once, to a sheet; a look makes text, Markdown or a page of it. */
#include "output/held.h"
#include "output/page.h"
#include "output/written.h"

/* ---- head ----------------------------------------------------------------------------------------------------------- */

/* Of how many lines the source says how samples differ: the ranges of the others hold none of it. */
static void tell_variation(struct page *page)
{
    uint32_t foods = 0, spread = 0;
    struct sheet *sheet = page->sheet;
    if (!page->kitchen->variation)
        return;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct resolved *resolved = page->sums->lines[i].resolved;
        foods += resolved && resolved->food.food;
        spread += resolved && resolved->food.food && resolved->food.food->spread_count > 0;
    }
    sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, PHRASE_REPORT_VARIATION, sheet_print(sheet, "%u", spread), sheet_print(sheet, "%u", foods)));
}

/* Of how many amounts a spoon or cup is the measure: those that were weighed or counted are as wide as before. */
static void tell_spoon_error(struct page *page)
{
    uint32_t by_volume = 0;
    struct sheet *sheet = page->sheet;
    if (page->kitchen->spoon_error <= 0)
        return;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct resolved *resolved = page->sums->lines[i].resolved;
        by_volume += resolved && resolved->flags & RESOLVED_BY_VOLUME;
    }
    sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, PHRASE_REPORT_SPOON_ERROR, sheet_print(sheet, "%g", page->kitchen->spoon_error * 100),
                    sheet_print(sheet, "%u", by_volume), sheet_print(sheet, "%u", page->sums->line_count)));
}

/* `Serves 4, about 136 g each`. */
static void tell_serves(struct page *page)
{
    const struct recipe *recipe = page->recipe;
    struct sheet *sheet = page->sheet;
    bool estimated, known;
    struct range grams = recipe_grams(recipe, &page->sums->total, page->library, &estimated, &known);
    if (recipe->serves.high <= 0) {
        sheet_paragraph(sheet, MANNER_PLAIN, phrase_text(PHRASE_REPORT_SERVES_UNSAID));
        return;
    }
    struct text low = sheet_print(sheet, "%g", range_is_exact(recipe->serves) ? recipe->serves.best : recipe->serves.low);
    struct text words = range_is_exact(recipe->serves) ? sheet_say(sheet, PHRASE_REPORT_SERVES, low)
                                                       : sheet_say(sheet, PHRASE_REPORT_SERVES_RANGE, low, sheet_print(sheet, "%g", recipe->serves.high));
    if (known && grams.best > 0) {
        struct range serving = recipe->yields->serving_grams.high > 0 ? recipe->yields->serving_grams : range_divide(grams, recipe->serves);
        words = sheet_say(sheet, estimated ? PHRASE_REPORT_EACH_ESTIMATED : PHRASE_REPORT_EACH, words, sheet_fixed(sheet, 0, serving.best));
    }
    sheet_paragraph(sheet, MANNER_PLAIN, words);
    page_print_pieces(page, sheet);
}

static void tell_head(struct page *page, const struct written *written)
{
    const struct recipe *recipe = page->recipe;
    page_print_place(page, (struct place){ recipe->file, recipe->title });
    if (written->introduction.length)
        sheet_paragraph(page->sheet, MANNER_PLAIN, written->introduction);
    page_print_eater(page);
    if (!recipe->is_day)
        tell_serves(page);
    tell_variation(page);
    tell_spoon_error(page);
}

/* ---- limits, sources ---------------------------------------------------------------------------------------------------- */

void page_limit_cells(struct page *page, const struct verdict *verdict, struct sheet_cell *cells)
{
    struct sheet *sheet = page->sheet;
    cells[0] = cell_words(held_limit(sheet, page->library, verdict));
    cells[1] = cell_words(held_outcome(verdict));
    cells[1].tone = held_tone(verdict);
    cells[2] = cell_figure(held_value(sheet, page->library, verdict), verdict->complete ? verdict->value.best : verdict->value.low);
}

void page_print_limits(struct page *page, const struct verdicts *verdicts, struct text heading)
{
    const struct sheet_column columns[] = { { phrase_text(PHRASE_COLUMN_LIMIT), false }, { phrase_text(PHRASE_COLUMN_OUTCOME), false },
                                            { phrase_text(PHRASE_COLUMN_VALUE), false } };
    if (!verdicts->count)
        return;
    page_section(page, heading);
    sheet_table(page->sheet, heading, columns, 3);
    for (uint32_t i = 0; i < verdicts->count; i++) {
        struct sheet_cell cells[LIMIT_CELLS];
        page_limit_cells(page, &verdicts->at[i], cells);
        sheet_row(page->sheet, cells);
    }
    sheet_table_end(page->sheet);
}

static bool told_before(const struct page *page, uint32_t line)
{
    const struct food *food = page->sums->lines[line].resolved->food.food;
    for (uint32_t i = 0; i < line; i++) {
        const struct resolved *resolved = page->sums->lines[i].resolved;
        if (resolved && resolved->subject == SUBJECT_FOOD && resolved->food.food == food)
            return true;
    }
    return false;
}

/* Also which program and library computed all this, where it is read by itself: in a kitchen that is known. */
static void tell_sources(struct page *page)
{
    bool begun = false;
    struct sheet *sheet = page->sheet;
    page_section(page, phrase_text(PHRASE_SOURCES));
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct resolved *resolved = page->sums->lines[i].resolved;
        if (!resolved || resolved->subject != SUBJECT_FOOD || !resolved->food.food || told_before(page, i))
            continue;
        struct text source = library_text(resolved->food.library, resolved->food.food->source);
        page_item(page, &begun, sheet_say(sheet, PHRASE_SOURCE, library_text(resolved->food.library, resolved->food.food->name),
                                    source.length ? sheet_source(sheet, source, false) : phrase_text(PHRASE_SOURCE_UNSAID)));
    }
    if (page->kitchen->rules) {
        page_item(page, &begun, sheet_say(sheet, page->kitchen->rules_said ? PHRASE_SOURCE_RULES : PHRASE_SOURCE_RULES_TAKEN,
                                          library_text(page->kitchen->rules_owner, page->kitchen->rules->title)));
        page_print_memory(page, &begun);
    }
    page_end_list(page, begun);
}

void page_print_provenance(struct page *page)
{
    struct sheet *sheet = page->sheet;
    const char *day = page->showing->day;
    struct text version = text_of(quern_version()), library = sheet_print(sheet, "%016llx", (unsigned long long)page->kitchen->stdlib->checksum);
    if (sheet_travels(sheet))
        sheet_paragraph(sheet, MANNER_QUIET, day ? sheet_say(sheet, PHRASE_PROVENANCE_DATED, version, library, text_of(day))
                                                 : sheet_say(sheet, PHRASE_PROVENANCE, version, library));
}

/* ---- all of it ------------------------------------------------------------------------------------------------------------ */

static void tell_traced(struct page *page, const struct report *report, const struct written *written)
{
    if (page->library->traced != NONE_INDEX) {
        page_print_figure(page, page->library->traced, report->verdicts);
        page_print_origins(page);
    }
    if (sheet_travels(page->sheet) && !page->recipe->is_day)
        page_print_card(page, written);
    if (page->library->traced == NONE_INDEX)
        return;
    page_print_meals(page);
    page_print_lines(page);
    page_print_servings(page);
    page_print_saved(page);
    page_print_baths(page);
    page_print_estimates(page);
}

void report_tell(struct showing *showing, struct sheet *sheet, const struct report *report)
{
    struct page page = page_of(showing, sheet, report);
    struct written written;
    const struct rules *rules = page.kitchen->rules;
    uint32_t over = rules ? rules->compare_over : NONE_INDEX, under = rules ? rules->compare_under : NONE_INDEX;
    writer_needs(sheet->writer, written_read(&showing->sources, page.recipe, &sheet->arena, &written));
    tell_head(&page, &written);
    tell_traced(&page, report, &written);
    if (over != NONE_INDEX && under != NONE_INDEX) {
        page_section(&page, sheet_say(sheet, PHRASE_BALANCE, page_name(&page, over), page_name(&page, under)));
        page_print_figure(&page, under, report->verdicts);
        page_print_ratio(&page, over, under);
        page_print_day_ratios(&page, over, under);
    }
    page_print_nutrients(&page, under);
    page_print_limits(&page, report->verdicts, phrase_text(PHRASE_LIMITS));
    page_print_published(&page, report->verdicts);
    page_print_claims(&page);
    page_print_findings(&page, report->findings, report->findings_count);
    page_print_packets(&page);
    tell_sources(&page);
    page_print_cautions(&page, report);
    page_print_provenance(&page);
}
