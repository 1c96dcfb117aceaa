/* A trace as JSON; docs/schema/trace-2.json describes it, and fields are only ever added. Figures are not rounded; null is
 * unknown, never zero. */
#include "output/figures.h"
#include "output/json.h"
#include "output/page.h"
#include "output/trace.h"

static void add_place(struct showing *showing, cJSON *object, uint32_t file, struct position position)
{
    json_text(showing, object, "file", text_of(sources_path(&showing->sources, file)));
    json_kept(showing, cJSON_AddNumberToObject(object, "line", position.line));
}

static void add_text_or_null(struct showing *showing, cJSON *object, const char *key, struct text text)
{
    if (text.length)
        json_text(showing, object, key, text);
    else
        json_kept(showing, cJSON_AddNullToObject(object, key));
}

static void add_flag(struct showing *showing, cJSON *object, const char *key, bool flag)
{
    json_kept(showing, cJSON_AddBoolToObject(object, key, flag));
}

/* ---- lines ---------------------------------------------------------------------------------------------------------------- */

static const char *const step_names[] = {
    [DERIVED_SOME] = "some", [DERIVED_AMOUNT] = "number", [DERIVED_UNIT] = "unit", [DERIVED_SIZE] = "size", [DERIVED_PORTION] = "portion",
    [DERIVED_DENSITY] = "density", [DERIVED_PIECE] = "piece", [DERIVED_SERVING] = "serving", [DERIVED_PACKAGE] = "package",
    [DERIVED_MADE] = "declared portion", [DERIVED_SPOON] = "spoon error", [DERIVED_EDIBLE] = "edible", [DERIVED_TREATMENT] = "treatment",
    [DERIVED_KEEPS] = "keeps", [DERIVED_LOST] = "lost", [DERIVED_UNKNOWN] = "unknown", [DERIVED_REPLACED] = "replaced", [DERIVED_ADDS] = "adds",
    [DERIVED_MASS] = "mass", [DERIVED_WATER] = "water by weight", [DERIVED_LIQUID] = "without liquid", [DERIVED_STRONGER] = "with liquid",
    [DERIVED_KEPT] = "kept", [DERIVED_VISIT] = "bath", [DERIVED_SECOND] = "second reading", [DERIVED_JOINED] = "joined",
};

static void add_step(struct showing *showing, cJSON *list, const struct derived_step *step)
{
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    json_kept(showing, cJSON_AddStringToObject(object, "step", step_names[step->kind]));
    add_text_or_null(showing, object, "words", step->words);
    if (step->in)
        json_kept(showing, cJSON_AddStringToObject(object, "in", step->in));
    json_range(showing, object, "factor", step->factor, true);
    json_range(showing, object, "per", step->per, true);
    add_text_or_null(showing, object, "source", step->source);
    if (step->evidence)
        json_kept(showing, cJSON_AddStringToObject(object, "evidence", evidence_word(step->evidence).bytes));
    cJSON_AddItemToArray(list, object);
}

static void add_steps(struct showing *showing, cJSON *object, const char *key, const struct derivation *how, bool measures, bool of_thrown)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, key));
    for (uint32_t i = 0; i < how->count; i++) {
        bool is_measure = how->steps[i].kind < DERIVED_TREATMENT;
        if (how->steps[i].of_thrown == of_thrown && is_measure == measures)
            add_step(showing, list, &how->steps[i]);
    }
}

static void add_parts(struct showing *showing, cJSON *object, const struct traced_recipe *recipe, const struct line *line)
{
    const struct gathering *gathering = recipe->at.gathering;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "parts"));
    for (uint32_t part = line->part; part != NONE_INDEX; part = gathering->parts[part].parent) {
        uint32_t tail = gathering->parts[part].tail;
        const struct resolved *around = tail == NONE_INDEX ? NULL : gathering->tails[tail].resolved;
        bool as_whole = gathering->parts[part].is_bath || (around && around->flags & RESOLVED_MOVES);
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "name", gathering->parts[part].name);
        json_range(showing, one, "kept", around && !as_whole ? around->kept : range_exact(1), true);
        add_flag(showing, one, "optional", around && around->flags & RESOLVED_OPTIONAL);
        cJSON_AddItemToArray(list, one);
    }
}

static void add_food(struct showing *showing, cJSON *object, const struct traced_line *line)
{
    const struct resolved *resolved = line->amount->resolved;
    const struct food_at food = resolved->food;
    bool label = food.food && food.food->basis == FOOD_PER_SERVING;
    if (resolved->subject == SUBJECT_BATH) {
        json_kept(showing, cJSON_AddStringToObject(object, "of", "bath"));
        json_text(showing, object, "food", resolved->rare->bath);
        json_kept(showing, cJSON_AddNullToObject(object, "source"));
    } else if (resolved->subject == SUBJECT_RECIPE) {
        json_kept(showing, cJSON_AddStringToObject(object, "of", "batch"));
        json_text(showing, object, "food", resolved->recipe.recipe->name);
        json_kept(showing, cJSON_AddNullToObject(object, "source"));
    } else {
        json_kept(showing, cJSON_AddStringToObject(object, "of", label ? "serving" : "100 g"));
        json_text(showing, object, "food", library_text(food.library, food.food->name));
        add_text_or_null(showing, object, "source", library_text(food.library, food.food->source));
    }
}

/* How much of the food, and what it holds. */
static void add_amount(struct showing *showing, cJSON *object, const struct traced_recipe *recipe, const struct traced_line *line)
{
    const struct resolved *resolved = line->amount->resolved;
    const struct line *written = line->amount->line;
    bool has_number = written->quantity == QUANTITY_NUMBER || written->quantity == QUANTITY_RANGE;
    add_food(showing, object, line);
    if (has_number)
        json_range(showing, object, "amount", range_between(written->low, written->high), true);
    else
        json_kept(showing, cJSON_AddNullToObject(object, "amount"));
    add_flag(showing, object, "amount_counts", has_number && !(resolved->flags & RESOLVED_TOTAL));
    add_steps(showing, object, "measure", &line->how, true, false);
    if (resolved->subject == SUBJECT_RECIPE)
        json_range(showing, object, "batch", line->whole, true);
    add_flag(showing, object, "optional", resolved->flags & RESOLVED_OPTIONAL);
    json_range(showing, object, "more", line_more(resolved), true);
    json_range(showing, object, "went_in", line->amount->as_written, line->amount_known);
    json_range(showing, object, "kept", resolved->kept, true);
    if (resolved->rare->thrown) {
        json_range(showing, object, "thrown_away", range_scale(*resolved->rare->thrown, 0.01), true);
        add_steps(showing, object, "thrown_away_measure", &line->how, true, true);
    }
    add_parts(showing, object, recipe, written);
    json_range(showing, object, "counts", line->driver, line->amount_known);
    json_range(showing, object, "holds", line->value, line->value_known);
    json_range(showing, object, "holds_grams", line->grams, true);
    add_steps(showing, object, "treatments", &line->how, false, false);
    add_flag(showing, object, "weight_is_water", resolved->done.weight_is_water);
    json_range(showing, object, "holds_then", line->rate, line->rate_known);
}

static void add_line(struct showing *showing, cJSON *list, const struct traced_recipe *recipe, const struct traced_line *line)
{
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    json_text(showing, object, "text", line->words);
    add_place(showing, object, recipe->at.recipe->file, line->position);
    add_flag(showing, object, "known", line->known);
    if (line->is_measured)
        add_amount(showing, object, recipe, line);
    if (line->recipe != NONE_INDEX)
        json_kept(showing, cJSON_AddNumberToObject(object, "recipe", line->recipe));
    json_range(showing, object, "total", line->total, line->known);
    if (recipe->at.recipe->serves.low > 0)
        json_range(showing, object, "per_serving", range_divide(line->total, recipe->at.recipe->serves), line->known);
    else
        json_kept(showing, cJSON_AddNullToObject(object, "per_serving"));
    if (recipe->complete && recipe->total.best > 0)
        json_kept(showing, cJSON_AddNumberToObject(object, "share", line->total.best / recipe->total.best));
    else
        json_kept(showing, cJSON_AddNullToObject(object, "share"));
    cJSON_AddItemToArray(list, object);
}

/* ---- the dish --------------------------------------------------------------------------------------------------------------- */

static const char *const move_names[] = {
    [DISH_GIVEN] = "begins", [DISH_MEETS] = "meets", [DISH_PARTS] = "bath", [DISH_TREATED] = "treated", [DISH_TAKEN] = "taken",
    [DISH_ENDS] = "bath ends", [DISH_SHARED] = "shared out", [DISH_FATE] = "whole", [DISH_CAPPED] = "capped", [DISH_LOST] = "lost",
};

/* A food in a bath: all that the formula of docs/method.md asks for. */
static void add_visit(const struct trace *trace, cJSON *object, const struct trace_move *move)
{
    struct showing *showing = trace->showing;
    const struct library *library = trace->library;
    bool dissolves = trace->column < library->mass_column && trace->column != library->solvent;
    json_kept(showing, cJSON_AddNumberToObject(object, "round", move->round));
    add_flag(showing, object, "balanced", dissolves && move->visit->balanced >> trace->column & 1);
    json_range(showing, object, "keeps", dissolves ? move->visit->own[trace->column] : range_exact(0), true);
    json_range(showing, object, "reaches", dissolves ? move->visit->reach[trace->column] : range_exact(0), true);
    json_range(showing, object, "uptake", move->visit->uptake, true);
    json_range(showing, object, "grams_before", move->grams, true);
    json_range(showing, object, "water_before", move->water, true);
    json_range(showing, object, "bath_water_before", move->bath_water, true);
    json_range(showing, object, "share_of_water", move->of_water, true);
    json_range(showing, object, "bath_before", move->bath_before, move->bath_known);
}

static void add_move(const struct trace *trace, cJSON *list, const struct traced_recipe *recipe, const struct trace_move *move)
{
    struct showing *showing = trace->showing;
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    json_kept(showing, cJSON_AddStringToObject(object, "what", move_names[move->kind]));
    if (move->line != NONE_INDEX)
        json_kept(showing, cJSON_AddNumberToObject(object, "line", move->line));
    if (move->part != NONE_INDEX)
        json_text(showing, object, "part", recipe->at.gathering->parts[move->part].name);
    if (move->bath != NONE_INDEX)
        json_kept(showing, cJSON_AddNumberToObject(object, "bath", move->bath));
    if (move->visit)
        add_visit(trace, object, move);
    json_range(showing, object, "before", move->before, move->known);
    json_range(showing, object, "share", move->share, true);
    json_range(showing, object, "after", move->after, move->known);
    if (move->bath != NONE_INDEX || move->visit)
        json_range(showing, object, "bath_after", move->bath_after, move->bath_known);
    cJSON_AddItemToArray(list, object);
}

static void add_dish(const struct trace *trace, cJSON *object, const struct traced_recipe *recipe)
{
    struct showing *showing = trace->showing;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "dish"));
    for (const struct trace_move *move = recipe->moves; move; move = move->next)
        add_move(trace, list, recipe, move);
    list = json_kept(showing, cJSON_AddArrayToObject(object, "baths"));
    for (uint32_t i = 0; i < recipe->sums.bath_count; i++) {
        const struct bath_sum *bath = &recipe->sums.baths[i];
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "name", recipe->at.gathering->parts[bath->part].name);
        json_range(showing, one, "went_in", bath->went_in.column[trace->column], amounts_complete(&bath->went_in, trace->column));
        json_range(showing, one, "left", bath->left.column[trace->column], amounts_complete(&bath->left, trace->column));
        cJSON_AddItemToArray(list, one);
    }
}

/* ---- what it comes to ------------------------------------------------------------------------------------------------------- */

static void add_limits(const struct trace *trace, cJSON *object, const struct traced_recipe *recipe)
{
    struct showing *showing = trace->showing;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "limits"));
    for (uint32_t i = 0; i < recipe->verdicts.count; i++) {
        char subject[200];
        const struct verdict *verdict = &recipe->verdicts.at[i];
        if (!trace_is_about(trace, verdict))
            continue;
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "what", verdict_subject(trace->library, verdict, subject, sizeof subject));
        json_kept(showing, cJSON_AddStringToObject(one, "kind", verdict->bound->is_goal ? "goal" : "limit"));
        if (verdict->bound->has_most)
            json_kept(showing, cJSON_AddNumberToObject(one, "at_most", verdict->bound->most));
        if (verdict->bound->has_least)
            json_kept(showing, cJSON_AddNumberToObject(one, "at_least", verdict->bound->least));
        json_range(showing, one, "value", verdict->value, verdict->complete);
        json_kept(showing, cJSON_AddStringToObject(one, "outcome", outcome_name(verdict->outcome)));
        cJSON_AddItemToArray(list, one);
    }
}

static void add_range_if(struct showing *showing, cJSON *object, const char *key, struct range range, bool complete, bool there_is)
{
    if (there_is)
        json_range(showing, object, key, range, complete);
    else
        json_kept(showing, cJSON_AddNullToObject(object, key));
}

static void add_printed(const struct trace *trace, cJSON *object, const struct traced_recipe *recipe, const struct trace_result *result)
{
    struct showing *showing = trace->showing;
    struct report report = { .sums = (struct sums *)&recipe->sums, .verdicts = &recipe->verdicts };
    struct page page = page_of(showing, NULL, &report);
    struct range amount = result->has_serving ? result->serving : recipe->total;
    uint32_t nutrient = trace->column < trace->library->nutrient_total ? trace->column : trace->library->traced;
    json_range(showing, object, "printed", page_printed(&page, nutrient, amount), recipe->complete);
    add_text_or_null(showing, object, "rounding_source", result->rounding ? library_text(trace->kitchen->rules_owner, result->rounding->source) : text_of(""));
    if (result->day)
        json_kept(showing, cJSON_AddNumberToObject(object, "daily_value", result->day->amount));
    else
        json_kept(showing, cJSON_AddNullToObject(object, "daily_value"));
    add_text_or_null(showing, object, "daily_value_name", result->day ? kitchen_daily_name(trace->kitchen) : text_of(""));
    add_text_or_null(showing, object, "daily_value_source", result->day ? library_text(trace->kitchen->rules_owner, result->day->source) : text_of(""));
}

/* What may be of the traced origin, too: limits on it count that at their high end. */
static void add_beside(const struct trace *trace, cJSON *object, const struct traced_recipe *recipe)
{
    const struct amounts *total = &recipe->sums.total;
    uint32_t beside = unseparated_beside(trace->library, trace->column);
    bool is_origin = beside != NONE_INDEX;
    add_range_if(trace->showing, object, "unseparated", is_origin ? total->column[beside] : range_exact(0), is_origin && amounts_complete(total, beside), is_origin);
}

static void add_recipe(const struct trace *trace, cJSON *list, const struct traced_recipe *recipe)
{
    struct showing *showing = trace->showing;
    struct trace_result result;
    bool estimated, known;
    struct range grams = recipe_grams(recipe->at.recipe, &recipe->sums.total, trace->library, &estimated, &known);
    cJSON *object = json_kept(showing, cJSON_CreateObject()), *lines;
    json_text(showing, object, "name", recipe->at.recipe->name);
    add_place(showing, object, recipe->at.recipe->file, recipe->position);
    lines = json_kept(showing, cJSON_AddArrayToObject(object, "lines"));
    for (uint32_t i = 0; i < recipe->line_count; i++)
        add_line(showing, lines, recipe, &recipe->lines[i]);
    add_dish(trace, object, recipe);
    trace_result(trace, recipe, &result);
    add_flag(showing, object, "complete", recipe->complete);
    json_range(showing, object, "sum_of_lines", recipe->sum, recipe->complete);
    json_range(showing, object, "moved_twice", recipe->sums.moves ? recipe->sums.slack[trace->column] : range_exact(0), true);
    if (recipe->sums.bath_count)
        json_kept(showing, cJSON_AddNumberToObject(object, "most_there_is", recipe->sums.ceiling[trace->column]));
    json_range(showing, object, "total", recipe->total, recipe->complete);
    add_beside(trace, object, recipe);
    add_range_if(showing, object, "servings", recipe->at.recipe->serves, true, recipe->at.recipe->serves.low > 0);
    add_range_if(showing, object, "per_serving", result.serving, recipe->complete, result.has_serving);
    add_range_if(showing, object, "batch_grams", grams, true, known);
    add_flag(showing, object, "batch_is_estimated", estimated);
    add_range_if(showing, object, "per_100_g", result.hundred, recipe->complete, result.has_hundred);
    if (trace->column != trace->library->mass_column)
        add_printed(trace, object, recipe, &result);
    add_limits(trace, object, recipe);
    cJSON_AddItemToArray(list, object);
}

struct cautions {
    struct showing *showing;
    cJSON *list;
};

static void add_caution(void *context, const struct caution_told *told)
{
    const struct cautions *cautions = context;
    cJSON *one = json_kept(cautions->showing, cJSON_CreateObject());
    json_text(cautions->showing, one, "words", told->words);
    add_text_or_null(cautions->showing, one, "source", told->source);
    add_text_or_null(cautions->showing, one, "because", told->because);
    cJSON_AddItemToArray(cautions->list, one);
}

static void add_cautions(const struct trace *trace, cJSON *object)
{
    struct report report = { .sums = &trace->recipes[0]->sums, .verdicts = &trace->recipes[0]->verdicts };
    struct cautions cautions = { trace->showing, json_kept(trace->showing, cJSON_AddArrayToObject(object, "cautions")) };
    report_cautions(trace->kitchen, &report, add_caution, &cautions);
}

void trace_json(struct trace *trace, struct writer *writer)
{
    struct showing *showing = trace->showing;
    const struct kitchen *kitchen = trace->kitchen;
    char checksum[20];
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    snprintf(checksum, sizeof checksum, "%016llx", (unsigned long long)kitchen->stdlib->checksum);
    json_kept(showing, cJSON_AddStringToObject(object, "quern", quern_version()));
    json_kept(showing, cJSON_AddNumberToObject(object, "schema", JSON_VERSION));
    json_kept(showing, cJSON_AddStringToObject(object, "library", checksum));
    json_text(showing, object, "rules", kitchen->rules ? library_text(kitchen->rules_owner, kitchen->rules->title) : text_of(""));
    json_text(showing, object, "of", trace_column_name(trace));
    json_text(showing, object, "unit", trace_column_unit(trace));
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "recipes"));
    for (uint32_t i = 0; i < trace->count; i++)
        add_recipe(trace, list, trace->recipes[i]);
    add_cautions(trace, object);
    json_print(showing, writer, object);
    writer_add(writer, text_of("\n"));
}
