/* Recipes as linked data: Recipe and NutritionInformation of the vocabulary at schema.org, in one graph. Its properties
 * take single figures as text, so they hold best values; the ranges, and what the figures are, stand in a description
 * beside them. What is unknown is left out, and so are days and weeks, which the vocabulary does not know. */
#include <math.h>
#include <string.h>

#include "output/figures.h"
#include "output/held.h"
#include "output/json.h"
#include "output/page.h"
#include "output/written.h"

struct linked {
    struct showing *showing;
    const struct report *report;
    struct page page;                   /* for amounts as people read them */
    cJSON *object;
    struct buffer words;
};

static void add_type(struct showing *showing, cJSON *object, const char *type)
{
    json_kept(showing, cJSON_AddStringToObject(object, "@type", type));
}

static void add_string(struct showing *showing, cJSON *list, struct text words)
{
    cJSON *holder = json_kept(showing, cJSON_CreateObject());
    json_text(showing, holder, "it", words);
    cJSON_AddItemToArray(list, cJSON_DetachItemFromObject(holder, "it"));
    cJSON_Delete(holder);
}

static void add_yield(struct linked *linked)
{
    char words[80];
    struct range serves = linked->report->sums->at.recipe->serves;
    if (serves.high <= 0)
        return;
    if (range_is_exact(serves))
        snprintf(words, sizeof words, serves.best == 1 ? "%g serving" : "%g servings", serves.best);
    else
        snprintf(words, sizeof words, "%g to %g servings", serves.low, serves.high);
    json_text(linked->showing, linked->object, "recipeYield", text_of(words));
}

static void add_ingredients(struct linked *linked)
{
    const struct sums *sums = linked->report->sums;
    struct sources *sources = &linked->showing->sources;
    cJSON *list = json_kept(linked->showing, cJSON_AddArrayToObject(linked->object, "recipeIngredient"));
    if (!sources_load(sources, sums->at.recipe->file))
        return;
    for (uint32_t i = 0; i < sums->line_count; i++) {
        if (sums->lines[i].line->tail == NONE_INDEX)    /* it could not be read */
            continue;
        add_string(linked->showing, list, span_text(sources->text, recipe_line_place(sums, sums->lines[i].line).span));
    }
}

static void add_step(struct linked *linked, cJSON *list, struct text words)
{
    cJSON *step = json_kept(linked->showing, cJSON_CreateObject());
    add_type(linked->showing, step, "HowToStep");
    json_text(linked->showing, step, "text", words);
    cJSON_AddItemToArray(list, step);
}

static void add_written(struct linked *linked)
{
    struct arena arena;
    struct written written;
    cJSON *steps = NULL;
    arena_open(&arena, linked->showing->kitchen->allocator);
    if (!written_read(&linked->showing->sources, linked->report->sums->at.recipe, &arena, &written))
        linked->showing->json_failed = true;
    if (written.introduction.length)
        json_text(linked->showing, linked->object, "description", written.introduction);
    for (const struct written_words *at = written.first; at; at = at->next) {
        if (at->kind != WRITTEN_STEP)
            continue;
        if (!steps)
            steps = json_kept(linked->showing, cJSON_AddArrayToObject(linked->object, "recipeInstructions"));
        add_step(linked, steps, at->words);
    }
    arena_close(&arena);
}

/* ---- nutrition ----------------------------------------------------------------------------------------------------- */

static void add_serving_size(struct linked *linked, cJSON *nutrition)
{
    char words[80];
    bool estimated;
    struct range grams;
    if (figures_serving_grams(linked->report->sums, linked->page.library, &grams, &estimated)) {
        snprintf(words, sizeof words, "about %.0f g", grams.best);
        json_text(linked->showing, nutrition, "servingSize", text_of(words));
    } else {
        json_text(linked->showing, nutrition, "servingSize", text_of("1 serving"));
    }
}

static void add_figure(struct linked *linked, cJSON *nutrition, uint32_t column, const struct amounts *serving)
{
    char words[160], key[64];
    const struct library *owner;
    const struct nutrient *nutrient = library_nutrient_at(linked->page.library, column, &owner);
    struct text property = library_text(owner, nutrient->linked), name = library_text(owner, nutrient->name);
    bool complete = amounts_complete(serving, column);
    page_range(&linked->page, words, sizeof words, column, serving->column[column], complete);
    buffer_print(&linked->words, "%s%.*s %s", linked->words.length ? "; " : "", (int)name.length, name.bytes, words);
    if (!complete)
        return;
    snprintf(key, sizeof key, "%.*s", (int)property.length, property.bytes);
    page_print_best(&linked->page, words, sizeof words, column, serving->column[column], true);
    json_text(linked->showing, nutrition, key, text_of(words));
}

static void add_caution(void *context, const struct caution_told *told)
{
    struct linked *linked = context;
    buffer_print(&linked->words, " %.*s", (int)told->words.length, told->words.bytes);
}

/* Whether it keeps its limits: figures without that would be read as if it did. */
static void add_limits(struct linked *linked)
{
    struct sheet words;
    const struct verdicts *verdicts = linked->report->verdicts;
    sheet_open(&words, LOOK_TEXT, linked->showing->writer, linked->showing->kitchen->allocator);
    for (uint32_t i = 0; i < verdicts->count; i++) {
        struct text held = held_words(&words, linked->page.library, &verdicts->at[i]);
        buffer_print(&linked->words, " %.*s.", (int)held.length, held.bytes);
    }
    linked->showing->json_failed = linked->showing->json_failed || words.arena.failed;
    sheet_close(&words);
}

static void add_nutrition(struct linked *linked)
{
    struct amounts serving;
    struct showing *showing = linked->showing;
    const struct library *library = linked->page.library, *owner;
    if (!figures_per_serving(linked->report->sums, library, &serving))
        return;
    cJSON *nutrition = json_kept(showing, cJSON_AddObjectToObject(linked->object, "nutrition"));
    add_type(showing, nutrition, "NutritionInformation");
    add_serving_size(linked, nutrition);
    buffer_open(&linked->words, showing->kitchen->allocator);
    for (uint32_t i = 0; i < library->nutrient_total; i++) {
        if (library_nutrient_at(library, i, &owner)->linked.length)
            add_figure(linked, nutrition, i, &serving);
    }
    buffer_add_string(&linked->words, ".");
    add_limits(linked);
    report_cautions(showing->kitchen, linked->report, add_caution, linked);
    showing->json_failed = showing->json_failed || linked->words.failed;
    json_text(showing, nutrition, "description", (struct text){ linked->words.bytes, (uint32_t)linked->words.length });
    buffer_close(&linked->words);
}

/* Linked data is pasted into pages, where `</script>` within a name would end it: no `<` is printed as it is. All of them
 * stand in strings, since JSON itself has none. */
static void print_for_pages(struct showing *showing, cJSON *object)
{
    struct writer printed;
    writer_open(&printed, showing->kitchen->allocator, NULL, NULL);
    json_print(showing, &printed, object);
    writer_needs(showing->writer, !printed.buffer.failed);
    struct text left = { printed.buffer.bytes, printed.buffer.failed ? 0 : (uint32_t)printed.buffer.length };
    while (left.length) {
        const char *found = memchr(left.bytes, '<', left.length);
        uint32_t length = found ? (uint32_t)(found - left.bytes) : left.length;
        writer_add(showing->writer, (struct text){ left.bytes, length });
        if (found)
            writer_add(showing->writer, text_of("\\u003c"));
        length += found != NULL;
        left = (struct text){ left.bytes + length, left.length - length };
    }
    buffer_close(&printed.buffer);
}

void jsonld_recipe(struct showing *showing, const struct report *report)
{
    struct linked linked = { .showing = showing, .report = report, .page = page_of(showing, NULL, report) };
    linked.object = json_kept(showing, cJSON_CreateObject());
    add_type(showing, linked.object, "Recipe");
    json_text(showing, linked.object, "name", report->sums->at.recipe->name);
    add_written(&linked);
    add_yield(&linked);
    add_ingredients(&linked);
    add_nutrition(&linked);
    print_for_pages(showing, linked.object);
}

void jsonld_head(struct writer *writer)
{
    writer_add(writer, text_of("{\"@context\":\"https://schema.org\",\"@graph\":["));
}

void jsonld_tail(struct writer *writer)
{
    writer_add(writer, text_of("]}\n"));
}
