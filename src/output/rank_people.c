/* Which foods and lines bring most, for people. */
#include "output/class.h"
#include "output/rank.h"

struct rank_teller {
    struct ranking *ranking;
    struct sheet *sheet;
    bool is_day;
};

static struct text say(enum report_phrase phrase)
{
    return phrase_text(phrase);
}

static struct text number(struct rank_teller *teller, uint32_t count)
{
    return sheet_print(teller->sheet, "%u", count);
}

/* Nothing of nothing is no share. */
static struct sheet_cell share_cell(struct rank_teller *teller, double part, double whole)
{
    double share = whole > 0 ? part / whole * 100 : 0;
    return cell_figure(sheet_print(teller->sheet, "%.0f%%", share), share / 100);
}

/* Of what nobody knows no share is told: it is no zero. */
static struct sheet_cell bar_cell(struct rank_teller *teller, double part, double whole, bool unknown)
{
    if (unknown && part <= 0)
        return cell_words(say(PHRASE_UNKNOWN));
    struct sheet_cell cell = share_cell(teller, part, whole);
    cell.bar = cell.value;
    return cell;
}

static void tell_head(struct rank_teller *teller)
{
    struct ranking *ranking = teller->ranking;
    struct sheet *sheet = teller->sheet;
    bool complete = ranking_is_complete(ranking);
    struct text total = told_amount(sheet, ranking->whole.total, complete, ranking->unit);
    struct text serving = told_amount(sheet, ranking->whole.serving, complete, ranking->unit), count = number(teller, ranking->recipes);
    struct text name = ranking->nutrient_name;
    sheet_begin(sheet, ranking->name.length ? sheet_say(sheet, PHRASE_RANK_TITLE, name, ranking->name) : sheet_say(sheet, PHRASE_RANK_TITLE_PLAIN, name));
    if (teller->is_day)
        sheet_paragraph(sheet, MANNER_LEAD, sheet_say(sheet, PHRASE_RANK_DAY, name, total));
    else
        sheet_paragraph(sheet, MANNER_LEAD, sheet_say(sheet, ranking->recipes == 1 ? PHRASE_RANK_RECIPE : PHRASE_RANK_RECIPES, name, total, serving, count));
    if (ranking->inside)
        sheet_paragraph(sheet, MANNER_PLAIN, ranking->inside == 1 ? say(PHRASE_RANK_INSIDE_ONE)
                                                                  : sheet_say(sheet, PHRASE_RANK_INSIDE, number(teller, ranking->inside)));
    if (ranking->whole_pots)
        sheet_paragraph(sheet, MANNER_DOUBT, ranking->whole_pots == 1 ? say(PHRASE_RANK_WHOLE_POT)
                                                                      : sheet_say(sheet, PHRASE_RANK_WHOLE_POTS, number(teller, ranking->whole_pots)));
    if (ranking->left_out)
        sheet_paragraph(sheet, MANNER_DOUBT, sheet_say(sheet, PHRASE_RANK_LEFT_OUT, number(teller, ranking->left_out)));
    if (ranking->unknown_count)
        sheet_paragraph(sheet, MANNER_DOUBT, ranking->unknown_count == 1 ? sheet_say(sheet, PHRASE_RANK_UNKNOWN_ONE, name)
                        : sheet_say(sheet, PHRASE_RANK_UNKNOWN, name, number(teller, ranking->unknown_count)));
}

static void tell_more(struct rank_teller *teller, enum report_phrase phrase, uint32_t shown, uint32_t all)
{
    if (all == shown + 1)
        sheet_paragraph(teller->sheet, MANNER_PLAIN, say(PHRASE_RANK_MORE_ONE));
    else if (all > shown)
        sheet_paragraph(teller->sheet, MANNER_PLAIN, sheet_say(teller->sheet, phrase, number(teller, all - shown)));
}

/* Whether limits of the nutrient are kept, broken ones first. */
static void tell_limits(struct rank_teller *teller)
{
    struct ranking *ranking = teller->ranking;
    struct sheet *sheet = teller->sheet;
    const struct sheet_column columns[] = { { say(teller->is_day ? PHRASE_COLUMN_DAY : PHRASE_RANK_RECIPE_NAME), false }, { say(PHRASE_COLUMN_LIMIT), false },
                                            { say(PHRASE_COLUMN_OUTCOME), false }, { say(PHRASE_COLUMN_VALUE), false } };
    uint32_t shown = rank_limits_shown(ranking), open = rank_limits_open(ranking), kept = ranking->limits_seen[STANDING_KEPT];
    if (shown)
        sheet_table(sheet, say(PHRASE_LIMITS), columns, COUNT_OF(columns));
    for (uint32_t i = 0; i < shown; i++) {
        const struct rank_limit *limit = &ranking->limits[i];
        struct sheet_cell cells[] = { cell_words(limit->recipe), cell_words(limit->limit), cell_words(limit->is),
                                      cell_figure(limit->value, limit->complete ? limit->holds.best : limit->holds.low) };
        cells[2].tone = limit->tone;
        sheet_row(sheet, cells);
    }
    if (shown)
        sheet_table_end(sheet);
    tell_more(teller, PHRASE_RANK_MORE_LIMITS, shown, open > shown ? open : shown);
    if (kept && ranking->recipes > 1)
        sheet_paragraph(sheet, MANNER_PLAIN, kept == 1 ? sheet_say(sheet, PHRASE_RANK_LIMITS_KEPT_ONE, ranking->nutrient_name)
                                                       : sheet_say(sheet, PHRASE_RANK_LIMITS_KEPT, ranking->nutrient_name, number(teller, kept)));
}

/* Foods by what they bring in all. */
static void tell_foods(struct rank_teller *teller)
{
    struct ranking *ranking = teller->ranking;
    struct sheet *sheet = teller->sheet;
    const struct sheet_column columns[] = {
        { say(PHRASE_RANK_FOOD), false }, { say(teller->is_day ? PHRASE_RANK_IN_DAY : PHRASE_RANK_IN_ALL), true }, { say(PHRASE_RANK_SHARE), true },
        { say(PHRASE_RANK_TOGETHER), true }, { say(PHRASE_RANK_LINES), true }, { say(PHRASE_RANK_SERVINGS), true },
    };
    uint32_t shown = rank_shown(ranking->food_count, ranking->limit);
    double together = 0, whole = ranking->whole.total.best;
    sheet_table(sheet, say(PHRASE_RANK_FOODS), columns, teller->is_day ? 5 : 6);
    for (uint32_t i = 0; i < shown; i++) {
        const struct rank_food *food = &ranking->foods[i];
        together += food->amount.total.best;
        struct sheet_cell cells[] = {
            cell_words(food->name), told_cell(sheet, food->amount.total, !food->unknown, ranking->unit), bar_cell(teller, food->amount.total.best, whole, food->unknown),
            share_cell(teller, together, whole), cell_figure(number(teller, food->lines), food->lines),
            told_cell(sheet, food->amount.serving, !food->unknown, ranking->unit),
        };
        sheet_row(sheet, cells);
    }
    sheet_table_end(sheet);
    tell_more(teller, PHRASE_RANK_MORE_FOODS, shown, ranking->food_count);
}

/* Lines by what they bring to a serving of their dish. */
static void tell_lines(struct rank_teller *teller)
{
    struct ranking *ranking = teller->ranking;
    struct sheet *sheet = teller->sheet;
    const struct sheet_column columns[] = {
        { say(PHRASE_RANK_LINE), false }, { say(teller->is_day ? PHRASE_RANK_IN_DAY : PHRASE_RANK_PER_SERVING), true }, { say(PHRASE_RANK_SHARE), true },
        { say(PHRASE_RANK_TOGETHER), true }, { say(teller->is_day ? PHRASE_RANK_MEAL : PHRASE_RANK_RECIPE_NAME), false },
        { say(PHRASE_RANK_IN_POT), true },
    };
    uint32_t shown = rank_shown(ranking->line_count, ranking->limit);
    double together = 0, whole = ranking->whole.serving.best;
    sheet_table(sheet, say(PHRASE_RANK_LINES_TITLE), columns, teller->is_day ? 5 : 6);
    for (uint32_t i = 0; i < shown; i++) {
        const struct rank_line *line = &ranking->lines[i];
        together += line->amount.serving.best;
        struct sheet_cell cells[] = {
            cell_words(line->text), told_cell(sheet, line->amount.serving, !line->unknown, ranking->unit), bar_cell(teller, line->amount.serving.best, whole, line->unknown),
            share_cell(teller, together, whole), cell_words(teller->is_day ? line->part : line->recipe),
            told_cell(sheet, line->amount.total, !line->unknown, ranking->unit),
        };
        sheet_row(sheet, cells);
    }
    sheet_table_end(sheet);
    tell_more(teller, PHRASE_RANK_MORE_LINES, shown, ranking->lines_seen);
}

static void tell_unknown(struct rank_teller *teller)
{
    struct ranking *ranking = teller->ranking;
    struct sheet *sheet = teller->sheet;
    const struct sheet_column columns[] = { { say(PHRASE_RANK_LINE), false }, { say(PHRASE_RANK_RECIPE_NAME), false }, { say(PHRASE_RANK_PLACE), false } };
    if (ranking->unknown_count == 0)
        return;
    sheet_table(sheet, say(PHRASE_RANK_UNKNOWN_TITLE), columns, COUNT_OF(columns));
    for (uint32_t i = 0; i < ranking->unknown_kept; i++) {
        const struct rank_line *line = &ranking->unknown[i];
        struct sheet_cell cells[] = { cell_words(line->text), cell_words(line->recipe),
                                      cell_words(sheet_print(sheet, "%.*s:%u", (int)line->file.length, line->file.bytes, line->line)) };
        sheet_row(sheet, cells);
    }
    sheet_table_end(sheet);
    tell_more(teller, PHRASE_RANK_MORE_LINES, ranking->unknown_kept, ranking->unknown_count);
}

enum status rank_people(struct ranking *ranking, struct telling *telling)
{
    struct sheet sheet;
    struct rank_teller teller = { ranking, &sheet, ranking->wanted->day != NULL };
    sheet_open(&sheet, sheet_look(telling->form), &telling->writer, telling->allocator);
    tell_head(&teller);
    tell_limits(&teller);
    tell_foods(&teller);
    tell_lines(&teller);
    tell_unknown(&teller);
    told_cautions_tell(&ranking->cautions, &sheet);
    sheet_end(&sheet);
    bool failed = sheet.arena.failed;
    sheet_close(&sheet);
    return failed ? STATUS_NO_MEMORY : STATUS_OK;
}
