/* Shared by the files of the report (report*.c): one recipe, day or week on its way to a sheet, and amounts as
 * people read them. */
#ifndef QUERN_OUTPUT_PAGE_H
#define QUERN_OUTPUT_PAGE_H

#include "output/sheet.h"

struct page {
    struct showing *showing;
    struct sheet *sheet;
    const struct kitchen *kitchen;
    const struct library *library;
    const struct sums *sums;
    const struct recipe *recipe;        /* NULL: it is of a week, or of findings alone */
    struct range servings;              /* 1 when the recipe does not say */
    const struct verdicts *verdicts;    /* or NULL */
};

/* ---- page.c */

/* The page of a report, on its way to a sheet, which is NULL where figures are only asked for. */
struct page page_of(struct showing *showing, struct sheet *sheet, const struct report *report);

/* The amount of a nutrient as the rules in force print it; without a rule, three figures. */
double page_rounded(const struct page *page, uint32_t nutrient, double amount, enum direction direction);

/* The ends of an amount as they are printed, low ones rounded down and high ones up; steps that change on the way do not
 * turn them round. */
struct range page_printed(const struct page *page, uint32_t nutrient, struct range amount);

/* Three figures, or all of a whole number. */
struct text page_number(const struct page *page, double number);
struct text page_unit(const struct page *page, uint32_t nutrient);
struct text page_name(const struct page *page, uint32_t nutrient);

/* `410 mg (380 to 450)`, or `at least 380 mg`; 160 bytes are enough. */
void page_range(const struct page *page, char *storage, size_t size, uint32_t nutrient, struct range amount, bool complete);

/* `410 mg`, `less than 5 mg` where a 0 stands for less than the first step that the rules print, or `at least 380 mg`; 160 bytes are
 * enough. */
void page_print_best(const struct page *page, char *storage, size_t size, uint32_t nutrient, struct range amount, bool complete);

/* The same as words of the sheet; and its parts: the best value or what it is at least, and the range, no bytes where it is
 * exact. */
struct text page_amount(const struct page *page, uint32_t nutrient, struct range amount, bool complete);
struct text page_best(const struct page *page, uint32_t nutrient, struct range amount, bool complete);
struct text page_spread(const struct page *page, uint32_t nutrient, struct range amount, bool complete);

/* A cell with the amount, and the figure that stands for it: the best, or what it is at least. */
struct sheet_cell page_cell(const struct page *page, uint32_t nutrient, struct range amount, bool complete);

struct range page_per_serving(const struct page *page, struct range total);

/* What figures are of: ` per serving`, ` in the day`, ` in all of it`, and the same behind a heading. */
const char *page_per(const struct page *page);
const char *page_per_head(const struct page *page);

/* Where a serving is one of the pieces that the recipe makes, says so. */
void page_print_pieces(const struct page *page, struct sheet *sheet);

/* Where something stands: `soup.quern:3`. The same as a paragraph. */
struct text page_place(const struct page *page, struct place place);
void page_print_place(struct page *page, struct place place);

/* A heading of a section, or of what stands in one. */
void page_section(struct page *page, struct text words);
void page_subsection(struct page *page, struct text words);

/* An item of a list that is begun where it is not yet; and its end, where it was. */
void page_item(struct page *page, bool *begun, struct text words);
void page_end_list(struct page *page, bool begun);

/* ---- report_lines.c */

/* The table of lines, and what draining, rinsing and leaving behind saved. */
void page_print_lines(struct page *page);
void page_print_saved(struct page *page);

/* Lines as rows, the largest first: all of a recipe; of a day those that stand in the part, NONE_INDEX for no meal. */
void page_print_ranked(struct page *page, uint32_t part, struct text caption);

/* A line as it is written, in the sheet's words. */
struct text page_line(const struct page *page, const struct line *line);

/* How many lines are unknown in a column. */
uint32_t page_unknown_lines(const struct page *page, uint32_t column);

/* ---- report_figures.c: the figure of a nutrient with what it is held to and compared with, and how it came in */
void page_print_figure(struct page *page, uint32_t nutrient, const struct verdicts *verdicts);
void page_print_origins(struct page *page);

/* Why there is no ratio: one of the two is unknown, or, where both are `known`, there may be none of what it is over. */
struct text page_no_ratio(const struct page *page, bool known, uint32_t under);

/* A ratio with its range; one that has no width is one figure. */
struct text page_ratio(const struct page *page, struct text low, struct text best, struct text high);

/* The ratio to the nutrient that the same caution group knows: sodium to potassium. */
void page_print_ratio(struct page *page, uint32_t over, uint32_t under);

void page_print_nutrients(struct page *page, uint32_t shown_apart);

/* The share of the daily value of a nutrient, in percent as the rules print it; false where they have none. `at least` never says
 * more than is known. */
bool page_daily_share(const struct page *page, uint32_t nutrient, struct range amount, bool complete, double *share, double *value);

/* ---- report_card.c: the recipe as it is written: its ingredients, what is done, notes. */
struct written;
void page_print_card(struct page *page, const struct written *written);

/* ---- report_findings.c */
void page_print_findings(struct page *page, struct finding *const *findings, uint32_t count);

/* That a policy is for somebody else, so that nothing here is held to it; for sheets that tell no findings. */
void page_print_others_policies(struct page *page, const struct report *report);

/* ---- report.c: a limit or a goal as a row begins: what is bounded and where that is from, its outcome, and what there is. And a
 * table of them; nothing where there are none. Every sheet that prints what a serving holds prints it. */
#define LIMIT_CELLS 3
void page_print_limits(struct page *page, const struct verdicts *verdicts, struct text heading);
void page_limit_cells(struct page *page, const struct verdict *verdict, struct sheet_cell *cells);

/* ---- report.c: which program and library computed it, where it is read by itself */
void page_print_provenance(struct page *page);

/* ---- report_packets.c */

/* What there is to tell of the packets in the recipe. */
void page_print_packets(struct page *page);

/* The cautions that stand here, those first that something in the recipe calls for. */
void page_print_cautions(struct page *page, const struct report *report);

/* One of them, and what it is told for; no bytes where it stands everywhere. */
void page_print_caution(struct page *page, struct text words, struct text because);

/* ---- report_claims.c: what labels print instead of a nutrient (salt), and the claims that are made of the recipe. */
void page_print_claims(struct page *page);

/* Figures of the rules that are shown and were never read, as items of a list (see page_item). */
void page_print_memory(struct page *page, bool *begun);

/* ---- report_baths.c */

/* What became of each bath, and the lines whose treatments nobody measured. */
void page_print_baths(struct page *page);
void page_print_estimates(struct page *page);

/* ---- report_days.c */

/* Who eats the day or recipe; a recipe that does not say, is for anybody. */
void page_print_eater(struct page *page);

/* The meals of a day with their lines; what is published for the eater. Nothing of a recipe. */
void page_print_meals(struct page *page);
void page_print_published(struct page *page, const struct verdicts *verdicts);

/* The ratio of the two by moles, and the first by 1,000 kcal, of a day. */
void page_print_day_ratios(struct page *page, uint32_t over, uint32_t under);

/* How much is eaten of what has servings of its own: labels and, in a day, recipes. */
void page_print_servings(struct page *page);

#endif
