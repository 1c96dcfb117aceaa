/* The report that people hand out: what one serving holds, where it comes from, what was saved, what is doubtful,
 * and the cautions. */
#include <math.h>
#include <string.h>

#include "output/page.h"

/* ---- head ----------------------------------------------------------------------------------------------------------- */

static void print_rule(struct writer *writer, uint32_t length)
{
    for (uint32_t i = 0; i < length; i++)
        writer_add(writer, text_of("="));
    writer_add(writer, text_of("\n"));
}

/* The ## comments before the recipe, without their signs. */
static void print_document(struct page *page)
{
    struct sources *sources = &page->showing->sources;
    struct span span = page->recipe->document;
    if (span.end == 0 || !sources_load(sources, page->recipe->file))
        return;
    struct text text = span_text(sources->text, span);
    for (uint32_t at = 0; at < text.length;) {
        const char *feed = memchr(text.bytes + at, '\n', text.length - at);
        uint32_t end = feed ? (uint32_t)(feed - text.bytes) : text.length;
        while (at < end && (text.bytes[at] == '#' || text.bytes[at] == ' ' || text.bytes[at] == '\t'))
            at++;
        writer_wrapped(page->writer, (struct text){ text.bytes + at, end - at });
        at = end + 1;
    }
}

/* Of how many lines the source says how samples differ: the ranges of the others hold none of it. */
static void print_variation(struct page *page)
{
    uint32_t foods = 0, spread = 0;
    if (!page->kitchen->variation)
        return;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct resolved *resolved = page->sums->lines[i].resolved;
        foods += resolved && resolved->food.food;
        spread += resolved && resolved->food.food && resolved->food.food->spread_count > 0;
    }
    writer_print(page->writer, "Ranges hold how samples of the foods vary, where that was published: of %u of %u foods here.\n", spread, foods);
}

/* Of how many amounts a spoon or cup is the measure: those that were weighed or counted are as wide as before. */
static void print_spoon_error(struct page *page)
{
    uint32_t by_volume = 0;
    if (page->kitchen->spoon_error <= 0)
        return;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct resolved *resolved = page->sums->lines[i].resolved;
        by_volume += resolved && resolved->flags & RESOLVED_BY_VOLUME;
    }
    writer_print(page->writer, "Ranges hold that spoons and cups err by %g%%: %u of %u amounts here.\n",
                 page->kitchen->spoon_error * 100, by_volume, page->sums->line_count);
}

static void print_head(struct page *page)
{
    const struct recipe *recipe = page->recipe;
    struct position position = sources_position(&page->showing->sources, (struct place){ recipe->file, recipe->title });
    bool estimated, known;
    struct range grams = recipe_grams(recipe, &page->sums->total, page->library, &estimated, &known);
    writer_visible(page->writer, recipe->name);
    writer_add(page->writer, text_of("\n"));
    print_rule(page->writer, text_columns(recipe->name));
    writer_visible(page->writer, text_of(sources_path(&page->showing->sources, recipe->file)));
    writer_print(page->writer, ":%u\n", position.line);
    print_document(page);
    if (recipe->is_day)
        page_print_eater(page);
    else if (recipe->serves.high <= 0)
        writer_print(page->writer, "The recipe does not say how many it serves: figures are for all of it.\n");
    else if (range_is_exact(recipe->serves))
        writer_print(page->writer, "Serves %g", recipe->serves.best);
    else
        writer_print(page->writer, "Serves %g to %g", recipe->serves.low, recipe->serves.high);
    if (recipe->serves.high > 0 && known && grams.best > 0) {
        struct range serving = recipe->yields->serving_grams.high > 0 ? recipe->yields->serving_grams : range_divide(grams, recipe->serves);
        writer_print(page->writer, ", about %.0f g each%s", serving.best,
                     estimated ? " (the sum of what goes in, an estimate)" : "");
    }
    writer_add(page->writer, text_of(recipe->serves.high > 0 ? "\n" : ""));
    print_variation(page);
    print_spoon_error(page);
    writer_add(page->writer, text_of("\n"));
}

/* ---- the traced nutrient ---------------------------------------------------------------------------------------------- */

static void print_percent(struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    const struct library *owner = page->kitchen->rules_owner;
    const struct daily_value *value = rules_daily_value(owner, page->kitchen->rules, nutrient);
    const struct rounding *rounding = rules_rounding(owner, page->kitchen->rules, nutrient, true);
    if (!value || page->is_for_somebody)
        return;
    double share = (complete ? amount.best : amount.low) / value->amount * 100;
    if (complete)
        share = rounding ? rounding_print(owner, rounding, share) : share;
    else
        share = floor(share + 1e-9);                /* `at least` never says more than is known */
    struct text unit = page_unit(page, nutrient);
    writer_print(page->writer, "  %s%.0f%% of the daily value of %.6g %.*s\n", complete ? "" : "at least ", share,
                 value->amount, (int)unit.length, unit.bytes);
}

/* So much of the nutrient as spoons of the food that the rules name. */
static void print_equivalent(struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    const struct kitchen *kitchen = page->kitchen;
    for (uint32_t i = 0; kitchen->rules && i < kitchen->rules->equivalent_count; i++) {
        char key[KEY_BYTES];
        const struct equivalent *equivalent = &kitchen->rules_owner->equivalents[kitchen->rules->first_equivalent + i];
        struct text name = library_text(kitchen->rules_owner, equivalent->food);
        struct text unit = library_text(kitchen->rules_owner, equivalent->unit);
        struct food_at food = library_food(page->library, (struct text){ key, name_key_of(name, false, key) });
        const struct unit *spoon = library_unit(page->library, (struct text){ key, name_key_of(unit, false, key) }, NULL);
        if (equivalent->nutrient != nutrient || !food.food || !spoon)
            continue;
        double per_gram = food.library->values[food.food->values + nutrient].best / 100, grams = 0;
        for (uint32_t j = 0; j < food.food->portion_count; j++) {
            const struct portion *portion = &food.library->portions[food.food->first_portion + j];
            if (portion->volume_ml > 0 && amount_compare(portion->volume_ml, spoon->factor.best) == 0)
                grams = portion->grams.best;
        }
        if (per_gram > 0 && grams > 0)
            writer_print(page->writer, "  %s as %.2f %.*s of %.*s holds\n", complete ? "as much" : "at least as much",
                         (complete ? amount.best : amount.low) / (per_gram * grams), (int)unit.length, unit.bytes,
                         (int)name.length, name.bytes);
    }
}

static uint32_t unknown_lines(const struct page *page, uint32_t column)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < page->sums->line_count; i++)
        count += (uint32_t)(page->sums->lines[i].incomplete >> column & 1);
    return count;
}

static void print_figure(struct page *page, uint32_t nutrient)
{
    char amount[160];
    struct text name = page_name(page, nutrient);
    bool complete = amounts_complete(&page->sums->total, nutrient);
    struct range serving = page_per_serving(page, page->sums->total.column[nutrient]);
    page_range(page, amount, sizeof amount, nutrient, serving, complete);
    writer_print(page->writer, "%.*s%s: %s", (int)name.length, name.bytes,
                 page_per(page), amount);
    if (!complete) {
        uint32_t lines = unknown_lines(page, nutrient);
        writer_print(page->writer, " (%u line%s unknown)", lines, lines == 1 ? "" : "s");
    }
    writer_add(page->writer, text_of("\n"));
    print_percent(page, nutrient, serving, complete);
    print_equivalent(page, nutrient, serving, complete);
}

static const char *const origin_words[] = { "in the food by nature", "put in by makers", "added by the cook",
                                            "cannot be told apart" };

static void print_origins(struct page *page)
{
    char amount[160];
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        uint32_t column = page->library->origin_column + i;
        bool complete = amounts_complete(&page->sums->total, column);
        struct range serving = page_per_serving(page, page->sums->total.column[column]);
        if (complete && serving.high <= 0)
            continue;
        page_range(page, amount, sizeof amount, page->library->traced, serving, complete);
        writer_print(page->writer, "    %-22s %s\n", origin_words[i], amount);
    }
}

/* ---- other nutrients, ratio ---------------------------------------------------------------------------------------------- */

static void print_nutrients(struct page *page, uint32_t shown_apart)
{
    writer_print(page->writer, "\nOther nutrients%s\n", page_per_head(page));
    for (uint32_t i = 0; i < page->library->nutrient_total; i++) {
        char amount[160];
        struct text name = page_name(page, i);
        bool complete = amounts_complete(&page->sums->total, i);
        if (i == page->library->traced || i == shown_apart)
            continue;
        page_range(page, amount, sizeof amount, i, page_per_serving(page, page->sums->total.column[i]), complete);
        writer_print(page->writer, "  %-20.*s %s", (int)name.length, name.bytes, amount);
        if (!complete) {
            uint32_t lines = unknown_lines(page, i);
            writer_print(page->writer, " (%u line%s unknown)", lines, lines == 1 ? "" : "s");
        }
        writer_add(page->writer, text_of("\n"));
    }
}

static void print_range_of_ratio(struct page *page, struct range ratio)
{
    char best[48], ends[100], same[100];
    snprintf(best, sizeof best, "%.2f", ratio.best);
    snprintf(same, sizeof same, "%s to %s", best, best);
    snprintf(ends, sizeof ends, "%.2f to %.2f", ratio.low, ratio.high);
    if (strcmp(ends, same) == 0)
        writer_print(page->writer, "%s\n", best);
    else
        writer_print(page->writer, "%s (%s)\n", best, ends);
}

/* The ratio to the nutrient that the same caution group knows: sodium to potassium. */
static void print_ratio(struct page *page, uint32_t over, uint32_t under)
{
    const struct amounts *total = &page->sums->total;
    struct range ratio = ratio_of_lines(page->sums->lines, page->sums->line_count, page->library, over, under,
                                        amounts_complete(total, over), amounts_complete(total, under));
    struct text above = page_name(page, over), below = page_name(page, under);
    writer_print(page->writer, "%.*s to %.*s, by mass: ", (int)above.length, above.bytes, (int)below.length, below.bytes);
    if (!amounts_complete(total, over) || !amounts_complete(total, under) || !isfinite(ratio.high))
        writer_print(page->writer, "unknown, since one of them is\n");
    else
        print_range_of_ratio(page, ratio);
}

/* ---- limits, findings, sources --------------------------------------------------------------------------------------------- */

void page_print_limit(struct page *page, const struct verdict *verdict)
{
    char value[200], limit[200], subject[200];
    static const char *const outcomes[] = { "kept", "BROKEN", "in doubt" };
    const struct bound *bound = verdict->bound;
    double against = (bound->has_most ? bound->most : bound->least) / bound->divisor;
    const char *outcome = verdict->outcome == OUTCOME_BROKEN && bound->is_aim ? "missed" : outcomes[verdict->outcome];
    const char *side = bound->has_most && bound->has_least ? "between" : bound->has_most ? bound->strict ? "under" : "at most" : bound->strict ? "over" : "at least";
    writer_print(page->writer, "  %-8s %s: ", outcome, bound->is_aim ? "aim" : "limit");
    writer_visible(page->writer, verdict_subject(page->library, verdict, subject, sizeof subject));
    writer_print(page->writer, " %s ", side);
    if (bound->has_most && bound->has_least) {
        writer_visible(page->writer, bound_limit(page->library, bound, bound->least / bound->divisor, limit, sizeof limit));
        writer_print(page->writer, " and ");
    }
    writer_visible(page->writer, bound_limit(page->library, bound, against, limit, sizeof limit));
    struct text from = verdict->policy ? verdict->policy->name
                     : verdict->published ? library_text(verdict->published->owner, verdict->published->intake->title)
                     : text_of(bound->by_clinician ? "set by clinician" : "");
    if (from.length) {
        writer_add(page->writer, text_of(" ("));
        writer_visible(page->writer, from);
        writer_add(page->writer, text_of(verdict->policy && bound->by_clinician ? ", set by clinician)" : ")"));
    }
    writer_add(page->writer, text_of("; it is "));
    writer_add(page->writer, verdict_value(page->library, verdict, against, value, sizeof value));
    writer_add(page->writer, text_of("\n"));
}

static void print_limits(struct page *page, const struct verdicts *verdicts)
{
    if (verdicts->count)
        writer_print(page->writer, "\nLimits and aims\n");
    for (uint32_t i = 0; i < verdicts->count; i++)
        page_print_limit(page, &verdicts->at[i]);
}

static void print_findings(struct page *page, struct finding *const *findings, uint32_t count)
{
    if (count)
        writer_print(page->writer, "\nFindings\n");
    for (uint32_t i = 0; i < count; i++)
        people_finding(page->showing, findings[i]);
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

static void print_sources(struct page *page)
{
    writer_print(page->writer, "\nSources\n");
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct resolved *resolved = page->sums->lines[i].resolved;
        if (!resolved || resolved->subject != SUBJECT_FOOD || !resolved->food.food || told_before(page, i))
            continue;
        struct text name = library_text(resolved->food.library, resolved->food.food->name);
        struct text source = library_text(resolved->food.library, resolved->food.food->source);
        writer_print(page->writer, "  ");
        writer_visible(page->writer, name);
        writer_print(page->writer, ": ");
        writer_visible(page->writer, source.length ? source : text_of("no source given"));
        writer_print(page->writer, "\n");
    }
    if (page->kitchen->rules) {
        struct text title = library_text(page->kitchen->rules_owner, page->kitchen->rules->title);
        writer_print(page->writer, "  rules: %.*s%s\n", (int)title.length, title.bytes,
                     page->kitchen->rules_said ? "" : " (the kitchen names none, so these were taken)");
        page_print_memory(page);
    }
}

void text_recipe(struct showing *showing, const struct report *report)
{
    struct page page = page_of(showing, showing->writer, report);
    const struct rules *rules = page.kitchen->rules;
    uint32_t over = rules ? rules->compare_over : NONE_INDEX, under = rules ? rules->compare_under : NONE_INDEX;
    page.is_for_somebody = report->verdicts->published.count > 0;
    print_head(&page);
    if (page.library->traced != NONE_INDEX) {
        print_figure(&page, page.library->traced);
        print_origins(&page);
        page_print_meals(&page);
        page_print_lines(&page);
        page_print_servings(&page);
        page_print_saved(&page);
        page_print_baths(&page);
        page_print_estimates(&page);
        writer_add(page.writer, text_of("\n"));
    }
    if (over != NONE_INDEX && under != NONE_INDEX) {
        print_figure(&page, under);
        print_ratio(&page, over, under);
        page_print_day_ratios(&page, over, under);
    }
    print_nutrients(&page, under);
    print_limits(&page, report->verdicts);
    page_print_published(&page, report->verdicts);
    page_print_claims(&page);
    print_findings(&page, report->findings, report->findings_count);
    page_print_packets(&page);
    print_sources(&page);
    page_print_cautions(&page, report->verdicts);
}
