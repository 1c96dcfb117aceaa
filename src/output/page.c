/* Amounts for people: rounded once, by the rule pack, best values to the nearest printed figure, bounds outward. */
#include "output/page.h"

struct page page_of(struct showing *showing, struct sheet *sheet, const struct report *report)
{
    struct page page = { .showing = showing, .sheet = sheet, .kitchen = showing->kitchen, .library = showing->kitchen->library,
                         .sums = report->sums, .recipe = report->week || !report->sums ? NULL : report->sums->at.recipe, .servings = range_exact(1),
                         .verdicts = report->verdicts };
    if (page.recipe && page.recipe->serves.high > 0)
        page.servings = page.recipe->serves;
    return page;
}

struct text page_place(const struct page *page, struct place place)
{
    struct sources *sources = &page->showing->sources;
    struct position position = sources_position(sources, place);
    return position.line ? sheet_print(page->sheet, "%s:%u", sources_path(sources, place.file), position.line) : text_of(sources_path(sources, place.file));
}

void page_print_place(struct page *page, struct place place)
{
    sheet_paragraph(page->sheet, MANNER_QUIET, page_place(page, place));
}

void page_section(struct page *page, struct text words)
{
    sheet_heading(page->sheet, 2, words);
}

void page_subsection(struct page *page, struct text words)
{
    sheet_heading(page->sheet, 3, words);
}

void page_item(struct page *page, bool *begun, struct text words)
{
    if (!*begun)
        sheet_list(page->sheet, false);
    *begun = true;
    sheet_item(page->sheet, words);
}

void page_end_list(struct page *page, bool begun)
{
    if (begun)
        sheet_list_end(page->sheet);
}

#define LEAST_SHOWN 1e-6                /* of any unit: what is less is none */

double page_rounded(const struct page *page, uint32_t nutrient, double amount, enum direction direction)
{
    const struct rounding *rounding = rules_rounding(page->kitchen->rules_owner, page->kitchen->rules, nutrient, false);
    double step = rounding ? rounding_step(page->kitchen->rules_owner, rounding, amount) : 0;
    if (step <= 0)                      /* no rule says: three figures */
        step = amount > 0 ? power_of_ten(amount_decade(amount) - 2) : 1;
    return amount_round(amount, step, direction);
}

struct range page_printed(const struct page *page, uint32_t nutrient, struct range amount)
{
    double best = page_rounded(page, nutrient, amount.best, ROUND_NEAREST);
    return range_of(amount_smaller(best, page_rounded(page, nutrient, amount.low, ROUND_DOWN)), best,
                    amount_larger(best, page_rounded(page, nutrient, amount.high, ROUND_UP)));
}

struct text page_unit(const struct page *page, uint32_t nutrient)
{
    const struct library *owner;
    const struct nutrient *found = library_nutrient_at(page->library, nutrient, &owner);
    return library_text(owner, found->unit);
}

struct text page_name(const struct page *page, uint32_t nutrient)
{
    const struct library *owner;
    const struct nutrient *found = library_nutrient_at(page->library, nutrient, &owner);
    return library_text(owner, found->name);
}

/* The ends of an amount as they are printed; false when all of it is one figure. */
static bool printed_ends(const struct page *page, uint32_t nutrient, struct range amount, struct range *printed)
{
    *printed = page_printed(page, nutrient, amount);
    return !range_is_exact(amount) && (printed->low != printed->best || printed->high != printed->best);
}

struct text page_number(const struct page *page, double number)
{
    char storage[40];
    print_number(storage, sizeof storage, number, 3);
    return sheet_print(page->sheet, "%s", storage);
}

static struct text print_figure(char *storage, size_t size, double figure)
{
    int length = print_number(storage, size, figure, 6);
    return (struct text){ storage, length > 0 ? (uint32_t)length : 0 };
}

static struct text page_figure(const struct page *page, double figure)
{
    char storage[40];
    print_figure(storage, sizeof storage, figure);
    return sheet_print(page->sheet, "%s", storage);
}

/* A 0 that stands for less than the first step that the rules print: a label's 0 beside salt among the ingredients is no 0. */
static bool is_trace(const struct page *page, uint32_t nutrient, const struct range *printed)
{
    return printed->best == 0 && amount_compare(printed->high, page_rounded(page, nutrient, LEAST_SHOWN, ROUND_UP)) <= 0;
}

static void close_words(const struct page *page, struct buffer *words, char *storage, size_t size)
{
    snprintf(storage, size, "%.*s", words->failed ? 0 : (int)words->length, words->failed ? "" : words->bytes);
    writer_needs(page->showing->writer, !words->failed);
    buffer_close(words);
}

void page_range(const struct page *page, char *storage, size_t size, uint32_t nutrient, struct range amount, bool complete)
{
    char low[32], best[32], high[32];
    struct range printed;
    struct buffer words;
    bool spread = printed_ends(page, nutrient, amount, &printed) && complete, trace = spread && is_trace(page, nutrient, &printed);
    struct text arguments[] = { print_figure(best, sizeof best, complete ? printed.best : printed.low), page_unit(page, nutrient),
                                print_figure(low, sizeof low, printed.low), print_figure(high, sizeof high, printed.high) };
    buffer_open(&words, page->kitchen->allocator);
    phrase_fill(&words, trace ? PHRASE_AMOUNT_TRACE : spread ? PHRASE_AMOUNT_RANGE : complete ? PHRASE_AMOUNT : PHRASE_AMOUNT_LEAST, arguments, 4);
    close_words(page, &words, storage, size);
}

struct text page_amount(const struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    char words[160];
    page_range(page, words, sizeof words, nutrient, amount, complete);
    return sheet_print(page->sheet, "%s", words);
}

void page_print_best(const struct page *page, char *storage, size_t size, uint32_t nutrient, struct range amount, bool complete)
{
    char figure[40];
    struct range printed;
    struct buffer words;
    bool spread = printed_ends(page, nutrient, amount, &printed), trace = complete && spread && is_trace(page, nutrient, &printed);
    struct text shown = print_figure(figure, sizeof figure, trace ? printed.high : complete ? printed.best : printed.low);
    struct text arguments[] = { shown, page_unit(page, nutrient), text_of(""), shown };
    buffer_open(&words, page->kitchen->allocator);
    phrase_fill(&words, trace ? PHRASE_AMOUNT_TRACE : complete ? PHRASE_AMOUNT : PHRASE_AMOUNT_LEAST, arguments, 4);
    close_words(page, &words, storage, size);
}

struct text page_best(const struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    char words[160];
    page_print_best(page, words, sizeof words, nutrient, amount, complete);
    return sheet_print(page->sheet, "%s", words);
}

struct text page_spread(const struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    struct range printed;
    if (!complete || !printed_ends(page, nutrient, amount, &printed))
        return text_of("");
    return sheet_say(page->sheet, PHRASE_ENDS, page_figure(page, printed.low), page_figure(page, printed.high));
}

struct sheet_cell page_cell(const struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    return cell_figure(page_amount(page, nutrient, amount, complete), complete ? amount.best : amount.low);
}

const char *page_per(const struct page *page)
{
    enum report_phrase phrase = page->recipe->is_day ? PHRASE_PER_DAY : page->recipe->serves.high > 0 ? PHRASE_PER_SERVING : PHRASE_PER_WHOLE;
    return phrase_text(phrase).bytes;
}

const char *page_per_head(const struct page *page)
{
    enum report_phrase phrase = page->recipe->is_day ? PHRASE_PER_DAY_HEAD : page->recipe->serves.high > 0 ? PHRASE_PER_SERVING_HEAD : PHRASE_PER_WHOLE_HEAD;
    return phrase_text(phrase).bytes;
}

void page_print_pieces(const struct page *page, struct sheet *sheet)
{
    if (page->recipe->pieces.length)
        sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, PHRASE_SERVING_IS_PIECE, page->recipe->pieces));
}

struct range page_per_serving(const struct page *page, struct range total)
{
    return range_divide(total, page->servings);
}
