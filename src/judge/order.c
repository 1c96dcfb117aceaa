/* Recipes that others are made from are added up first, each once, whichever file they stand in. */
#include <string.h>

#include "judge/judge.h"

/* The way from a recipe to those it is made from. */
struct chain {
    struct kitchen *kitchen;
    struct sums sums;
    struct recipe_at path[LIMIT_RECIPE_DEPTH];
    uint32_t lines[LIMIT_RECIPE_DEPTH];                 /* the line in each that leads on */
    uint32_t depth;
    bool told_depth;
    enum status status;
};

static struct place line_place(struct recipe_at at, uint32_t number)
{
    struct line line = gathering_line(at.gathering, number);
    struct place place = { at.recipe->file, { line.start, line.tail_start } };
    place.span.end += at.gathering->tails[line.tail].text.length;
    return place;
}

/* One finding for a cycle, with a label at every line on it. */
static void report_cycle(struct chain *chain, struct recipe_at again)
{
    struct findings *findings = &chain->kitchen->gatherings[0].findings;
    uint32_t first = 0;
    while (first < chain->depth && chain->path[first].recipe != again.recipe)
        first++;
    if (first == chain->depth)
        return;
    struct place title = { again.recipe->file, again.recipe->title };
    struct finding *finding = finding_add(findings, FINDING_RECIPE_CYCLE, title, GAPS(again.recipe->name));
    for (uint32_t i = first; i < chain->depth; i++) {
        struct text next = i + 1 < chain->depth ? chain->path[i + 1].recipe->name : again.recipe->name;
        finding_label(findings, finding, line_place(chain->path[i], chain->lines[i]), WORDS_CYCLE_STEP, GAPS(next));
    }
}

/* Said at one recipe; those that need it are unknown with it. */
static void report_depth(struct chain *chain, struct recipe_at at)
{
    if (!chain->told_depth)
        finding_add(&chain->kitchen->gatherings[0].findings, FINDING_RECIPE_TOO_DEEP,
                    (struct place){ at.recipe->file, at.recipe->title }, GAPS(at.recipe->name));
    chain->told_depth = true;
}

enum { RECIPE_NEW, RECIPE_OPEN, RECIPE_DONE };

static void total_source(struct chain *chain, struct recipe_at at);

static void total_those_within(struct chain *chain, struct recipe_at at)
{
    for (uint32_t i = 0; i < at.recipe->line_count && chain->status == STATUS_OK; i++) {
        struct line line = gathering_line(at.gathering, at.recipe->first_line + i);
        const struct resolved *resolved = line.tail == NONE_INDEX ? NULL : at.gathering->tails[line.tail].resolved;
        if (!resolved || resolved->subject != SUBJECT_RECIPE)
            continue;
        chain->lines[chain->depth - 1] = at.recipe->first_line + i;
        total_source(chain, resolved->recipe);
        uint32_t inner = resolved->recipe.recipe->depth + 1;
        at.recipe->depth = inner > at.recipe->depth ? inner : at.recipe->depth;
    }
}

/* Where the yield is said, the batch weighs that, whatever went in. */
static void set_yield(const struct recipe *recipe, struct amounts *total, uint32_t mass_column)
{
    struct range grams = recipe->yields->makes_grams;
    if (grams.high <= 0 && recipe->yields->serving_grams.high > 0 && recipe->serves.high > 0)
        grams = range_multiply(recipe->yields->serving_grams, recipe->serves);
    if (grams.high <= 0)
        return;
    total->column[mass_column] = grams;
    total->incomplete &= ~((uint64_t)1 << mass_column);
}

static void keep_total(struct chain *chain, struct recipe_at at)
{
    size_t size = offsetof(struct amounts, column) + chain->kitchen->library->column_count * sizeof(struct range);
    chain->status = sums_compute(&chain->sums, at);
    struct amounts *total = chain->status == STATUS_OK ? arena_take(&chain->kitchen->arena, size) : NULL;
    if (!total) {
        chain->status = STATUS_NO_MEMORY;
        return;
    }
    memcpy(total, &chain->sums.total, size);
    at.recipe->total = total;
    at.recipe->is_estimated = chain->sums.estimated;
    set_yield(at.recipe, total, chain->kitchen->library->mass_column);
}

static void total_source(struct chain *chain, struct recipe_at at)
{
    if (at.recipe->walk == RECIPE_DONE)
        return;
    if (at.recipe->walk == RECIPE_OPEN) {
        report_cycle(chain, at);
        return;
    }
    if (chain->depth == LIMIT_RECIPE_DEPTH) {
        report_depth(chain, at);
        return;
    }
    at.recipe->walk = RECIPE_OPEN;
    chain->path[chain->depth++] = at;
    total_those_within(chain, at);
    chain->depth--;
    at.recipe->walk = RECIPE_DONE;
    if (at.recipe->depth >= LIMIT_RECIPE_DEPTH)
        report_depth(chain, at);
    else if (chain->status == STATUS_OK)
        keep_total(chain, at);
}

static void total_sources_of(struct chain *chain, const struct gathering *gathering)
{
    for (uint32_t i = 0; i < gathering->tails_count && chain->status == STATUS_OK; i++) {
        const struct resolved *resolved = gathering->tails[i].resolved;
        if (resolved && resolved->subject == SUBJECT_RECIPE)
            total_source(chain, resolved->recipe);
    }
}

enum status kitchen_total_sources(struct kitchen *kitchen)
{
    struct chain chain = { .kitchen = kitchen, .status = STATUS_OK };
    sums_open(&chain.sums, kitchen->allocator);
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        total_sources_of(&chain, &kitchen->gatherings[i]);
    sums_close(&chain.sums);
    return chain.status;
}
