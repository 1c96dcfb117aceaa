/* Gathers the sum behind a figure. */
#include <string.h>

#include "output/figures.h"
#include "output/trace.h"

/* ---- the column ------------------------------------------------------------------------------------------------------- */

static uint32_t origin_column(const struct library *library, struct text words)
{
    static const char from[] = " from ";
    for (uint32_t i = 0; i < ORIGIN_COUNT && library->traced != NONE_INDEX; i++) {
        char name[160];
        struct text nutrient = column_name(library, library->traced);
        int length = snprintf(name, sizeof name, "%.*s%s%s", (int)nutrient.length, nutrient.bytes, from, origin_name((enum origin)i));
        if (text_equal(words, (struct text){ name, (uint32_t)length }))
            return library->origin_column + i;
    }
    return NONE_INDEX;
}

uint32_t trace_column(const struct library *library, struct text words)
{
    char key[KEY_BYTES];
    uint32_t number = NONE_INDEX, origin = origin_column(library, words);
    if (origin != NONE_INDEX)
        return origin;
    if (text_is(words, "weight"))
        return library->mass_column;
    uint32_t length = name_key_of(words, false, key);
    if (length == 0 || !library_nutrient(library, (struct text){ key, length }, &number))
        return NONE_INDEX;
    return number;
}

struct text trace_column_name(struct trace *trace)
{
    const struct library *library = trace->library;
    if (trace->column == library->mass_column)
        return text_of("weight");
    struct text name = column_name(library, trace->column);
    if (trace->column < library->nutrient_total)
        return name;
    char *words = arena_print(&trace->arena, "%.*s from %s", (int)name.length, name.bytes, origin_name((enum origin)(trace->column - library->origin_column)));
    return words ? text_of(words) : name;
}

struct text trace_column_unit(const struct trace *trace)
{
    struct bound plain = { .column = trace->column, .over = NONE_INDEX };
    return trace->column == trace->library->mass_column ? text_of("g") : bound_column_unit(trace->library, &plain);
}

/* ---- what happens in a dish --------------------------------------------------------------------------------------------- */

struct watching {
    struct trace *trace;
    struct traced_recipe *recipe;
};

static uint32_t bath_number(const struct traced_recipe *recipe, const struct bath_sum *bath)
{
    return bath ? (uint32_t)(bath - recipe->sums.baths) : NONE_INDEX;
}

static struct trace_move *add_move(struct watching *watching, const struct dish_event *event, uint32_t line)
{
    struct trace *trace = watching->trace;
    struct traced_recipe *recipe = watching->recipe;
    struct trace_move *move = arena_take(&trace->arena, sizeof *move);
    trace->failed = trace->failed || !move;
    if (!move)
        return NULL;
    *move = (struct trace_move){ .kind = event->kind, .line = line, .bath = bath_number(recipe, event->bath), .part = event->part,
                                 .share = event->share };
    *recipe->moves_end = move;
    recipe->moves_end = &move->next;
    return move;
}

/* Where the line stood after the last thing that happened to it. */
static struct range last_of(const struct traced_recipe *recipe, uint32_t line, const struct trace_move *before)
{
    struct range last = range_exact(0);
    for (const struct trace_move *move = recipe->moves; move && move != before; move = move->next) {
        if (move->line == line)
            last = move->after;
    }
    return last;
}

static void meet(struct watching *watching, const struct dish_event *event)
{
    const struct library *library = watching->trace->library;
    uint32_t column = watching->trace->column;
    watching->recipe->rounds++;
    for (uint32_t i = 0; i < event->count; i++) {
        const struct guest *guest = &event->guests[i];
        struct trace_move *move = add_move(watching, event, guest->line);
        if (!move)
            return;
        move->kind = DISH_PARTS;
        move->visit = guest->visit;
        move->round = watching->recipe->rounds;
        move->before = move->after = guest->own[column];
        move->known = !(watching->recipe->sums.lines[guest->line].incomplete >> column & 1);
        move->bath_known = amounts_complete(&event->bath->left, column);
        move->grams = guest->own[library->mass_column];
        move->water = guest->own[library->solvent];
        move->bath_before = event->bath->left.column[column];
        move->bath_water = event->bath->left.column[library->solvent];
    }
}

static void part(struct watching *watching, const struct dish_event *event)
{
    uint32_t column = watching->trace->column;
    for (struct trace_move *move = watching->recipe->moves; move; move = move->next) {
        if (move->kind != DISH_PARTS || move->round != watching->recipe->rounds)
            continue;
        for (uint32_t i = 0; i < event->count; i++) {
            if (event->guests[i].line != move->line)
                continue;
            move->after = event->guests[i].own[column];
            move->of_water = event->guests[i].part_of_water;
            move->bath_after = event->bath->left.column[column];
            move->known = move->known && !(watching->recipe->sums.lines[move->line].incomplete >> column & 1);
            move->bath_known = move->bath_known && amounts_complete(&event->bath->left, column);
        }
    }
}

/* What happened to one line, or to a bath. */
static void note_change(struct watching *watching, const struct dish_event *event)
{
    uint32_t column = watching->trace->column;
    const struct sums *sums = &watching->recipe->sums;
    struct trace_move *move = add_move(watching, event, event->line);
    if (!move)
        return;
    move->after = event->columns[column];
    move->known = move->bath_known = true;
    if (event->line != NONE_INDEX) {
        move->before = last_of(watching->recipe, event->line, move);
        move->is_measured = sums->lines[event->line].resolved && !sums->lines[event->line].unknown;
        move->known = !(sums->lines[event->line].incomplete >> column & 1);
    }
    if (!event->bath)
        return;
    move->bath_known = amounts_complete(&event->bath->left, column);
    double in = event->bath->went_in.column[column].best, kept = event->bath->kept.column[column].best;
    move->bath_after = event->kind == DISH_TAKEN ? event->bath->left.column[column] : event->bath->kept.column[column];
    if (event->kind == DISH_ENDS)
        move->before = event->bath->left.column[column];
    if (event->kind == DISH_SHARED)
        move->share = range_exact(in > 0 ? move->before.best / in : kept > 0 ? move->after.best / kept : 0);
}

/* A dish_witness. */
static void watch(void *context, const struct dish_event *event)
{
    if (event->kind == DISH_MEETS)
        meet(context, event);
    else if (event->kind == DISH_PARTS)
        part(context, event);
    else
        note_change(context, event);
}

/* ---- lines ----------------------------------------------------------------------------------------------------------------- */

static bool is_treated_within(const struct line_amount *amount, const struct gathering *gathering)
{
    return amount->line->tail != NONE_INDEX && gathering->tails[amount->line->tail].resolved != amount->resolved;
}

static struct text line_words(struct trace *trace, struct place place)
{
    struct sources *sources = &trace->showing->sources;
    if (!sources_load(sources, place.file))
        return text_of("");
    struct text words = span_text(sources->text, place.span);
    char *copy = words.length ? arena_copy(&trace->arena, words.bytes, words.length) : NULL;
    return (struct text){ copy, copy ? words.length : 0 };
}

static void derive_line(struct trace *trace, const struct traced_recipe *recipe, struct traced_line *line)
{
    struct gathering *gathering = recipe->at.gathering;
    const struct line *written = line->amount->line;
    line->how = (struct derivation){ .arena = &trace->arena, .column = trace->column };
    if (written->tail == NONE_INDEX || !line->amount->resolved)
        return;
    uint32_t part = is_treated_within(line->amount, gathering) ? written->part : NONE_INDEX;
    trace->failed = !tail_derive(gathering, written->tail, part, &line->how) || trace->failed;
}

/* In a dish lines change, and are lost: as it began. */
static void set_driver(const struct traced_recipe *recipe, struct traced_line *line, uint32_t number)
{
    line->driver = line->amount->driver;
    line->is_measured = line->amount->resolved && !line->amount->unknown;
    for (const struct trace_move *move = recipe->moves; move; move = move->next) {
        if (move->kind != DISH_GIVEN || move->line != number)
            continue;
        line->driver = move->share;
        line->is_measured = move->is_measured;
    }
}

/* What of the line is known: of one without an upper end the food may be known all the same, and the other way round. */
static void set_known(const struct trace *trace, struct traced_line *line)
{
    const struct line_amount *amount = line->amount;
    const struct resolved *resolved = amount->resolved;
    uint64_t unknown = resolved->subject == SUBJECT_FOOD ? resolved->unknown
                     : resolved->subject == SUBJECT_RECIPE && resolved->recipe.recipe->total ? resolved->recipe.recipe->total->incomplete : 0;
    bool weighed = !(unknown >> trace->library->mass_column & 1);
    bool adds = resolved->done.adds && trace->column < trace->library->mass_column && resolved->done.adds[trace->column].high > 0;
    line->amount_known = !amount->unmeasured;
    line->value_known = !(unknown >> trace->column & 1);
    line->rate_known = line->value_known && !(resolved->done.lost >> trace->column & 1) && (weighed || !adds);
}

static void trace_line(struct trace *trace, struct traced_recipe *recipe, uint32_t number)
{
    struct traced_line *line = &recipe->lines[number];
    const struct line_amount *amount = line->amount = &recipe->sums.lines[number];
    const struct resolved *resolved = amount->resolved;
    struct place place = recipe_line_place(&recipe->sums, amount->line);
    line->position = sources_position(&trace->showing->sources, place);
    line->words = line_words(trace, place);
    line->known = !(amount->incomplete >> trace->column & 1);
    line->total = line_column(amount, trace->library, trace->column);
    set_driver(recipe, line, number);
    line->recipe = NONE_INDEX;
    derive_line(trace, recipe, line);
    if (!line->is_measured)
        return;
    line->value = amount->values[trace->column];
    line->grams = amount->values[trace->library->mass_column];
    set_known(trace, line);
    line->rate = stage_rate(&resolved->done, line->value, line->grams, trace->library, trace->column);
    if (resolved->subject == SUBJECT_RECIPE)
        line->whole = recipe_whole(resolved, trace->library);
}

/* ---- recipes ---------------------------------------------------------------------------------------------------------------- */

static enum status compute(struct trace *trace, struct traced_recipe *recipe)
{
    struct watching watching = { trace, recipe };
    recipe->sums.witness = watch;
    recipe->sums.witness_context = &watching;
    enum status status = sums_compute(&recipe->sums, recipe->at);
    recipe->sums.witness = NULL;
    if (status == STATUS_OK)
        status = recipe_judge(&recipe->sums, &recipe->verdicts, NULL);
    return status;
}

static bool gather_recipe(struct trace *trace, struct traced_recipe *recipe)
{
    recipe->moves_end = &recipe->moves;
    if (compute(trace, recipe) != STATUS_OK)
        return false;
    recipe->line_count = recipe->sums.line_count;
    recipe->lines = arena_take(&trace->arena, (recipe->line_count + 1) * sizeof *recipe->lines);
    recipe->total = recipe->sums.total.column[trace->column];
    recipe->complete = amounts_complete(&recipe->sums.total, trace->column);
    recipe->position = sources_position(&trace->showing->sources, (struct place){ recipe->at.recipe->file, recipe->at.recipe->title });
    for (uint32_t i = 0; recipe->lines && i < recipe->line_count; i++) {
        trace_line(trace, recipe, i);
        recipe->sum = range_add(recipe->sum, recipe->lines[i].total);
    }
    return recipe->lines && !trace->failed;
}

/* The number of the traced recipe, which is traced unless it was. */
static uint32_t trace_recipe(struct trace *trace, struct recipe_at at)
{
    struct allocator allocator = trace->kitchen->allocator;
    for (uint32_t i = 0; i < trace->count; i++) {
        if (trace->recipes[i]->at.recipe == at.recipe)
            return i;
    }
    struct traced_recipe *recipe = arena_take(&trace->arena, sizeof *recipe);
    if (!recipe || !array_grow(&allocator, &trace->recipes, trace->count, &trace->capacity, sizeof *trace->recipes)) {
        trace->failed = true;
        return NONE_INDEX;
    }
    recipe->at = at;
    sums_open(&recipe->sums, allocator);
    trace->recipes[trace->count] = recipe;
    trace->failed = !gather_recipe(trace, recipe) || trace->failed;
    return trace->count++;
}

static void trace_sources(struct trace *trace, const struct traced_recipe *recipe)
{
    for (uint32_t i = 0; i < recipe->line_count && !trace->failed; i++) {
        const struct resolved *resolved = recipe->lines[i].amount->resolved;
        if (resolved && resolved->subject == SUBJECT_RECIPE && resolved->recipe.recipe->total)
            recipe->lines[i].recipe = trace_recipe(trace, resolved->recipe);
    }
}

enum status trace_gather(struct trace *trace, struct recipe_at at)
{
    trace_recipe(trace, at);
    for (uint32_t i = 0; i < trace->count && !trace->failed; i++)
        trace_sources(trace, trace->recipes[i]);
    return trace->failed || trace->arena.failed ? STATUS_NO_MEMORY : STATUS_OK;
}

void trace_open(struct trace *trace, const struct quern_trace *wanted, struct showing *showing, uint32_t column)
{
    *trace = (struct trace){ .wanted = wanted, .showing = showing, .kitchen = showing->kitchen, .library = showing->kitchen->library,
                             .column = column };
    arena_open(&trace->arena, showing->kitchen->allocator);
}

void trace_close(struct trace *trace)
{
    struct allocator allocator = trace->kitchen->allocator;
    for (uint32_t i = 0; i < trace->count; i++) {
        sums_close(&trace->recipes[i]->sums);
        verdicts_close(&trace->recipes[i]->verdicts, allocator);
    }
    allocator.resize(allocator.context, trace->recipes, 0);
    arena_close(&trace->arena);
}

/* ---- what comes of it --------------------------------------------------------------------------------------------------------- */

bool trace_is_about(const struct trace *trace, const struct verdict *verdict)
{
    return verdict->bound->column == trace->column || verdict->bound->over == trace->column;
}

void trace_result(const struct trace *trace, const struct traced_recipe *recipe, struct trace_result *result)
{
    const struct kitchen *kitchen = trace->kitchen;
    uint32_t nutrient = trace->column < trace->library->nutrient_total ? trace->column : trace->library->traced;
    struct amounts amounts;
    *result = (struct trace_result){ 0 };
    result->has_serving = figures_per_serving(&recipe->sums, trace->library, &amounts);
    if (result->has_serving)
        result->serving = amounts.column[trace->column];
    result->has_hundred = figures_per_mass(&recipe->sums, trace->library, &amounts, &result->hundred_estimated);
    if (result->has_hundred)
        result->hundred = amounts.column[trace->column];
    if (trace->column == trace->library->mass_column)
        return;
    result->rounding = rules_rounding(kitchen->rules_owner, kitchen->rules, nutrient, false);
    if (trace->column == nutrient)
        result->day = recipe_daily_value(kitchen, recipe->at.recipe, &recipe->verdicts, nutrient);
}
