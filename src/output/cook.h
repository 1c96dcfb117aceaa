/* cook: a recipe as it is cooked: amounts in the measures of a kitchen, perhaps for more people, beside grams and millilitres;
 * and what is done. Shared by the handout, the scaled recipe and the shopping list. */
#ifndef QUERN_OUTPUT_COOK_H
#define QUERN_OUTPUT_COOK_H

#include "output/page.h"
#include "output/sheet.h"

/* ---- cook_words.c */

/* A line for the cook; its texts live in the sheet. */
struct cook_line {
    struct text us, metric;             /* its amount: in US measures, or a count; in metric ones, or no bytes */
    struct text what;                   /* the words behind the amount, without quotes */
    double off;                         /* by which share of the amount the US measures differ from it, having been rounded */
    double whole;                       /* so many have to be bought where the count is none of whole ones; or 0 */
    bool unknown;                       /* nothing of it is counted */
};

void cook_line(const struct page *page, struct sheet *sheet, const struct line_amount *amount, double factor, struct cook_line *line);

/* The unit that a line is measured by; NULL: it is counted, or says none. */
const struct unit *cook_unit(const struct page *page, const struct line_amount *amount);

/* The name of a part, and what is done with all of it. */
struct text cook_part_words(struct sheet *sheet, const struct library *library, const struct gathering *gathering, const struct part *part, double factor);

/* So many millilitres in spoons and cups; no bytes where it is less than a spoon. */
struct text cook_volume(struct sheet *sheet, const struct library *library, double ml);
struct text cook_millilitres(struct sheet *sheet, double ml);

/* So many grams as `680 g` or `1.2 kg`; and in pounds and ounces. */
struct text cook_grams(struct sheet *sheet, double grams);
struct text cook_pounds(struct sheet *sheet, const struct library *library, double grams);

#endif
