/* Finds the recipe to be traced in a kitchen, and tells its trace. */
#include <string.h>

#include "output/trace.h"

/* Recipes that were asked for by another name. */
static void note_near(struct trace_task *task, const struct kitchen *kitchen)
{
    struct text near[3];
    uint32_t count = kitchen_near_names(kitchen, text_of(task->wanted->recipe), near, COUNT_OF(near));
    for (uint32_t i = 0; i < count; i++) {
        size_t used = strlen(task->near);
        snprintf(task->near + used, sizeof task->near - used, "%s\"%.*s\"", used ? ", " : "", near[i].length > 60 ? 60 : (int)near[i].length, near[i].bytes);
    }
}

/* What is wrong with a name, and the way out. */
static enum status fail(struct telling *telling, const char *before, const char *name, const char *behind)
{
    char words[400];
    snprintf(words, sizeof words, "%s\"%.100s\"%s", before, name, behind);
    return telling_fail(telling, STATUS_USAGE, words, NULL);
}

/* Another recipe or day of the kitchen has the same name. */
static bool is_doubled(const struct kitchen *kitchen, const struct recipe *recipe)
{
    char key[KEY_BYTES], other[KEY_BYTES];
    struct text name = { key, name_key_of(recipe->name, true, key) };
    bool doubled = false;
    for (uint32_t i = 0; i < kitchen->recipes_count; i++) {
        const struct recipe *second = kitchen->recipes[i].recipe;
        doubled = doubled || (second != recipe && text_equal(name, (struct text){ other, name_key_of(second->name, true, other) }));
    }
    return doubled;
}

static bool is_week(const struct kitchen *kitchen, struct text name)
{
    bool found = false;
    for (uint32_t i = 0; i < kitchen->weeks_count; i++)
        found = found || text_equal(kitchen->weeks[i].week->name, name);
    return found;
}

static bool ends_on_error(const struct trace *trace, const struct finding *finding)
{
    bool within = false;
    for (uint32_t i = 0; i < trace->count; i++) {
        const struct recipe *recipe = trace->recipes[i]->at.recipe;
        within = within || (finding->place.file == recipe->file && finding->place.span.start >= recipe->whole.start
                            && finding->place.span.start < recipe->whole.end);
    }
    return within && shown_severity(trace->showing, finding) == SEVERITY_ERROR;
}

static bool count_errors(struct telling *telling, const struct trace *trace, struct kitchen *kitchen)
{
    uint32_t count;
    struct finding **findings = telling_findings(kitchen, &count);
    for (uint32_t i = 0; findings && i < count; i++)
        telling->errors += ends_on_error(trace, findings[i]);
    return findings != NULL;
}

static enum status trace_one(struct telling *telling, struct kitchen *kitchen, struct recipe_at at, uint32_t column)
{
    const struct trace_task *task = telling->task;
    struct showing showing = { .kitchen = kitchen, .writer = &telling->writer, .strict = telling->strict };
    struct trace trace;
    sources_open(&showing.sources, kitchen, telling->given.bytes ? telling->given : kitchen->input);
    trace_open(&trace, task->wanted, &showing, column);
    enum status status = trace_gather(&trace, at);
    if (status == STATUS_OK && !count_errors(telling, &trace, kitchen))
        status = STATUS_NO_MEMORY;
    if (status == STATUS_OK && task->wanted->record)
        trace_record(&trace, task->wanted->form, &telling->writer);
    else if (status == STATUS_OK && task->wanted->form == QUERN_AS_JSON)
        trace_json(&trace, &telling->writer);
    else if (status == STATUS_OK)
        trace_tell(&trace, task->wanted->form, &telling->writer);
    if (showing.sources.failed || showing.json_failed || trace.arena.failed)
        status = STATUS_NO_MEMORY;
    trace_close(&trace);
    sources_close(&showing.sources);
    return status == STATUS_NO_MEMORY ? telling_fail(telling, status, "out of memory", NULL) : status;
}

enum status trace_kitchen(struct telling *telling, struct kitchen *kitchen)
{
    struct trace_task *task = telling->task;
    const struct library *library = kitchen->library;
    struct recipe_at at = kitchen_recipe(kitchen, text_of(task->wanted->recipe));
    if (!at.recipe && is_week(kitchen, text_of(task->wanted->recipe)))
        return fail(telling, "", task->wanted->recipe, " is a week, the average of its days; trace one of its days");
    if (!at.recipe) {
        note_near(task, kitchen);
        return STATUS_OK;
    }
    if (task->found || is_doubled(kitchen, at.recipe))
        return fail(telling, "two are called ", task->wanted->recipe, "; rename one, or name the file of the one you mean with --kitchen");
    task->found = true;
    uint32_t column = task->wanted->nutrient ? trace_column(library, text_of(task->wanted->nutrient)) : library->traced;
    if (column == NONE_INDEX)
        return fail(telling, "no nutrient is called ", task->wanted->nutrient, "; reports list those that there are, and \"sodium from cook-added\" and \"weight\" can be traced, too");
    return trace_one(telling, kitchen, at, column);
}
