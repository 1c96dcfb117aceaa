/* Shared by the files of the text report: one recipe on its way to a writer, and amounts as people read them. */
#ifndef QUERN_OUTPUT_PAGE_H
#define QUERN_OUTPUT_PAGE_H

#include "output/output.h"

struct page {
    struct showing *showing;
    struct writer *writer;
    const struct kitchen *kitchen;
    const struct library *library;
    const struct sums *sums;
    const struct recipe *recipe;
    struct range servings;              /* 1 when the recipe does not say */
    bool is_for_somebody;               /* a day of whom figures are published: those of labels are not for them */
};

/* ---- page.c */

/* The page of a report, on its way to `writer`. */
struct page page_of(struct showing *showing, struct writer *writer, const struct report *report);

/* The amount of a nutrient as the rules in force print it; without a rule, three figures. */
double page_rounded(const struct page *page, uint32_t nutrient, double amount, enum direction direction);

struct text page_unit(const struct page *page, uint32_t nutrient);
struct text page_name(const struct page *page, uint32_t nutrient);

/* `410 mg (380 to 450 mg)`, or `at least 380 mg`; 160 bytes are enough. */
void page_range(const struct page *page, char *storage, size_t size, uint32_t nutrient, struct range amount, bool complete);

struct range page_per_serving(const struct page *page, struct range total);

/* What figures are of: ` per serving`, ` in the day`, or nothing, and the same behind a heading. */
const char *page_per(const struct page *page);
const char *page_per_head(const struct page *page);

/* ---- text.c: a limit or an aim in a line: its outcome, where it is from, and what there is. */
void page_print_limit(struct page *page, const struct verdict *verdict);

/* ---- text_lines.c */

/* The table of lines, and what draining, rinsing and leaving behind saved. */
void page_print_lines(struct page *page);
void page_print_saved(struct page *page);

/* Lines as rows, the largest first: all of a recipe; of a day those that stand in the part, NONE_INDEX for no meal. */
void page_print_ranked(struct page *page, uint32_t part);

/* A line as it is written, cut to a column of the table. */
void page_line(struct page *page, const struct line *line);

/* ---- text_packets.c */

/* What there is to tell of the packets in the recipe. */
void page_print_packets(struct page *page);

/* The cautions that stand here, those first that something in the recipe calls for. And what a caution is told for. */
void page_print_cautions(struct page *page, const struct verdicts *verdicts);
void page_print_because(struct page *page, struct text because);

/* ---- text_claims.c: what labels print instead of a nutrient (salt), and the claims that are made of the recipe. */
void page_print_claims(struct page *page);
void page_print_memory(struct page *page);         /* figures of the rules that are shown and were never read */

/* ---- text_baths.c */

/* What became of each bath, and the lines whose treatments nobody measured. */
void page_print_baths(struct page *page);
void page_print_estimates(struct page *page);

/* ---- text_days.c */

/* Who eats the day; its meals with their lines; what is published for the eater, and what is said beside it. Nothing of
 * a recipe. */
void page_print_eater(struct page *page);
void page_print_meals(struct page *page);
void page_print_published(struct page *page, const struct verdicts *verdicts);
void page_print_day_cautions(struct page *page, const struct verdicts *verdicts);

/* The ratio of the two by moles, and the first by 1,000 kcal, of a day. */
void page_print_day_ratios(struct page *page, uint32_t over, uint32_t under);

/* How much is eaten of what has servings of its own: labels and, in a day, recipes. */
void page_print_servings(struct page *page);

#endif
