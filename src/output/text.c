/* The report that people hand out: what one serving holds, where it comes from, what was saved, what is doubtful,
 * and the cautions. Figures are rounded once, here, by the rule pack: best values to the nearest printed figure,
 * bounds outward. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "output/output.h"

struct page {
    struct showing *showing;
    struct writer *writer;
    const struct kitchen *kitchen;
    const struct library *library;
    const struct sums *sums;
    const struct recipe *recipe;
    struct range servings;              /* 1 when the recipe does not say */
};

/* ---- amounts for people ------------------------------------------------------------------------------------------ */

enum direction { ROUND_DOWN, ROUND_NEAREST, ROUND_UP };

static double step_at(const struct page *page, const struct rounding *rounding, double amount)
{
    const struct band *bands = &page->kitchen->rules_owner->bands[rounding->first_band];
    for (uint32_t i = 0; i < rounding->band_count; i++) {
        if (amount <= bands[i].up_to)
            return bands[i].step;
    }
    return 0;
}

static double rounded(const struct page *page, uint32_t nutrient, double amount, enum direction direction)
{
    const struct rounding *rounding = rules_rounding(page->kitchen->rules_owner, page->kitchen->rules, nutrient, false);
    double step = rounding ? step_at(page, rounding, amount) : 0;
    if (step <= 0)                      /* no rule says: three figures */
        step = amount > 0 ? power_of_ten(amount_decade(amount) - 2) : 1;
    if (direction == ROUND_NEAREST)
        return floor(amount / step + 0.5 + 1e-9) * step;
    double steps = amount / step, whole = floor(steps + 0.5);
    if (fabs(steps - whole) < 1e-9)
        return whole * step;
    return (direction == ROUND_DOWN ? floor(steps) : ceil(steps)) * step;
}

static struct text unit_of(const struct page *page, uint32_t nutrient)
{
    const struct library *owner;
    const struct nutrient *found = library_nutrient_at(page->library, nutrient, &owner);
    return library_text(owner, found->unit);
}

static struct text name_of(const struct page *page, uint32_t nutrient)
{
    const struct library *owner;
    const struct nutrient *found = library_nutrient_at(page->library, nutrient, &owner);
    return library_text(owner, found->name);
}

/* `410 mg (380 to 450 mg)`, or `at least 380 mg`. */
static void print_range(const struct page *page, char *storage, size_t size, uint32_t nutrient, struct range amount,
                        bool complete)
{
    struct text unit = unit_of(page, nutrient);
    double low = rounded(page, nutrient, amount.low, ROUND_DOWN), high = rounded(page, nutrient, amount.high, ROUND_UP);
    double best = rounded(page, nutrient, amount.best, ROUND_NEAREST);
    if (!complete)
        snprintf(storage, size, "at least %.6g %.*s", low, (int)unit.length, unit.bytes);
    else if (range_is_exact(amount) || (low == best && high == best))
        snprintf(storage, size, "%.6g %.*s", best, (int)unit.length, unit.bytes);
    else
        snprintf(storage, size, "%.6g %.*s (%.6g to %.6g)", best, (int)unit.length, unit.bytes, low, high);
}

static struct range per_serving(const struct page *page, struct range total)
{
    return range_divide(total, page->servings);
}

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
    if (recipe->serves.high <= 0)
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
    writer_add(page->writer, text_of("\n"));
}

/* ---- the traced nutrient ---------------------------------------------------------------------------------------------- */

static void print_percent(struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    const struct library *owner = page->kitchen->rules_owner;
    const struct daily_value *value = rules_daily_value(owner, page->kitchen->rules, nutrient);
    const struct rounding *rounding = rules_rounding(owner, page->kitchen->rules, nutrient, true);
    if (!value)
        return;
    double share = (complete ? amount.best : amount.low) / value->amount * 100;
    if (complete)
        share = rounding ? rounding_print(owner, rounding, share) : share;
    else
        share = floor(share + 1e-9);                /* `at least` never says more than is known */
    struct text unit = unit_of(page, nutrient);
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
        count += page->sums->lines[i].incomplete >> column & 1;
    return count;
}

static void print_figure(struct page *page, uint32_t nutrient)
{
    char amount[160];
    struct text name = name_of(page, nutrient);
    bool complete = amounts_complete(&page->sums->total, nutrient);
    struct range serving = per_serving(page, page->sums->total.column[nutrient]);
    print_range(page, amount, sizeof amount, nutrient, serving, complete);
    writer_print(page->writer, "%.*s%s: %s", (int)name.length, name.bytes,
                 page->recipe->serves.high > 0 ? " per serving" : "", amount);
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
        struct range serving = per_serving(page, page->sums->total.column[column]);
        if (complete && serving.high <= 0)
            continue;
        print_range(page, amount, sizeof amount, page->library->traced, serving, complete);
        writer_print(page->writer, "    %-22s %s\n", origin_words[i], amount);
    }
}

/* ---- lines ------------------------------------------------------------------------------------------------------------- */

static struct text line_text_of(const struct page *page, const struct line *line)
{
    struct sources *sources = &page->showing->sources;
    struct span span = { line->start, line->start };
    if (line->tail != NONE_INDEX)
        span.end = line->tail_start + page->sums->at.gathering->tails[line->tail].text.length;
    if (!sources_load(sources, page->recipe->file) || line->tail == NONE_INDEX)
        return text_of("a line that a finding speaks of");
    return span_text(sources->text, span);
}

static const char *line_origin(const struct page *page, const struct line_amount *amount)
{
    static const char *const words[] = { "nature", "maker", "cook", "not separable" };
    double total = line_column(amount, page->library, page->library->traced).best;
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        double part = line_column(amount, page->library, page->library->origin_column + i).best;
        if (total > 0 && part > total * 0.9)
            return words[i];
    }
    return total > 0 ? "mixed" : "";
}

#define LINE_COLUMNS 44
#define BAR_COLUMNS 20

static void print_line(struct page *page, const struct line_amount *amount, double total)
{
    uint32_t traced = page->library->traced;
    struct range serving = per_serving(page, line_column(amount, page->library, traced));
    bool known = !(amount->incomplete >> traced & 1), whole = amounts_complete(&page->sums->total, traced);
    double share = total > 0 ? line_column(amount, page->library, traced).best / total : 0;
    struct text unit = unit_of(page, traced);
    uint32_t bar = (uint32_t)(share * BAR_COLUMNS + 0.5);
    writer_add(page->writer, text_of("  "));
    writer_cut(page->writer, line_text_of(page, amount->line), LINE_COLUMNS);
    if (!known)
        writer_print(page->writer, " %9s", "unknown");
    else
        writer_print(page->writer, " %6.6g %.*s", rounded(page, traced, serving.best, ROUND_NEAREST), (int)unit.length, unit.bytes);
    if (known && whole)
        writer_print(page->writer, " %3.0f%% ", share * 100);
    else
        writer_add(page->writer, text_of("      "));
    bar = whole ? bar : 0;              /* no share of a sum that nobody knows */
    for (uint32_t i = 0; i < bar && i < BAR_COLUMNS; i++)
        writer_add(page->writer, text_of("#"));
    const char *origin = line_origin(page, amount);
    writer_print(page->writer, "%*s%s\n", *origin ? (int)(BAR_COLUMNS - (bar < BAR_COLUMNS ? bar : BAR_COLUMNS)) + 1 : 0, "", origin);
}

struct ranked_line {
    double value;
    uint32_t number;
};

/* Largest first; equal values in the order of the recipe. */
static int compare_ranked(const void *left, const void *right)
{
    const struct ranked_line *a = left, *b = right;
    if (a->value != b->value)
        return a->value > b->value ? -1 : 1;
    return a->number < b->number ? -1 : 1;
}

static void print_lines(struct page *page)
{
    const struct sums *sums = page->sums;
    struct text name = name_of(page, page->library->traced);
    struct allocator allocator = page->kitchen->allocator;
    if (sums->line_count == 0)
        return;
    struct ranked_line *ranked = allocator.resize(allocator.context, NULL, sums->line_count * sizeof *ranked);
    writer_needs(page->writer, ranked != NULL);
    if (!ranked)
        return;
    for (uint32_t i = 0; i < sums->line_count; i++)
        ranked[i] = (struct ranked_line){ line_column(&sums->lines[i], page->library, page->library->traced).best, i };
    qsort(ranked, sums->line_count, sizeof *ranked, compare_ranked);
    writer_print(page->writer, "\nWhere the %.*s comes from%s\n", (int)name.length, name.bytes,
                 page->recipe->serves.high > 0 ? ", per serving" : "");
    for (uint32_t i = 0; i < sums->line_count; i++)
        print_line(page, &sums->lines[ranked[i].number], sums->total.column[page->library->traced].best);
    allocator.resize(allocator.context, ranked, 0);
}

/* What a line would hold untreated, less what it holds. Both grow with the same amount of food, so their corners
 * give the share that stays, and that share tells what went. */
static struct range saved_of(const struct page *page, const struct line_amount *amount)
{
    uint32_t traced = page->library->traced;
    struct range before = range_multiply(amount->as_written, amount->values[traced]);
    struct range after = line_column(amount, page->library, traced);
    double least = before.low > 0 ? after.low / before.low : 0, most = before.high > 0 ? after.high / before.high : 1;
    struct range saved = { before.low * fmax(0, 1 - most), before.best - after.best, before.high * fmax(0, 1 - least) };
    if (saved.best < 0)
        saved.best = 0;
    return range_divide(saved, page->servings);
}

/* What was rinsed off or left behind, against the same amount untreated. */
static void print_saved(struct page *page)
{
    uint32_t traced = page->library->traced;
    bool head = false;
    for (uint32_t i = 0; i < page->sums->line_count; i++) {
        const struct line_amount *amount = &page->sums->lines[i];
        if (amount->unknown || amount->incomplete >> traced & 1)
            continue;
        char words[160];
        struct range saved = saved_of(page, amount);
        if (saved.best < 0.5)
            continue;
        if (!head)
            writer_print(page->writer, "\nWhat draining, rinsing and leaving behind saved%s\n",
                         page->recipe->serves.high > 0 ? ", per serving" : "");
        head = true;
        print_range(page, words, sizeof words, traced, saved, true);
        writer_add(page->writer, text_of("  "));
        writer_cut(page->writer, line_text_of(page, amount->line), LINE_COLUMNS);
        writer_print(page->writer, " about %s", words);
        if (amount->resolved->grade)
            writer_print(page->writer, "%s, evidence %c", amount->resolved->grade >= 'C' ? ", estimated" : "",
                         (int)amount->resolved->grade);
        writer_print(page->writer, "%s\n", amount->resolved->flags & RESOLVED_WEIGHED_AFTER ? ", against the same weight undrained" : "");
    }
}

/* ---- other nutrients, ratio ---------------------------------------------------------------------------------------------- */

static void print_nutrients(struct page *page, uint32_t shown_apart)
{
    writer_print(page->writer, "\nOther nutrients%s\n", page->recipe->serves.high > 0 ? ", per serving" : "");
    for (uint32_t i = 0; i < page->library->nutrient_total; i++) {
        char amount[160];
        struct text name = name_of(page, i);
        bool complete = amounts_complete(&page->sums->total, i);
        if (i == page->library->traced || i == shown_apart)
            continue;
        print_range(page, amount, sizeof amount, i, per_serving(page, page->sums->total.column[i]), complete);
        writer_print(page->writer, "  %-20.*s %s", (int)name.length, name.bytes, amount);
        if (!complete) {
            uint32_t lines = unknown_lines(page, i);
            writer_print(page->writer, " (%u line%s unknown)", lines, lines == 1 ? "" : "s");
        }
        writer_add(page->writer, text_of("\n"));
    }
}

/* The ratio to the nutrient that the same caution group knows: sodium to potassium. */
static void print_ratio(struct page *page, uint32_t over, uint32_t under)
{
    const struct amounts *total = &page->sums->total;
    struct range ratio = ratio_of_lines(page->sums->lines, page->sums->line_count, page->library, over, under,
                                        amounts_complete(total, over), amounts_complete(total, under));
    struct text above = name_of(page, over), below = name_of(page, under);
    writer_print(page->writer, "%.*s to %.*s, by mass: ", (int)above.length, above.bytes, (int)below.length, below.bytes);
    if (!amounts_complete(total, over) || !amounts_complete(total, under) || !isfinite(ratio.high))
        writer_print(page->writer, "unknown, since one of them is\n");
    else
        writer_print(page->writer, "%.2f (%.2f to %.2f)\n", ratio.best, ratio.low, ratio.high);
}

/* ---- limits, findings, sources, cautions ----------------------------------------------------------------------------------- */

static void print_limit(struct page *page, const struct verdict *verdict)
{
    char value[200], limit[200], subject[200];
    static const char *const outcomes[] = { "kept", "BROKEN", "in doubt" };
    const struct bound *bound = verdict->bound;
    double against = (bound->has_most ? bound->most : bound->least) / bound->divisor;
    const char *outcome = verdict->outcome == OUTCOME_BROKEN && bound->is_aim ? "missed" : outcomes[verdict->outcome];
    const char *side = bound->has_most ? bound->strict ? "under" : "at most" : bound->strict ? "over" : "at least";
    writer_print(page->writer, "  %-8s %s: ", outcome, bound->is_aim ? "aim" : "limit");
    writer_visible(page->writer, bound_subject(page->library, bound, subject, sizeof subject));
    writer_print(page->writer, " %s ", side);
    writer_visible(page->writer, bound_limit(page->library, bound, against, limit, sizeof limit));
    if (verdict->policy) {
        writer_add(page->writer, text_of(" ("));
        writer_visible(page->writer, verdict->policy->name);
        writer_add(page->writer, text_of(")"));
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
        print_limit(page, &verdicts->at[i]);
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
    }
}

static void print_cautions(struct page *page)
{
    const struct kitchen *kitchen = page->kitchen;
    writer_print(page->writer, "\nCautions\n");
    for (uint32_t i = 0; kitchen->rules && i < kitchen->rules->caution_count; i++)
        writer_wrapped(page->writer, library_text(kitchen->rules_owner,
                                                 kitchen->rules_owner->cautions[kitchen->rules->first_caution + i].words));
    writer_print(page->writer, "\n");
}

void text_recipe(struct showing *showing, const struct report *report)
{
    const struct sums *sums = report->sums;
    struct page page = { .showing = showing, .writer = showing->writer, .kitchen = showing->kitchen,
                         .library = showing->kitchen->library, .sums = sums, .recipe = sums->at.recipe };
    const struct rules *rules = page.kitchen->rules;
    uint32_t over = rules ? rules->compare_over : NONE_INDEX, under = rules ? rules->compare_under : NONE_INDEX;
    page.servings = page.recipe->serves.high > 0 ? page.recipe->serves : range_exact(1);
    print_head(&page);
    if (page.library->traced != NONE_INDEX) {
        print_figure(&page, page.library->traced);
        print_origins(&page);
        print_lines(&page);
        print_saved(&page);
        writer_add(page.writer, text_of("\n"));
    }
    if (over != NONE_INDEX && under != NONE_INDEX) {
        print_figure(&page, under);
        print_ratio(&page, over, under);
    }
    print_nutrients(&page, under);
    print_limits(&page, report->verdicts);
    print_findings(&page, report->findings, report->findings_count);
    print_sources(&page);
    print_cautions(&page);
}
