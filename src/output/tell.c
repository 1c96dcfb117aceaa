/* Telling what was found: findings and reports of one kitchen after another, streamed, so that memory does not grow
 * with the kitchens. */
#include <errno.h>
#include <string.h>

#include "output/output.h"

enum status telling_fail(struct telling *telling, enum status status, const char *what, const char *why)
{
    int length = snprintf(telling->failure, sizeof telling->failure, "%.400s%s%s", what, why ? ": " : "", why ? why : "");
    return length < 0 ? STATUS_IO : status;
}

static uint32_t count_findings(const struct kitchen *kitchen)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        count += kitchen->gatherings[i].findings.count;
    return count;
}

/* All findings of requested files in order of place, joined from the gatherings. */
static struct finding **join_findings(struct kitchen *kitchen, uint32_t *count)
{
    struct findings all;
    findings_open(&all, &kitchen->arena);
    *count = 0;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++) {
        struct findings *own = &kitchen->gatherings[i].findings;
        if (own->failed)
            return NULL;
        if (!own->first)
            continue;
        if (all.last)
            all.last->next = own->first;
        else
            all.first = own->first;
        all.last = own->last;
    }
    all.count = count_findings(kitchen);
    struct finding **sorted = findings_sorted(&all);
    for (uint32_t i = 0; sorted && i < all.count; i++) {
        if (sorted[i]->place.file == FILE_NONE || kitchen->files[sorted[i]->place.file].requested)
            sorted[(*count)++] = sorted[i];
    }
    return sorted;
}

static void count_severity(struct telling *telling, enum severity severity)
{
    telling->errors += severity == SEVERITY_ERROR;
    telling->warnings += severity == SEVERITY_WARNING;
    telling->notes += severity == SEVERITY_NOTE;
}

static void tell_finding(struct telling *telling, struct showing *showing, const struct finding *finding)
{
    count_severity(telling, shown_severity(showing, finding));
    if (telling->form == QUERN_AS_JSON) {
        struct writer collect = { .buffer = telling->all_findings };
        if (!telling->first_finding)
            buffer_add_string(&collect.buffer, ",");
        telling->first_finding = false;
        json_finding(showing, &collect, finding);
        telling->all_findings = collect.buffer;
    } else if (!telling->report) {
        people_finding(showing, finding);
    }
}


/* ---- reports ---- */

static bool is_wanted(const struct telling *telling, const struct kitchen *kitchen, struct recipe_at at)
{
    if (!kitchen->files[at.recipe->file].requested)
        return false;
    return !telling->only || kitchen_recipe(kitchen, text_of(telling->only)).recipe == at.recipe
        || text_is(at.recipe->name, telling->only);
}

/* The findings inside a recipe's block; `at` is the first that may be. */
static uint32_t findings_within(struct finding *const *findings, uint32_t count, uint32_t *at, const struct recipe *recipe)
{
    while (*at < count && (findings[*at]->place.file < recipe->file
                           || (findings[*at]->place.file == recipe->file
                               && findings[*at]->place.span.start < recipe->whole.start)))
        ++*at;
    uint32_t end = *at;
    while (end < count && findings[end]->place.file == recipe->file && findings[end]->place.span.start < recipe->whole.end)
        end++;
    return end - *at;
}

static void show_recipe(const struct telling *telling, struct showing *showing, const struct report *report)
{
    const struct sums *sums = report->sums;
    writer_print(showing->writer, "# ");
    writer_visible(showing->writer, sums->at.recipe->name);
    writer_print(showing->writer, "\n");
    if (strcmp(telling->stage, "names") == 0)
        show_names(showing, sums);
    else if (strcmp(telling->stage, "amounts") == 0)
        show_amounts(showing, sums);
    else
        show_limits(showing, report->verdicts);
}

static void write_recipe(struct telling *telling, struct showing *showing, const struct report *report)
{
    if (telling->stage) {
        show_recipe(telling, showing, report);
    } else if (telling->form == QUERN_AS_JSON) {
        if (!telling->first_recipe)
            writer_add(showing->writer, text_of(","));
        json_recipe(showing, report);
    } else {
        text_recipe(showing, report);
    }
    telling->first_recipe = false;
}

void telling_json_head(struct writer *writer)
{
    writer_print(writer, "{\"quern\":\"%s\",\"schema\":1,\"recipes\":[", quern_version());
}

void telling_document(struct telling *telling, struct showing *showing, const struct report *report)
{
    bool json = telling->form == QUERN_AS_JSON;
    telling->first_recipe = true;
    if (json)
        telling_json_head(showing->writer);
    write_recipe(telling, showing, report);
    if (!json)
        return;
    writer_add(showing->writer, text_of("],\"findings\":["));
    for (uint32_t i = 0; i < report->findings_count; i++) {
        writer_add(showing->writer, text_of(i ? "," : ""));
        json_finding(showing, showing->writer, report->findings[i]);
    }
    writer_add(showing->writer, text_of("]}\n"));
}

static enum status report_recipes(struct telling *telling, struct showing *showing, struct finding *const *findings, uint32_t count)
{
    const struct kitchen *kitchen = showing->kitchen;
    struct sums sums;
    struct verdicts verdicts = { 0 };
    enum status status = STATUS_OK;
    uint32_t at = 0;
    sums_open(&sums, kitchen->allocator);
    for (uint32_t i = 0; i < kitchen->recipes_count && status == STATUS_OK; i++) {
        uint32_t within = findings_within(findings, count, &at, kitchen->recipes[i].recipe);
        if (!is_wanted(telling, kitchen, kitchen->recipes[i]))
            continue;
        telling->found_recipe = true;
        status = sums_compute(&sums, kitchen->recipes[i]);
        if (status == STATUS_OK)
            status = recipe_judge(&sums, &verdicts, NULL);
        struct report report = { &sums, &verdicts, findings + at, within };
        if (status == STATUS_OK && telling->folder)
            status = report_file_write(telling, showing, &report);
        else if (status == STATUS_OK)
            write_recipe(telling, showing, &report);
        if (telling->writer.failed)
            status = STATUS_IO;
    }
    sums_close(&sums);
    verdicts_close(&verdicts, kitchen->allocator);
    return status;
}

static enum status tell_claims(struct telling *telling, struct showing *showing)
{
    const struct kitchen *kitchen = showing->kitchen;
    struct sums sums;
    enum status status = STATUS_OK;
    sums_open(&sums, kitchen->allocator);
    for (uint32_t i = 0; i < kitchen->recipes_count && status == STATUS_OK; i++) {
        if (!is_wanted(telling, kitchen, kitchen->recipes[i]))
            continue;
        status = sums_compute(&sums, kitchen->recipes[i]);
        if (status == STATUS_OK && telling->form == QUERN_AS_JSON) {
            struct writer collect = { .buffer = telling->all_claims };
            if (!telling->first_claims)
                buffer_add_string(&collect.buffer, ",");
            telling->first_claims = false;
            json_could_claim(showing, &collect, &sums);
            telling->all_claims = collect.buffer;
        } else if (status == STATUS_OK) {
            text_could_claim(showing, &sums);
        }
    }
    sums_close(&sums);
    return status;
}

/* Findings that stand in no recipe follow the reports of the kitchen. */
static void tell_rest(struct showing *showing, struct finding *const *findings, uint32_t count)
{
    const struct kitchen *kitchen = showing->kitchen;
    uint32_t at = 0;
    for (uint32_t i = 0; i < kitchen->recipes_count; i++) {
        uint32_t before = at;
        uint32_t within = findings_within(findings, count, &at, kitchen->recipes[i].recipe);
        for (uint32_t j = before; j < at; j++)
            people_finding(showing, findings[j]);
        at += within;
    }
    for (; at < count; at++)
        people_finding(showing, findings[at]);
}

enum status telling_kitchen(struct telling *telling, struct kitchen *kitchen)
{
    uint32_t count;
    struct finding **findings = join_findings(kitchen, &count);
    struct showing showing = { .kitchen = kitchen, .writer = &telling->writer, .strict = telling->strict,
                               .colour = telling->colour };
    if (!findings)
        return telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL);
    sources_open(&showing.sources, kitchen, telling->given.bytes ? telling->given : kitchen->input);
    enum status status = telling->report ? report_recipes(telling, &showing, findings, count) : STATUS_OK;
    for (uint32_t i = 0; i < count && status == STATUS_OK; i++)
        tell_finding(telling, &showing, findings[i]);
    if (status == STATUS_OK && telling->report && (telling->form == QUERN_AS_TEXT || telling->folder) && !telling->stage)
        tell_rest(&showing, findings, count);
    if (status == STATUS_OK && telling->claims)
        status = tell_claims(telling, &showing);
    bool failed = showing.sources.failed;
    sources_close(&showing.sources);
    return failed ? telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL) : status;
}
