/* The panel that the rules in force print: their lines in their order, rounded and in percent as they say, in words of our
 * own. What a panel would leave out, it does not: ranges, what is unknown, and that it is an estimate. */
#include "output/figures.h"
#include "output/page.h"
#include "output/sheet.h"

/* An amount as the rules print it: `0 g`, `less than 1 g`, `160 mg`. Where they only permit a 0 in place of finer figures
 * (90 mg of potassium may be printed as 0), the figure is told: it would contradict the range beside it. */
static struct text panel_amount(const struct page *page, uint32_t nutrient, double amount)
{
    const struct library *owner = page->kitchen->rules_owner;
    const struct rounding *rounding = rules_rounding(owner, page->kitchen->rules, nutrient, false);
    struct text unit = page_unit(page, nutrient);
    bool told = rounding && rounding->finer && !rounding->zero_is_mandatory;
    bool zero = rounding && !told && rounding_is_zero(rounding, amount);
    if (rounding && !zero && amount_compare(amount, rounding->less_than) < 0)
        return sheet_say(page->sheet, PHRASE_PANEL_LESS, sheet_print(page->sheet, "%g", rounding->less_than), unit);
    double printed = rounding && !told ? rounding_print(owner, rounding, amount) : page_rounded(page, nutrient, amount, ROUND_NEAREST);
    if (printed == 0 && amount > 0 && !zero)        /* no rule makes it a 0 */
        return sheet_say(page->sheet, PHRASE_PANEL_LESS, sheet_print(page->sheet, "%.6g", page_rounded(page, nutrient, amount, ROUND_UP)), unit);
    return sheet_say(page->sheet, PHRASE_AMOUNT, sheet_print(page->sheet, "%.6g", printed), unit);
}

/* The share of the daily value, which the rules round by itself; no bytes where they have none. */
static struct sheet_cell percent_cell(const struct page *page, const struct panel_line *line, struct range amount, bool complete)
{
    double share, value;
    if (line->flags & PANEL_WITHOUT_PERCENT || !page_daily_share(page, line->nutrient, amount, complete, &share, &value))
        return cell_words(text_of(""));
    return cell_words(sheet_say(page->sheet, complete ? PHRASE_SHARE : PHRASE_SHARE_LEAST, sheet_fixed(page->sheet, 0, share)));
}

static void tell_line(struct page *page, const struct panel_line *line)
{
    const struct library *owner = page->kitchen->rules_owner;
    struct sheet_cell cells[4] = { cell_words(library_text(owner, line->title)) };
    cells[0].depth = line->depth;
    if (line->nutrient == NONE_INDEX) {
        cells[1] = (struct sheet_cell){ .words = phrase_text(PHRASE_PANEL_UNKNOWN), .tone = TONE_DOUBT };
        cells[2] = cells[3] = cell_words(text_of(""));
        sheet_row(page->sheet, cells);
        return;
    }
    bool complete = amounts_complete(&page->sums->total, line->nutrient);
    struct range amount = page_per_serving(page, page->sums->total.column[line->nutrient]);
    if (complete) {
        cells[1] = cell_figure(panel_amount(page, line->nutrient, amount.best), amount.best);
        cells[2] = cell_words(page_spread(page, line->nutrient, amount, true));
    } else {
        cells[1] = cell_figure(page_best(page, line->nutrient, amount, false), amount.low);
        cells[1].tone = TONE_DOUBT;
        cells[2] = cell_words(page_unknown_lines(page, line->nutrient) == 1
                                  ? phrase_text(PHRASE_LINES_UNKNOWN_ONE)
                                  : sheet_say(page->sheet, PHRASE_LINES_UNKNOWN, sheet_print(page->sheet, "%u", page_unknown_lines(page, line->nutrient))));
    }
    cells[3] = percent_cell(page, line, amount, complete);
    sheet_row(page->sheet, cells);
}

/* How many servings there are, and what one is, by weight. */
static void tell_servings(struct page *page)
{
    struct sheet *sheet = page->sheet;
    const struct range serves = page->recipe->serves;
    struct range grams;
    bool estimated;
    if (serves.low == serves.high)
        sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, PHRASE_PANEL_SERVINGS, sheet_print(sheet, "%g", serves.best)));
    else
        sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, PHRASE_PANEL_SERVINGS_RANGE, sheet_print(sheet, "%g", serves.low), sheet_print(sheet, "%g", serves.high)));
    if (figures_serving_grams(page->sums, page->library, &grams, &estimated))
        sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, estimated ? PHRASE_PANEL_SERVING_ESTIMATED : PHRASE_PANEL_SERVING, sheet_fixed(sheet, 0, grams.best)));
}

static void tell_lines(struct page *page)
{
    const struct rules *rules = page->kitchen->rules;
    const struct library *owner = page->kitchen->rules_owner;
    struct text title = library_text(owner, rules->panel_title), source = library_text(owner, rules->panel_source);
    const struct sheet_column columns[] = { { phrase_text(PHRASE_COLUMN_NUTRIENT), false }, { phrase_text(PHRASE_COLUMN_AMOUNT), true },
                                            { phrase_text(PHRASE_COLUMN_RANGE), true }, { kitchen_daily_name(page->kitchen), true } };
    tell_servings(page);
    sheet_heading(page->sheet, 2, title);
    sheet_table(page->sheet, title, columns, 4);
    for (uint32_t i = 0; i < rules->panel_line_count; i++)
        tell_line(page, &owner->panel_lines[rules->first_panel_line + i]);
    sheet_table_end(page->sheet);
    sheet_paragraph(page->sheet, MANNER_DOUBT, phrase_text(PHRASE_PANEL_ESTIMATE));
    sheet_paragraph(page->sheet, MANNER_QUIET, sheet_say(page->sheet, PHRASE_PANEL_SOURCE, source));
}

void panel_tell(struct showing *showing, struct sheet *sheet, const struct report *report)
{
    struct page page = page_of(showing, sheet, report);
    const struct rules *rules = page.kitchen->rules;
    if (report->week || page.recipe->is_day)
        sheet_paragraph(sheet, MANNER_DOUBT, phrase_text(PHRASE_PANEL_NO_RECIPE));
    else if (page.recipe->serves.high <= 0)
        sheet_paragraph(sheet, MANNER_DOUBT, phrase_text(PHRASE_PANEL_NO_SERVINGS));
    else if (!rules || !rules->panel_line_count)
        sheet_paragraph(sheet, MANNER_DOUBT, sheet_say(sheet, PHRASE_PANEL_NONE, rules ? library_text(page.kitchen->rules_owner, rules->title) : text_of("")));
    else
        tell_lines(&page);
    if (!report->week) {
        page_print_others_policies(&page, report);
        page_print_limits(&page, report->verdicts, phrase_text(PHRASE_LIMITS));
        page_print_cautions(&page, report);
    }
    page_print_provenance(&page);
}
