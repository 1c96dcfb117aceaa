/* Telling what was found: findings and reports of one kitchen after another, streamed, so that memory does not grow
 * with the kitchens. */
#include <errno.h>
#include <string.h>

#include "output/csv.h"
#include "output/sheet.h"

enum status telling_fail(struct telling *telling, enum status status, const char *what, const char *why)
{
    int length = snprintf(telling->failure, sizeof telling->failure, "%.400s%s%s", what, why ? ": " : "", why ? why : "");
    return length < 0 ? STATUS_IO : status;
}

/* A file that was named and cannot be read means that the work was not done. */
enum status telling_unread(struct telling *telling, const struct kitchen *kitchen)
{
    if (kitchen->unread_path)
        return telling_fail(telling, STATUS_IO, kitchen->unread_path, strerror(kitchen->unread_reason));
    for (uint32_t i = 0; i < kitchen->files_count; i++) {
        const struct kitchen_file *file = &kitchen->files[i];
        if (file->status == STATUS_IO)
            return telling_fail(telling, STATUS_IO, file->path, file->is_refused ? PATH_REFUSED_WORDS : strerror(file->reason));
    }
    return STATUS_OK;
}

static uint32_t count_findings(const struct kitchen *kitchen)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        count += kitchen->gatherings[i].findings.count;
    return count;
}

/* They are joined from the gatherings. */
struct finding **telling_findings(struct kitchen *kitchen, uint32_t *count)
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
    if (!kitchen->files[at.recipe->file].requested || (telling->skips_days && at.recipe->is_day && !telling->only))
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

/* A day or week as JSON is kept, since all recipes stand before it. */
static void keep_json(struct telling *telling, struct showing *showing, const struct report *report)
{
    struct buffer *kept = report->week ? &telling->all_weeks : &telling->all_days;
    struct writer collect = { .buffer = *kept }, *writer = showing->writer;
    if (kept->length)
        writer_add(&collect, text_of(","));
    showing->writer = &collect;
    if (report->week)
        json_week(showing, *report->week, report->week_sum);
    else
        json_day(showing, report);
    showing->writer = writer;
    *kept = collect.buffer;
}

static void write_linked(struct telling *telling, struct showing *showing, const struct report *report)
{
    writer_add(showing->writer, text_of(telling->first_recipe ? "" : ","));
    telling->first_recipe = false;
    jsonld_recipe(showing, report);
}

static void csv_heads(struct telling *telling, struct showing *showing)
{
    if (telling->first_recipe && telling->lines)
        csv_line_heads(showing);
    else if (telling->first_recipe)
        csv_nutrient_heads(showing->writer);
    telling->first_recipe = false;
}

static void write_csv(struct telling *telling, struct showing *showing, const struct report *report)
{
    csv_heads(telling, showing);
    if (telling->lines)
        csv_lines(showing, report);
    else
        csv_nutrients(showing, report);
}

static enum status tell_report(struct telling *telling, struct showing *showing, struct sheet *sheet, const struct report *report)
{
    enum status status = STATUS_OK;
    sheet_begin(sheet, report_name(report));
    if (telling->folder)
        index_link(telling, sheet);
    if (telling->panel)
        panel_tell(showing, sheet, report);
    else if (report->week)
        status = report_tell_week(showing, sheet, report);
    else
        report_tell(showing, sheet, report);
    sheet_end(sheet);
    return status;
}

/* A report as a document of its own, or one of several in the document that is open. */
static enum status write_sheet(struct telling *telling, struct showing *showing, const struct report *report)
{
    struct sheet own = { .look = NULL }, *sheet = telling->sheet ? telling->sheet : &own;
    enum status status = STATUS_OK;
    if (!telling->sheet)
        sheet_open(sheet, sheet_look(telling->form), showing->writer, telling->allocator);
    sheet->large = telling->large;
    if (telling->each)
        status = telling->each(telling, showing, sheet, report);
    else
        status = tell_report(telling, showing, sheet, report);
    if (telling->sheet)
        sheet_forget(sheet);
    else
        sheet_close(sheet);
    return status;
}

static enum status write_report(struct telling *telling, struct showing *showing, const struct report *report)
{
    bool is_recipe = !report->week && !report->sums->at.recipe->is_day;
    if (telling->stage && !report->week) {
        show_recipe(telling, showing, report);
    } else if (telling->form == QUERN_AS_JSON && !is_recipe) {
        keep_json(telling, showing, report);
    } else if (telling->form == QUERN_AS_JSON) {
        if (!telling->first_recipe)
            writer_add(showing->writer, text_of(","));
        json_recipe(showing, report);
        telling->first_recipe = false;
    } else if (telling->form == QUERN_AS_JSONLD && !telling->stage) {
        if (is_recipe)
            write_linked(telling, showing, report);
    } else if (telling->form == QUERN_AS_CSV && !telling->stage) {
        write_csv(telling, showing, report);
    } else if (!telling->stage) {
        return write_sheet(telling, showing, report);
    }
    return STATUS_OK;
}

struct text report_name(const struct report *report)
{
    return report->week ? report->week->week->name : report->sums->at.recipe->name;
}

void telling_json_head(struct writer *writer)
{
    writer_print(writer, "{\"quern\":\"%s\",\"schema\":%d,\"recipes\":[", quern_version(), JSON_VERSION);
}

void telling_json_days(struct telling *telling, struct writer *writer)
{
    writer_add(writer, text_of("],\"days\":["));
    writer_add(writer, (struct text){ telling->all_days.bytes, (uint32_t)telling->all_days.length });
    writer_add(writer, text_of("],\"weeks\":["));
    writer_add(writer, (struct text){ telling->all_weeks.bytes, (uint32_t)telling->all_weeks.length });
}

enum status telling_document(struct telling *telling, struct showing *showing, const struct report *report)
{
    bool json = telling->form == QUERN_AS_JSON, linked = telling->form == QUERN_AS_JSONLD;
    telling->first_recipe = true;
    telling->all_days.length = telling->all_weeks.length = 0;
    if (json)
        telling_json_head(showing->writer);
    if (linked)
        jsonld_head(showing->writer);
    enum status status = write_report(telling, showing, report);
    if (linked)
        jsonld_tail(showing->writer);
    if (!json)
        return status;
    telling_json_days(telling, showing->writer);
    writer_add(showing->writer, text_of("],\"findings\":["));
    for (uint32_t i = 0; i < report->findings_count; i++) {
        writer_add(showing->writer, text_of(i ? "," : ""));
        json_finding(showing, showing->writer, report->findings[i]);
    }
    writer_add(showing->writer, text_of("]}\n"));
    return status;
}

static enum status send_report(struct telling *telling, struct showing *showing, const struct report *report)
{
    telling->found_recipe = true;
    enum status status = telling->folder ? report_file_write(telling, showing, report) : write_report(telling, showing, report);
    return telling->writer.failed ? STATUS_IO : status;
}

static bool is_week_wanted(const struct telling *telling, const struct kitchen *kitchen, const struct week *week)
{
    char key[KEY_BYTES], other[KEY_BYTES];
    if (!kitchen->files[week->file].requested || (telling->each && !telling->only))
        return false;
    if (!telling->only)
        return true;
    struct text wanted = { key, name_key_of(text_of(telling->only), true, key) }, name = { other, name_key_of(week->name, true, other) };
    return text_equal(wanted, name);
}

static enum status report_weeks(struct telling *telling, struct showing *showing, struct sums *sums)
{
    const struct kitchen *kitchen = showing->kitchen;
    enum status status = STATUS_OK;
    for (uint32_t i = 0; i < kitchen->weeks_count && status == STATUS_OK; i++) {
        struct week_sum week;
        if (!is_week_wanted(telling, kitchen, kitchen->weeks[i].week))
            continue;
        status = week_compute(kitchen, kitchen->weeks[i], sums, &week);
        struct report report = { .sums = sums, .week = &kitchen->weeks[i], .week_sum = &week };
        if (status == STATUS_OK)
            status = send_report(telling, showing, &report);
    }
    return status;
}

/* ---- several reports in one document ---- */

static uint32_t count_wanted(const struct telling *telling, const struct kitchen *kitchen)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < kitchen->recipes_count; i++)
        count += is_wanted(telling, kitchen, kitchen->recipes[i]);
    for (uint32_t i = 0; i < kitchen->weeks_count; i++)
        count += is_week_wanted(telling, kitchen, kitchen->weeks[i].week);
    return count;
}

/* Pages and Markdown that are not put into a folder are one document, whatever stands in it. Text is one report below the
 * other, and what belongs to none of them is told as `quern check` would. */
static bool is_one_document(const struct telling *telling)
{
    return telling->report && !telling->each && !telling->folder && !telling->stage && (telling->form == QUERN_AS_HTML || telling->form == QUERN_AS_MARKDOWN);
}

/* A report alone needs no document around it. */
static enum status begin_document(struct telling *telling, const struct kitchen *kitchen, uint32_t loose)
{
    uint32_t wanted = count_wanted(telling, kitchen);
    if (telling->sheet || (telling->kitchens == 1 && wanted == 1 && loose == 0) || (wanted == 0 && telling->only))
        return STATUS_OK;
    struct sheet *sheet = telling->allocator.resize(telling->allocator.context, NULL, sizeof *sheet);
    if (!sheet)
        return telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL);
    sheet_open(sheet, sheet_look(telling->form), &telling->writer, telling->allocator);
    telling->sheet = sheet;
    sheet->large = telling->large;
    bool named = telling->kitchens == 1 && kitchen->name.length;
    sheet_begin_all(sheet, named ? sheet_say(sheet, PHRASE_REPORT_MANY, kitchen->name) : phrase_text(PHRASE_REPORT_MANY_UNNAMED));
    if (telling->kitchens == 1 && wanted == 0)
        sheet_paragraph(sheet, MANNER_PLAIN, phrase_text(PHRASE_REPORT_NONE));
    return STATUS_OK;
}

void telling_end_document(struct telling *telling)
{
    if (!telling->sheet)
        return;
    sheet_end_all(telling->sheet);
    sheet_close(telling->sheet);
    telling->allocator.resize(telling->allocator.context, telling->sheet, 0);
    telling->sheet = NULL;
}

static void tell_loose_findings(struct telling *telling, struct showing *showing, struct finding *const *loose, uint32_t count)
{
    if (!count || !telling->sheet)
        return;
    sheet_begin(telling->sheet, phrase_text(PHRASE_REPORT_LOOSE));
    report_tell_findings(showing, telling->sheet, loose, count);
    sheet_end(telling->sheet);
}

static enum status report_recipes(struct telling *telling, struct showing *showing, struct finding *const *findings, uint32_t count)
{
    const struct kitchen *kitchen = showing->kitchen;
    struct sums sums;
    struct verdicts verdicts = { 0 };
    enum status status = STATUS_OK;
    uint32_t at = 0;
    /* Of several kitchens only the one that is open is known. */
    telling->files_expected = telling->kitchens == 1 ? kitchen->recipes_count + kitchen->weeks_count : 0;
    sums_open(&sums, kitchen->allocator);
    for (uint32_t i = 0; i < kitchen->recipes_count && status == STATUS_OK; i++) {
        uint32_t within = findings_within(findings, count, &at, kitchen->recipes[i].recipe);
        if (!is_wanted(telling, kitchen, kitchen->recipes[i]))
            continue;
        status = sums_compute(&sums, kitchen->recipes[i]);
        if (status == STATUS_OK)
            status = recipe_judge(&sums, &verdicts, NULL);
        struct report report = { .sums = &sums, .verdicts = &verdicts, .findings = findings + at, .findings_count = within };
        if (status == STATUS_OK)
            status = send_report(telling, showing, &report);
    }
    if (status == STATUS_OK)
        status = report_weeks(telling, showing, &sums);
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
        if (!is_wanted(telling, kitchen, kitchen->recipes[i]) || kitchen->recipes[i].recipe->is_day)
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

/* Findings that stand in no recipe: they follow the reports of the kitchen. */
static uint32_t find_loose(const struct kitchen *kitchen, struct finding *const *findings, uint32_t count, struct finding **loose)
{
    uint32_t at = 0, found = 0;
    for (uint32_t i = 0; i < kitchen->recipes_count; i++) {
        uint32_t before = at;
        uint32_t within = findings_within(findings, count, &at, kitchen->recipes[i].recipe);
        for (uint32_t j = before; j < at; j++)
            loose[found++] = findings[j];
        at += within;
    }
    while (at < count)
        loose[found++] = findings[at++];
    return found;
}

static void tell_loose(struct telling *telling, struct showing *showing, const struct finding *finding)
{
    if (telling->form == QUERN_AS_CSV && !telling->folder) {
        csv_heads(telling, showing);
        csv_finding(showing, finding, telling->lines);
    } else {
        people_finding(showing, finding);
    }
}

static void tell_rest(struct telling *telling, struct showing *showing, struct finding *const *loose, uint32_t count)
{
    bool as_people = telling->form == QUERN_AS_TEXT || telling->form == QUERN_AS_CSV || telling->folder;
    if (!telling->report || telling->stage || telling->each)
        return;
    if (is_one_document(telling))
        tell_loose_findings(telling, showing, loose, count);
    for (uint32_t i = 0; i < count && as_people; i++)
        tell_loose(telling, showing, loose[i]);
}

static enum status tell_kitchen(struct telling *telling, struct showing *showing, struct finding **findings, uint32_t count, struct finding **loose)
{
    uint32_t loose_count = telling->each ? 0 : find_loose(showing->kitchen, findings, count, loose);    /* handouts are silent about them */
    enum status status = is_one_document(telling) ? begin_document(telling, showing->kitchen, loose_count) : STATUS_OK;
    if (status == STATUS_OK && telling->report)
        status = report_recipes(telling, showing, findings, count);
    for (uint32_t i = 0; i < count && status == STATUS_OK; i++)
        tell_finding(telling, showing, findings[i]);
    if (status == STATUS_OK)
        tell_rest(telling, showing, loose, loose_count);
    if (status == STATUS_OK && telling->claims)
        status = tell_claims(telling, showing);
    return status;
}

enum status telling_kitchen(struct telling *telling, struct kitchen *kitchen)
{
    uint32_t count;
    struct finding **findings = telling_findings(kitchen, &count);
    struct finding **loose = findings ? arena_take(&kitchen->arena, (count + 1) * sizeof *loose) : NULL;
    struct showing showing = { .kitchen = kitchen, .writer = &telling->writer, .strict = telling->strict,
                               .colour = telling->colour, .day = telling->day };
    if (!loose)
        return telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL);
    sources_open(&showing.sources, kitchen, telling->given.bytes ? telling->given : kitchen->input);
    enum status status = tell_kitchen(telling, &showing, findings, count, loose);
    bool failed = showing.sources.failed;
    sources_close(&showing.sources);
    return failed ? telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL) : status;
}
