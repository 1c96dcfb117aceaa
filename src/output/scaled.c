/* A recipe to cook from, for as many people as are asked for: its ingredients scaled, in the fractions of spoons and cups. What
 * a serving holds stays the same. */
#include <math.h>

#include "output/class.h"
#include "output/figures.h"

bool handing_factor(struct telling *telling, const struct recipe *recipe, double *factor)
{
    const struct handing *handing = telling->task;
    char name[256];
    *factor = 1;
    if (handing->servings <= 0)
        return true;
    snprintf(name, sizeof name, "%.*s", (int)recipe->name.length, recipe->name.bytes);
    if (recipe->is_day)
        telling_fail(telling, STATUS_USAGE, "a day has no servings to scale; name a recipe with --recipe, not the day", name);
    else if (recipe->serves.high <= 0)
        telling_fail(telling, STATUS_USAGE, "it cannot be scaled to servings, since it does not say how many it serves (`serves 4` says so)", name);
    else
        *factor = handing->servings / recipe->serves.best;
    return telling->failure[0] == '\0';
}

static struct text serves_words(struct sheet *sheet, struct range serves)
{
    struct text low = sheet_print(sheet, "%.4g", serves.low);
    return range_is_exact(serves) ? low : sheet_say(sheet, PHRASE_HAND_SERVES_RANGE, low, sheet_print(sheet, "%.4g", serves.high));
}

void handing_print_serves(const struct page *page, struct sheet *sheet, double factor)
{
    struct range grams, serves = page->recipe->serves;
    bool estimated;
    if (page->recipe->is_day)
        return;
    if (serves.high <= 0) {
        sheet_paragraph(sheet, MANNER_DOUBT, phrase_text(PHRASE_HAND_SERVES_UNSAID));
        return;
    }
    struct text words = serves_words(sheet, serves), scaled = serves_words(sheet, range_scale(serves, factor));
    bool one = text_is(scaled, "1");
    if (factor != 1)
        sheet_paragraph(sheet, MANNER_LEAD, sheet_say(sheet, PHRASE_HAND_TIMES, scaled, sheet_print(sheet, "%.4g", factor), words));
    if (figures_serving_grams(page->sums, page->library, &grams, &estimated))
        sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, one ? PHRASE_HAND_SERVES_ONE_OF : PHRASE_HAND_SERVES_EACH, scaled, cook_grams(sheet, grams.best)));
    else
        sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, one ? PHRASE_HAND_SERVES_ONE : PHRASE_HAND_SERVES, scaled));
    page_print_pieces(page, sheet);
}

/* ---- ingredients ----------------------------------------------------------------------------------------------- */

/* The parts around a line that were not told yet, the outer one first. Gives the depth of what stands in them. */
static uint32_t tell_parts(const struct page *page, struct sheet *sheet, uint32_t part, uint32_t before, double factor)
{
    const struct gathering *gathering = page->sums->at.gathering;
    if (part == NONE_INDEX)
        return 0;
    uint32_t depth = tell_parts(page, sheet, gathering->parts[part].parent, before, factor);
    for (uint32_t at = before; at != NONE_INDEX; at = gathering->parts[at].parent) {
        if (at == part)
            return depth + 1;           /* the line before stood in it, too */
    }
    struct sheet_cell cells[3] = { cell_words(cook_part_words(sheet, page->library, gathering, &gathering->parts[part], factor)), { .words = { "", 0 } }, { .words = { "", 0 } } };
    cells[0].depth = depth;
    sheet_row(sheet, cells);
    return depth + 1;
}

static void tell_rounded(const struct page *page, struct sheet *sheet, double factor)
{
    bool begun = false;
    for (uint32_t i = 0; i < page->sums->line_count && !page->recipe->is_day; i++) {
        struct cook_line line;
        cook_line(page, sheet, &page->sums->lines[i], factor, &line);
        bool off = fabs(line.off) >= 0.02;
        if (!off && line.whole <= 0)
            continue;
        if (!begun) {
            sheet_heading(sheet, 3, phrase_text(PHRASE_HAND_ROUNDED));
            sheet_paragraph(sheet, MANNER_PLAIN, phrase_text(PHRASE_HAND_ROUNDED_HOW));
            sheet_list(sheet, false);
        }
        begun = true;
        struct text percent = sheet_fixed(sheet, 0, fabs(line.off) * 100);
        if (line.whole > 0)
            sheet_item(sheet, sheet_say(sheet, PHRASE_HAND_BUY, line.what, line.us, sheet_print(sheet, "%.10g", line.whole)));
        if (off)
            sheet_item(sheet, sheet_say(sheet, line.off > 0 ? PHRASE_HAND_MORE : PHRASE_HAND_LESS, line.what, line.us, percent));
    }
    if (begun)
        sheet_list_end(sheet);
}

void handing_print_ingredients(const struct page *page, struct sheet *sheet, double factor)
{
    const struct sheet_column columns[] = { { phrase_text(PHRASE_HAND_WHAT), false }, { phrase_text(PHRASE_HAND_US), false }, { phrase_text(PHRASE_HAND_METRIC), false } };
    uint32_t before = NONE_INDEX;
    struct text head = phrase_text(page->recipe->is_day ? PHRASE_HAND_EATEN : PHRASE_HAND_NEED);
    sheet_heading(sheet, 2, head);
    sheet_table(sheet, text_of(""), columns, COUNT_OF(columns));
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct line_amount *amount = &page->sums->lines[i];
        struct cook_line line;
        cook_line(page, sheet, amount, factor, &line);
        uint32_t depth = tell_parts(page, sheet, amount->line->part, before, factor);
        struct sheet_cell cells[3] = { cell_words(line.unknown ? sheet_say(sheet, PHRASE_HAND_UNKNOWN_LINE, line.what) : line.what), cell_words(line.us), cell_words(line.metric) };
        cells[0].depth = depth;
        before = amount->line->part;
        sheet_row(sheet, cells);
    }
    sheet_table_end(sheet);
    tell_rounded(page, sheet, factor);
}

/* ---- what is done ---------------------------------------------------------------------------------------------- */

void handing_print_steps(const struct page *page, struct sheet *sheet, const struct written *written, double factor)
{
    bool steps = false;
    for (const struct written_words *at = written->first; at; at = at->next)
        steps = steps || at->kind == WRITTEN_STEP;
    if (steps)
        sheet_heading(sheet, 2, phrase_text(PHRASE_HAND_STEPS));
    if (steps && factor != 1)
        sheet_paragraph(sheet, MANNER_DOUBT, sheet_say(sheet, PHRASE_HAND_STEPS_TIMES, serves_words(sheet, page->recipe->serves), sheet_print(sheet, "%.4g", factor)));
    if (steps)
        sheet_list(sheet, true);
    for (const struct written_words *at = written->first; at; at = at->next) {
        if (at->kind == WRITTEN_STEP)
            sheet_item(sheet, at->words);
    }
    if (steps)
        sheet_list_end(sheet);
    for (const struct written_words *at = written->first; at; at = at->next) {
        if (at->kind == WRITTEN_NOTE)
            sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, PHRASE_HAND_NOTE, at->words));
    }
}

static void tell_caution(void *context, const struct caution_told *told)
{
    struct sheet *sheet = context;
    sheet_paragraph(sheet, MANNER_CAUTION, told->because.length ? sheet_say(sheet, PHRASE_HAND_BECAUSE, told->words, told->because) : told->words);
}

void handing_print_cautions(struct showing *showing, struct sheet *sheet, const struct report *report)
{
    sheet_heading(sheet, 2, phrase_text(PHRASE_HAND_CAUTIONS));
    report_cautions(showing->kitchen, report, tell_caution, sheet);
    handing_print_maker(showing, sheet);
}

void handing_print_maker(struct showing *showing, struct sheet *sheet)
{
    sheet_paragraph(sheet, MANNER_QUIET, showing->day ? sheet_say(sheet, PHRASE_HAND_MADE_DATED, text_of(quern_version()), text_of(showing->day))
                                                      : sheet_say(sheet, PHRASE_HAND_MADE_BY, text_of(quern_version())));
}

/* ---- the document ---------------------------------------------------------------------------------------------- */

static void tell_figure(struct page *page, struct sheet *sheet, uint32_t nutrient)
{
    char amount[160];
    page_range(page, amount, sizeof amount, nutrient, page_per_serving(page, page->sums->total.column[nutrient]),
               amounts_complete(&page->sums->total, nutrient));
    sheet_paragraph(sheet, MANNER_LEAD, sheet_say(sheet, PHRASE_HAND_SCALED_FIGURE, page_name(page, nutrient), text_of(amount)));
}

enum status telling_scaled(struct telling *telling, struct showing *showing, struct sheet *sheet, const struct report *report)
{
    struct written written;
    double factor;
    if (report->week)
        return telling_fail(telling, STATUS_USAGE, "a week has no servings to scale; name a recipe with --recipe", NULL);
    if (!handing_factor(telling, report->sums->at.recipe, &factor))
        return STATUS_USAGE;
    struct page page = page_of(showing, sheet, report);
    const struct rules *rules = page.kitchen->rules;
    if (!written_read(&showing->sources, page.recipe, &sheet->arena, &written))
        return STATUS_NO_MEMORY;
    sheet_begin(sheet, page.recipe->name);
    if (written.introduction.length)
        sheet_paragraph(sheet, MANNER_PLAIN, written.introduction);
    handing_print_serves(&page, sheet, factor);
    if (page.library->traced != NONE_INDEX)
        tell_figure(&page, sheet, page.library->traced);
    if (rules && rules->compare_under != NONE_INDEX)
        tell_figure(&page, sheet, rules->compare_under);
    page_print_others_policies(&page, report);
    page_print_limits(&page, report->verdicts, phrase_text(PHRASE_LIMITS));
    handing_print_ingredients(&page, sheet, factor);
    handing_print_steps(&page, sheet, &written, factor);
    handing_print_cautions(showing, sheet, report);
    sheet_end(sheet);
    return STATUS_OK;
}
