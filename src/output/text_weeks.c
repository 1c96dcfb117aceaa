/* A week in the text report: its days side by side, their average, and the highest of them. */
#include "output/page.h"

#define NAME_COLUMNS 32

static void print_names(struct page *page, struct week_at at)
{
    struct position position = sources_position(&page->showing->sources, (struct place){ at.week->file, at.week->title });
    writer_visible(page->writer, at.week->name);
    writer_add(page->writer, text_of("\n"));
    for (uint32_t i = 0; i < text_columns(at.week->name); i++)
        writer_add(page->writer, text_of("="));
    writer_add(page->writer, text_of("\n"));
    writer_visible(page->writer, text_of(sources_path(&page->showing->sources, at.week->file)));
    writer_print(page->writer, ":%u\n", position.line);
}

static void print_amount_of(struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    char words[160];
    struct text name = page_name(page, nutrient);
    page_range(page, words, sizeof words, nutrient, amount, complete);
    writer_print(page->writer, "  %.*s %s", (int)name.length, name.bytes, words);
}

static enum status print_days(struct page *page, struct week_at at, struct sums *sums, uint32_t under)
{
    writer_print(page->writer, "\nDays\n");
    for (uint32_t i = 0; i < at.week->day_count; i++) {
        struct recipe_at day = week_day(page->kitchen, at, i);
        uint32_t traced = page->library->traced;
        writer_add(page->writer, text_of("  "));
        writer_cut(page->writer, at.gathering->week_days[at.week->first_day + i].name, NAME_COLUMNS);
        if (!day.recipe) {
            writer_print(page->writer, "  unknown: no such day\n");
            continue;
        }
        enum status status = sums_compute(sums, day);
        if (status != STATUS_OK)
            return status;
        print_amount_of(page, traced, sums->total.column[traced], amounts_complete(&sums->total, traced));
        if (under != NONE_INDEX)
            print_amount_of(page, under, sums->total.column[under], amounts_complete(&sums->total, under));
        writer_add(page->writer, text_of("\n"));
    }
    return STATUS_OK;
}

/* One incomplete day leaves the average open: what is known is that of the others, and said to be of them alone. */
static void print_average(struct page *page, const struct week_sum *week, uint32_t nutrient)
{
    uint32_t complete = week->complete[nutrient];
    bool all = complete == week->days && week->days > 0;
    writer_print(page->writer, "\nAverage of %u day%s:", week->days, week->days == 1 ? "" : "s");
    print_amount_of(page, nutrient, week->average.column[nutrient], all);
    writer_add(page->writer, text_of("\n"));
    if (!all && complete) {
        writer_print(page->writer, "  of the %u complete day%s alone:", complete, complete == 1 ? "" : "s");
        print_amount_of(page, nutrient, week->of_complete[nutrient], true);
        writer_add(page->writer, text_of("\n"));
    }
    if (!week->highest[nutrient].recipe)
        return;
    writer_print(page->writer, "  highest: ");
    writer_visible(page->writer, week->highest[nutrient].recipe->name);
    writer_add(page->writer, text_of(","));
    print_amount_of(page, nutrient, week->highest_value[nutrient], week->highest_complete[nutrient]);
    writer_print(page->writer, "%s\n", all ? "" : "; a day with unknown lines may hold more");
}

static void print_others(struct page *page, const struct week_sum *week, uint32_t under)
{
    writer_print(page->writer, "\nOther nutrients, average of %u day%s\n", week->days, week->days == 1 ? "" : "s");
    for (uint32_t i = 0; i < page->library->nutrient_total; i++) {
        char amount[160];
        struct text name = page_name(page, i);
        bool all = week->complete[i] == week->days && week->days > 0;
        if (i == page->library->traced || i == under)
            continue;
        page_range(page, amount, sizeof amount, i, week->average.column[i], all);
        writer_print(page->writer, "  %-20.*s %s", (int)name.length, name.bytes, amount);
        writer_print(page->writer, all ? "\n" : " (%u of %u days complete)\n", week->complete[i], week->days);
    }
    writer_add(page->writer, text_of("\n"));
}

/* Each bound by the average, and the day that goes furthest. */
static enum status print_limits(struct page *page, struct week_at at, const struct week_sum *week, struct sums *sums)
{
    struct week_verdicts verdicts = { 0 };
    enum status status = week_judge(page->kitchen, at, sums, week, &verdicts, NULL);
    if (verdicts.averages.count)
        writer_print(page->writer, "Limits and aims\n");
    for (uint32_t i = 0; i < verdicts.averages.count; i++) {
        char value[200];
        const struct week_furthest *furthest = &verdicts.days[i];
        page_print_limit(page, &verdicts.averages.at[i]);
        if (!furthest->day.recipe)
            continue;
        writer_print(page->writer, "           furthest: ");
        writer_visible(page->writer, furthest->day.recipe->name);
        writer_add(page->writer, text_of(", "));
        writer_add(page->writer, verdict_value(page->library, &furthest->verdict, bound_against(&furthest->verdict), value, sizeof value));
        writer_add(page->writer, text_of("\n"));
    }
    writer_add(page->writer, text_of(verdicts.averages.count ? "\n" : ""));
    week_verdicts_close(&verdicts, page->kitchen->allocator);
    return status;
}

/* Cautions stand where figures stand. */
static enum status print_cautions(struct page *page, struct week_at at, struct sums *sums)
{
    struct week_cautions said;
    enum status status = week_find_cautions(page->kitchen, at, sums, &said);
    if (said.count)
        writer_print(page->writer, "Cautions\n");
    for (uint32_t i = 0; i < said.count; i++) {
        writer_wrapped(page->writer, said.at[i].words);
        page_print_because(page, text_of(said.at[i].because));
    }
    writer_add(page->writer, text_of(said.count ? "\n" : ""));
    week_cautions_close(&said, page->kitchen->allocator);
    return status;
}

enum status text_week(struct showing *showing, struct week_at at, const struct week_sum *week, struct sums *sums)
{
    struct page page = { .showing = showing, .writer = showing->writer, .kitchen = showing->kitchen,
                         .library = showing->kitchen->library, .sums = sums, .servings = range_exact(1) };
    const struct rules *rules = page.kitchen->rules;
    uint32_t under = rules ? rules->compare_under : NONE_INDEX;
    print_names(&page, at);
    enum status status = print_days(&page, at, sums, under);
    if (status != STATUS_OK)
        return status;
    if (page.library->traced != NONE_INDEX)
        print_average(&page, week, page.library->traced);
    if (under != NONE_INDEX)
        print_average(&page, week, under);
    print_others(&page, week, under);
    status = print_limits(&page, at, week, sums);
    return status == STATUS_OK ? print_cautions(&page, at, sums) : status;
}
